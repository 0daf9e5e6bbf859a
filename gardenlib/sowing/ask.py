"""What was asked, and one window as the answer to it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from gardenlib.sowing.windows import Days, Path
from gardenlib.tables import Crop, Published
from gardenlib.units import Quantity, Range, f_to_c
from gardenlib.words import Said
from gardenlib.working import Notes, Value

if TYPE_CHECKING:
    from gardenlib.site import FreezeDates, Warmth


@dataclass(frozen=True, kw_only=True)
class Ask:
    """One crop at one place in one year; dates and sentences as in `sowing_dates`."""

    plant: Crop
    freezes: FreezeDates
    year: int
    risk: float
    warmth: Warmth | None
    garden_opens: date | None
    garden_closes: date | None
    region: str | None
    hardened: bool

    @property
    def freeze_source(self) -> str:
        """Key of the source of the freeze dates, for a step."""
        return self.freezes.sources[0] if self.freezes.sources else "common_practice"

    @property
    def springs(self) -> float:
        """The risk, in springs out of ten."""
        return self.risk * 10


@dataclass(frozen=True, kw_only=True)
class Window:
    """First and last day to plant, or the reason why there is none."""

    days: Days | None = None
    days_to_harvest: Range | None = None
    published: Days | None = None
    cold_limit: date | None = None
    heat_date: date | None = None
    short_by_days: int | None = None
    reason: Said | None = None


def as_temp(temp_f: float) -> Quantity:
    """Hold a trade threshold as the library holds temperatures."""
    return Quantity(f_to_c(float(temp_f)), "degC")


def days_to_harvest(ask: Ask, path: Path, notes: Notes) -> Published | None:
    """Choose the days that count from this kind of planting and say how sure they are.

    Days from transplants and days from seed are never taken for one another; days whose basis no source states are
    used only where there are no others.
    """
    plant = ask.plant
    published = path.days(plant)
    if published is None:
        published = plant.days_basis_not_stated
        if published is None:
            notes.say("sowing.no_days", crop=plant.name)
            return None
        notes.say("sowing.days_basis_not_stated", crop=plant.name)
    if published.status == "memory":
        notes.say("sowing.days_unchecked", crop=plant.name)
    notes.cite(*published.sources)
    return published


def last_useful_day(ask: Ask, opens: date, end: date, days: Published, notes: Notes) -> tuple[date, Range]:
    """Give the last day from which plants are ready by the end of the season, and the days they take.

    Where a season leaves no room for the usual kinds, the quickest published kinds are taken.
    """
    taken = days.typical
    if opens + timedelta(days=math.ceil(taken.low)) > end and days.full.low < taken.low:
        taken = Range(days.full.low, days.full.low, "days")
        if opens + timedelta(days=math.ceil(taken.low)) <= end:
            notes.say("sowing.quick_kind", crop=ask.plant.name, days=Quantity((end - opens).days, "days"))
    day = end - timedelta(days=math.ceil(taken.low))
    inputs: dict[str, Value] = {"season_end": end, "fewest_days": Quantity(taken.low, "days")}
    notes.step("sowing.last_useful", "season_end - fewest_days", inputs, day, days.sources[0])
    return day, taken
