"""The working: what every answer keeps of how it came about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from gardenlib.units import Quantity, Range
from gardenlib.words import Said

__all__ = ["Answer", "Quantity", "Range", "Step"]

Value = Quantity | Range | date | str | int | float | None


@dataclass(frozen=True)
class Step:
    """One step of the working, in the unit in which its source publishes the formula.

    Parameters
    ----------
    key : str
        Key of the step's words, below ``step.``.
    expression : str
        The formula with its names, as it would be written by hand.
    inputs : mapping of str to value
        What went in, by the names in `expression`.
    result : value
        What came out.
    source : str
        Key in the table of sources, or ``common_practice``.
    """

    key: str
    expression: str
    inputs: Mapping[str, Value]
    result: Value
    source: str


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What every answer has beside its own fields."""

    steps: tuple[Step, ...] = field(default=(), repr=False)
    assumptions: tuple[Said, ...] = field(default=(), repr=False)
    sources: tuple[str, ...] = field(default=(), repr=False)
