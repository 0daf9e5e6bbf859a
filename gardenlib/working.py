"""The working: what every answer keeps of how it came about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from gardenlib.units import Quantity, Range
from gardenlib.words import Said, Voice

__all__ = ["COMMON_PRACTICE", "Answer", "Notes", "Quantity", "Range", "Step", "cited"]

COMMON_PRACTICE = "common_practice"
"""The source of a step that nobody publishes."""

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

    def given(self, voice: Voice) -> str:
        """Write what went in, each with its name."""
        return "; ".join(f"{name.replace('_', ' ')}: {voice.value(value)}" for name, value in self.inputs.items())


def cited(key: str, voice: Voice) -> str:
    """Write where a figure comes from, and that it is unchecked where it is from memory."""
    from gardenlib import tables

    if key == COMMON_PRACTICE:
        return voice.say("page.common_practice")
    source = tables.source(key)
    return source.citation if source.status == "published" else voice.say("page.unchecked", source=source.citation)


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What every answer has beside its own fields."""

    steps: tuple[Step, ...] = field(default=(), repr=False)
    assumptions: tuple[Said, ...] = field(default=(), repr=False)
    sources: tuple[str, ...] = field(default=(), repr=False)


@dataclass
class Notes:
    """Steps, assumptions and sources, each once, in the order in which they came up."""

    steps: list[Step] = field(default_factory=list)
    assumptions: list[Said] = field(default_factory=list)
    sources: list[str] = field(default_factory=list)

    def step(self, key: str, expression: str, inputs: Mapping[str, Value], result: Value, source: str) -> None:
        """Keep a step of the working."""
        step = Step(key, expression, inputs, result, source)
        if step not in self.steps:
            self.steps.append(step)
        self.cite(source)

    def say(self, key: str, *cited: str, **values: Any) -> None:
        """Keep an assumption and the sources it leans on."""
        said = Said(key, values)
        if said not in self.assumptions:
            self.assumptions.append(said)
        self.cite(*cited)

    def cite(self, *keys: str) -> None:
        """Keep the keys of sources."""
        self.sources.extend(key for key in dict.fromkeys(keys) if key not in self.sources)

    def parts(self) -> dict[str, Any]:
        """Give what every answer has."""
        return {
            "steps": tuple(self.steps),
            "assumptions": tuple(self.assumptions),
            "sources": tuple(self.sources),
        }
