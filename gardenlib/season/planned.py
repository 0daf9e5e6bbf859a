"""A plot's plantings as they are planned: their dates, and what each of them stands and needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

import numpy as np

from gardenlib.beds.water_rows import row_of, soil_of
from gardenlib.harvest import expected_yield, planted_how
from gardenlib.problems import InputProblem
from gardenlib.site.freeze import date_of, half_bounds
from gardenlib.site.past_seasons import YEAR_DAYS
from gardenlib.sowing import cold_limit_f, crops_with_base, sowing_dates
from gardenlib.sowing.count_back import SLOWER_DAYS
from gardenlib.sowing.limits import as_crop, full_grown_temp_f
from gardenlib.sowing.past_heat import Base, base_of
from gardenlib.sowing.windows import Path, days_of_weeks, later, paths_of, weeks_for
from gardenlib.tables.loader import rows
from gardenlib.units import Range, f_to_c
from gardenlib.words import Said
from gardenlib.working import Notes

if TYPE_CHECKING:
    from gardenlib.plot import Planting, Plot
    from gardenlib.site import FreezeDates, Warmth
    from gardenlib.sowing import SowingDates
    from gardenlib.tables import Crop

__all__ = ["PlannedPlanting", "plan_dates"]


@dataclass(frozen=True, kw_only=True)
class Thirst:
    """What a crop's water needs are reckoned with (FAO-56): coefficients, stages, roots and the soil's water."""

    kc: tuple[float, float, float]
    stage_days: tuple[float, float, float, float]
    root_m: float
    ready_fraction: float
    held_mm_m: float


@dataclass(frozen=True, kw_only=True)
class PlannedPlanting:
    """One planting with its dates and limits.

    Parameters
    ----------
    id : str
        The planting's id in the plot file.
    crop : Crop
        What is planted.
    event : {"set_out", "direct_sow"}
        How it is planted.
    planted_on : date or None
        First day of its window, moved by the weeks that were chosen; None without a window.
    usual_start : date or None
        The day from which the published days are counted: the middle of the published weeks, else the window's first.
    emerge_days : int
        Days until a sown seed is above the ground; 0 for plants.
    days : Range or None
        Days to the first harvest.
    heat_sum : Range or None
        Degree days to the first harvest, degrees Celsius times days; None where no base is published.
    base : Base or None
        The temperatures between which they count.
    young_c, grown_c : float
        The night that hurts it in the spring half, and the one that ends it in the fall half, degrees Celsius.
    cover_c : float
        What its cover adds to a night, degrees Celsius.
    heat_c : float or None
        Highest published mean for growth, degrees Celsius.
    cold_days, cold_below_c : int, float, or None
        So many days with a mean below it may make it bolt; None where no limit is known.
    thirst : Thirst or None
        What its water is reckoned with; None where FAO-56 has no row.
    watered : bool
        Whether somebody waters it.
    kg : Range or None
        What it may yield; None where nothing is known or no number of plants was given.
    replayed : bool
        Whether past seasons can tell how it would have done.
    unknown : tuple of Said
        What is not known of it, or assumed.
    """

    id: str
    crop: Crop
    event: str
    planted_on: date | None
    usual_start: date | None
    emerge_days: int
    days: Range | None
    heat_sum: Range | None
    base: Base | None
    young_c: float
    grown_c: float
    cover_c: float
    heat_c: float | None
    cold_days: int | None
    cold_below_c: float | None
    thirst: Thirst | None
    watered: bool
    kg: Range | None
    replayed: bool
    unknown: tuple[Said, ...]


def plan_dates(
    plot: Plot,
    freezes: FreezeDates,
    *,
    year: int,
    warmth: Warmth | None = None,
    crops: Mapping[str, Crop] | None = None,
    region: str | None = None,
    garden_opens: date | None = None,
    garden_closes: date | None = None,
) -> tuple[PlannedPlanting, ...]:
    """Give each planting of a plot its dates and limits.

    Parameters
    ----------
    plot : Plot
        The plot file, read.
    freezes : FreezeDates
        Of the plot.
    year : int
        The calendar year of the season's spring.
    warmth : Warmth, optional
        Typical year of the place.
    crops : mapping of str to Crop, optional
        Crops that the class added, by id.
    region : str, optional
        Key of the source whose weeks count.
    garden_opens, garden_closes : date, optional
        Nothing is planted before the one or ready after the other.

    Returns
    -------
    tuple of PlannedPlanting
        One for each planting, in the plot's order.

    Raises
    ------
    InputProblem
        When the plot holds no planting, or one of a crop that is not known.

    Notes
    -----
    Source: the dates are those of `sowing.sowing_dates`; the planting is put in on the first day of its window. The
    typical year's degree days from the middle of the published weeks over the published days are taken as its total:
    our own calibration, as in `sowing.even_harvest`.

    Examples
    --------
    >>> from gardenlib.plot import Planting, Plot
    >>> from gardenlib.site import FreezeDates
    >>> here = FreezeDates.typed((4, 15), (10, 15), source="class list", latitude=40.0)
    >>> one = plan_dates(Plot(plantings=(Planting(id="a", crop="cauliflower"),)), here, year=2027)[0]
    >>> one.planted_on, one.cover_c
    (datetime.date(2027, 4, 15), 0.0)
    """
    if not plot.plantings:
        raise InputProblem("season.no_plantings")
    depths = {bed.id: bed.depth_m for bed in plot.beds if bed.kind == "raised"}
    texture = plot.soil.texture or None
    made = []
    for planting in plot.plantings:
        plant = (crops or {}).get(planting.crop) or as_crop(planting.crop)
        dates = sowing_dates(
            plant,
            freezes,
            year=year,
            risk=planting.risk,
            season=planting.season,
            warmth=warmth,
            garden_opens=garden_opens,
            garden_closes=garden_closes,
            region=region,
            started=planting.started,
        )
        made.append(
            _one(planting, plant, dates, freezes, warmth, year, region, texture, depths.get(planting.bed or ""))
        )
    return tuple(made)


def _one(
    planting: Planting,
    plant: Crop,
    dates: SowingDates,
    freezes: FreezeDates,
    warmth: Warmth | None,
    year: int,
    region: str | None,
    texture: str | None,
    depth_m: float | None,
) -> PlannedPlanting:
    unknown: list[Said] = []
    path, first = _way(plant, planting, dates)
    if first is None:
        unknown.append(dates.reason or Said("replay.no_window", {"crop": plant.name}))
    elif planting.moved_weeks:
        first = first + timedelta(days=7 * planting.moved_weeks)
    found = path.days(plant) or plant.days_basis_not_stated
    days = None if found is None else found.typical
    if days is None:
        unknown.append(Said("replay.no_days", {"crop": plant.name}))
    base = base_of(plant) if plant.id in crops_with_base() and warmth is not None else None
    if days is not None and base is None and planting.season == "fall":
        days = Range(days.low + SLOWER_DAYS, days.high + SLOWER_DAYS, "days")
    usual = _usual_start(plant, path, freezes, year, region) if planting.season == "spring" else None
    usual = usual or (first and first - timedelta(days=7 * planting.moved_weeks))
    total = None
    if base is not None and days is not None and usual is not None and warmth is not None:
        total = _heat_sum(warmth, base, usual, days)
    elif base is None:
        unknown.append(Said("replay.by_days", {"crop": plant.name}))
    if plant.growth_max_mean_c is None:
        unknown.append(Said("replay.no_heat_limit", {"crop": plant.name}))
    cold = next((row for row in rows("cold_response") if row["crop"] == plant.id), None)
    limit = cold is not None and cold["days"] is not None
    if cold is not None and not limit:
        unknown.append(Said("replay.no_bolting_limit", {"crop": plant.name}))
    thirst = _thirst(plant, texture, depth_m)
    if thirst is None and not planting.watered:
        unknown.append(Said("replay.no_water_row", {"crop": plant.name}))
    kg = _kg(plant, planting.plants)
    if kg is None:
        unknown.append(Said("replay.no_kg", {"crop": plant.name}))
    runs_over = first is not None and days is not None and _runs_over(first, days, freezes.latitude, year)
    if planting.season == "cool" and runs_over:
        unknown.append(Said("replay.runs_over", {"crop": plant.name}))
    sown = path.name == "direct_sow"
    return PlannedPlanting(
        id=planting.id,
        crop=plant,
        event=path.name,
        planted_on=first,
        usual_start=usual,
        emerge_days=int(plant.emergence_days or 0) if sown else 0,
        days=days,
        heat_sum=total,
        base=base if total is not None else None,
        young_c=f_to_c(float(cold_limit_f(plant))),
        grown_c=f_to_c(float(full_grown_temp_f(plant))),
        cover_c=_cover_c(planting.cover, unknown),
        heat_c=plant.growth_max_mean_c,
        cold_days=int(cold["days"]) if cold is not None and limit else None,
        cold_below_c=f_to_c(cold["below_f"]) if cold is not None and limit else None,
        thirst=thirst,
        watered=planting.watered,
        kg=kg,
        replayed=first is not None and days is not None and not (planting.season == "cool" and runs_over),
        unknown=tuple(unknown),
    )


def _way(plant: Crop, planting: Planting, dates: SowingDates) -> tuple[Path, date | None]:
    """Choose how it is planted: as its days to harvest count, bought plants set out; else the way with a window."""
    opens = {"set_out": dates.set_out, "direct_sow": dates.direct_sow}
    try:
        wanted = "set_out" if planting.started == "bought" and dates.set_out else planted_how(plant)
    except InputProblem:
        wanted = "direct_sow"
    paths = sorted(paths_of(plant) or _either(), key=lambda path: (opens[path.name] is None, path.name != wanted))
    span = opens[paths[0].name]
    return paths[0], None if span is None else span[0]


def _either() -> Sequence[Path]:
    from gardenlib.sowing.windows import DIRECT

    return (DIRECT,)


def _usual_start(plant: Crop, path: Path, freezes: FreezeDates, year: int, region: str | None) -> date | None:
    weeks = weeks_for(plant, path, region)
    last = freezes.date("spring", 32, 0.5, year=year) if freezes.knows("spring", 32, 0.5) else None
    return None if weeks is None or last is None else later(last, days_of_weeks((weeks.low + weeks.high) / 2))


def _heat_sum(warmth: Warmth, base: Base, start: date, days: Range) -> Range:
    """Add up the typical year's degree days over the fewest and the most days."""
    typical = warmth.degree_days(base.lower_c, base.upper_c)
    # 29 February is left out of the typical year; a day later or earlier changes nothing.
    begins = (start - date(start.year, 1, 1)).days
    low, high = (
        float(np.take(typical, range(begins, begins + int(count + 0.5)), mode="wrap").sum())
        for count in (days.low, days.high)
    )
    return Range(low, high, "degC_days")


def _runs_over(first: date, days: Range, latitude: float, year: int) -> bool:
    end = date_of(half_bounds(latitude, "spring")[0] + YEAR_DAYS - 1, year)
    return first > end or later(first, days.high) > end


def _thirst(plant: Crop, texture: str | None, depth_m: float | None) -> Thirst | None:
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


def _kg(plant: Crop, plants: int | None) -> Range | None:
    if plants is None:
        return None
    try:
        return expected_yield(plant, plants=plants).kg
    except InputProblem:
        return None


def _cover_c(cover: str, unknown: list[Said]) -> float:
    """Give what a cover adds to a night: the low end of what is published, else nothing, and that is said."""
    if not cover:
        return 0.0
    row = row_of("cold_covers", "cover", cover)
    if row is None:
        unknown.append(Said("replay.cover_no_figure", {"cover": Said(f"replay.cover_{cover}")}))
        return 0.0
    return float(row["low_f"]) / 1.8
