"""What a planting needs and stands: warmth, water and cover, and what it may yield."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import numpy as np

from gardenlib.beds.water_rows import row_of, soil_of
from gardenlib.harvest import expected_yield
from gardenlib.problems import InputProblem
from gardenlib.season.plan_row import Thirst
from gardenlib.site.freeze import date_of, half_bounds
from gardenlib.site.past_seasons import YEAR_DAYS
from gardenlib.sowing.past_heat import Base
from gardenlib.sowing.windows import Path, days_of_weeks, later, weeks_for
from gardenlib.units import Range
from gardenlib.words import Said
from gardenlib.working import Notes

if TYPE_CHECKING:
    from gardenlib.site import FreezeDates, Warmth
    from gardenlib.tables import Crop


def heat_sum(warmth: Warmth, base: Base, start: date, days: Range) -> Range:
    """Add up the typical year's degree days over the fewest and the most days."""
    typical = warmth.degree_days(base.lower_c, base.upper_c)
    # 29 February is left out of the typical year; a day later or earlier changes nothing.
    begins = (start - date(start.year, 1, 1)).days
    low, high = (
        float(np.take(typical, range(begins, begins + int(count + 0.5)), mode="wrap").sum())
        for count in (days.low, days.high)
    )
    return Range(low, high, "degC_days")


def growing_year(latitude: float, year: int) -> tuple[date, date]:
    """Give the first and the last day of a growing year: from midwinter to midwinter."""
    first = half_bounds(latitude, "spring")[0]
    return date_of(first, year), date_of(first + YEAR_DAYS - 1, year)


def thirst_of(plant: Crop, texture: str | None, depth_m: float | None) -> Thirst | None:
    """Give what its water is reckoned with; None where FAO-56 has no row."""
    row = row_of("water_crops", "crop", plant.id)
    lengths = None if row is None else row_of("water_stages", "stages", row["stages"])
    if row is None or lengths is None:
        return None
    return Thirst(
        kc=(row["kc_start"], row["kc_full"], row["kc_end"]),
        stage_days=(lengths["start_days"], lengths["growing_days"], lengths["full_days"], lengths["late_days"]),
        root_m=min(row["root_low_m"], depth_m) if depth_m else row["root_low_m"],
        ready_fraction=row["ready_fraction"],
        held_mm_m=soil_of(texture, Notes())[1],
    )


def kg_of(plant: Crop, plants: int | None) -> Range | None:
    """Give what so many plants may yield; None where that is not known."""
    if plants is None:
        return None
    try:
        return expected_yield(plant, plants=plants).kg
    except InputProblem:
        return None


def cover_of(cover: str, unknown: list[Said]) -> Range | None:
    """Give what a cover adds to a night as it is published; None where nobody has, and that is said."""
    row = row_of("cold_covers", "cover", cover)
    if row is not None:
        return Range(row["low_f"] / 1.8, row["high_f"] / 1.8, "degC_difference")
    if cover:
        unknown.append(Said("replay.cover_no_figure", {"cover": Said(f"replay.cover_{cover}")}))
    return None


def usual_start(plant: Crop, path: Path, freezes: FreezeDates, year: int, region: str | None) -> date | None:
    """Give the middle of the published weeks, from the last freeze of the middle spring."""
    weeks = weeks_for(plant, path, region)
    last = freezes.date("spring", 32, 0.5, year=year) if freezes.knows("spring", 32, 0.5) else None
    return None if weeks is None or last is None else later(last, days_of_weeks((weeks.low + weeks.high) / 2))
