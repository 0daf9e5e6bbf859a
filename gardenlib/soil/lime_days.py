"""When lime goes on: counted in months from the planting."""

from __future__ import annotations

from datetime import date

import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.soil.lime_limits import limit


def first_day(plant_on: date | None, not_before: date | None) -> tuple[date | None, bool | None]:
    """Give the day of the first dose and whether it is early enough; a planting date in the past is refused."""
    if plant_on is None:
        return not_before, None
    if not_before is not None and plant_on < not_before:
        raise InputProblem("lime.planted_before", plant_on=plant_on, not_before=not_before)
    lead = limit("before_planting")
    wanted = later(plant_on, -int(lead.high))
    first = wanted if not_before is None else max(wanted, not_before)
    return first, first <= later(plant_on, -int(lead.low))


def later(day: date, months: int) -> date:
    """Go some months on from a day, or back."""
    return (pd.Timestamp(day) + pd.DateOffset(months=months)).date()
