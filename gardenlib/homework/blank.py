"""What a record keeps of a blank: what is accepted there, and the foreseen mistakes."""

from __future__ import annotations

from datetime import date
from typing import Literal

from pydantic import BaseModel, ConfigDict

Kind = Literal["number", "range", "date", "words"]
Typable = float | tuple[float, float] | date | str


class Span(BaseModel):
    """A value that is accepted within limits: one number, two for a range, a day, or words.

    Parameters
    ----------
    low, high : float or None
        Lowest and highest number accepted, in the blank's unit; for a range those of its lower end.
    upper_low, upper_high : float or None
        The same of a range's upper end; None where one number is meant.
    first, last : date or None
        First and last day accepted.
    accepted : tuple of str
        Words accepted, written small.
    shown : str
        The value as it is printed.
    """

    model_config = ConfigDict(frozen=True, allow_inf_nan=False)

    low: float | None = None
    high: float | None = None
    upper_low: float | None = None
    upper_high: float | None = None
    first: date | None = None
    last: date | None = None
    accepted: tuple[str, ...] = ()
    shown: str = ""

    def holds(self, value: Typable) -> bool:
        """Tell whether a value lies within."""
        if isinstance(value, date):
            return self.first is not None and self.last is not None and self.first <= value <= self.last
        if isinstance(value, str):
            return value in self.accepted
        if isinstance(value, tuple):
            return _within(value[0], self.low, self.high) and _within(value[1], self.upper_low, self.upper_high)
        return self.upper_low is None and _within(value, self.low, self.high)

    @property
    def middle(self) -> Typable:
        """The value itself, in the middle of what is accepted."""
        if self.first is not None:
            return self.first
        if self.low is None or self.high is None:
            return self.accepted[0]
        lower = (self.low + self.high) / 2
        if self.upper_low is None or self.upper_high is None:
            return lower
        return lower, (self.upper_low + self.upper_high) / 2


def _within(value: float, low: float | None, high: float | None) -> bool:
    return low is not None and high is not None and low <= value <= high


class BlankSlip(Span):
    """A foreseen mistake at a blank: its value, what is said to it and the panel that shows it."""

    id: str
    reply: str
    look: str


class Blank(Span):
    """One result that is asked.

    Parameters
    ----------
    id : str
        The question's id and the step's number, such as ``03.fit.3.5``.
    kind : {"number", "range", "date", "words"}
        What is asked.
    unit, unit_words : str
        Name of the unit, empty for a plain count, and how it is printed behind the boxes.
    digits_before, digits_behind : int
        Boxes for digits before the point and behind it.
    signed : bool
        Whether answers of this kind may be below zero, so that there is a box for the sign.
    look : str
        The panel that shows how it is done.
    slips : tuple of BlankSlip
        The foreseen mistakes; none lies within what is accepted.
    """

    id: str
    kind: Kind
    unit: str = ""
    unit_words: str = ""
    digits_before: int = 0
    digits_behind: int = 0
    signed: bool = False
    look: str = ""
    slips: tuple[BlankSlip, ...] = ()

    @property
    def step(self) -> int:
        """The number of its step."""
        return int(self.id.rpartition(".")[2])
