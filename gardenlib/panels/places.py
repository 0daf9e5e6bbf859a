"""What panels show of the learner's place: dates of one season, its risk curves, the working."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

import pandas as pd

from gardenlib.site import FreezeDates
from gardenlib.words import Voice
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session
    from gardenlib.plot import Site

MIDDLE = 0.5


@dataclass(frozen=True)
class PlanDates:
    """Freeze dates of one season, None also where they are not known."""

    freezes: FreezeDates
    year: int

    def date(self, half: Any, threshold_f: int, risk: float) -> date | None:
        """Give the date at this risk, or None when there is none or it is not known."""
        if not self.freezes.knows(half, threshold_f, risk):
            return None
        return self.freezes.date(half, threshold_f, risk, year=self.year)

    def words(self, half: Any, threshold_f: int, risk: float, voice: Voice) -> str:
        """Say the date, or that there is none, or that it is not known."""
        if not self.freezes.knows(half, threshold_f, risk):
            return voice.say("place.not_known")
        day = self.freezes.date(half, threshold_f, risk, year=self.year)
        return voice.say("place.no_date") if day is None else voice.date(day, "MMMd")


def season_curves(freezes: FreezeDates, threshold_f: int, year: int) -> pd.DataFrame:
    """Put the falling risk of spring and the rising risk of fall in one table."""
    spring = freezes.curve("spring", threshold_f, year=year).assign(half="spring")
    fall = freezes.curve("fall", threshold_f, year=year).assign(half="fall")
    return pd.concat([spring, fall], ignore_index=True)


def freeze_working(session: Session, threshold_f: int, risk: float) -> Answer:
    """Gather the steps that lead to the date of the last freeze at a risk."""
    freezes = session.freezes
    steps = freezes.working("spring", threshold_f, risk, year=session.year)
    return Answer(steps=steps, assumptions=freezes.assumptions, sources=freezes.sources)


def ways(own: Site) -> list[str]:
    """List where this learner's dates can come from."""
    return ["class", *(["typed"] if own.dates_from else []), *(["file"] if own.station_file else [])]
