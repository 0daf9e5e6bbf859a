"""A plot's plantings as they are planned: their dates, and what each of them stands and needs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from gardenlib.harvest import planted_how
from gardenlib.problems import InputProblem
from gardenlib.season.plan_limits import cover_of, growing_year, heat_sum, kg_of, thirst_of, usual_start
from gardenlib.season.plan_row import PlannedPlanting
from gardenlib.sowing import cold_limit_f, crops_with_base, sowing_dates
from gardenlib.sowing.count_back import SLOWER_DAYS
from gardenlib.sowing.limits import as_crop, full_grown_temp_f
from gardenlib.sowing.past_heat import base_of
from gardenlib.sowing.windows import DIRECT, Path, later, paths_of
from gardenlib.tables.loader import rows
from gardenlib.units import Range, f_to_c
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.plot import Planting, Plot
    from gardenlib.site import FreezeDates, Warmth
    from gardenlib.sowing import SowingDates
    from gardenlib.tables import Crop


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
    Source: the dates are those of `sowing.sowing_dates`; it is planted on the first day of its window. Its degree days
    are those of a typical year over the published days, from the middle of the published weeks: our own calibration.

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
    place = _Place(freezes, warmth, year, region, plot.soil.texture or None)
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
        made.append(_one(planting, plant, dates, place, depths.get(planting.bed or "")))
    return tuple(made)


@dataclass(frozen=True)
class _Place:
    """What all plantings of a plan share."""

    freezes: FreezeDates
    warmth: Warmth | None
    year: int
    region: str | None
    texture: str | None


def _one(planting: Planting, plant: Crop, dates: SowingDates, place: _Place, depth_m: float | None) -> PlannedPlanting:
    freezes, warmth, year = place.freezes, place.warmth, place.year
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
    usual = usual_start(plant, path, freezes, year, place.region) if planting.season == "spring" else None
    usual = usual or (first and first - timedelta(days=7 * planting.moved_weeks))
    total = None
    if base is not None and days is not None and usual is not None and warmth is not None:
        total = heat_sum(warmth, base, usual, days)
    elif base is None:
        unknown.append(Said("replay.by_days", {"crop": plant.name}))
    if plant.growth_max_mean_c is None:
        unknown.append(Said("replay.no_heat_limit", {"crop": plant.name}))
    cold = next((row for row in rows("cold_response") if row["crop"] == plant.id), None)
    limit = cold is not None and cold["days"] is not None
    if cold is not None and not limit:
        unknown.append(Said("replay.no_bolting_limit", {"crop": plant.name}))
    thirst = thirst_of(plant, place.texture, depth_m)
    if thirst is None and not planting.watered:
        unknown.append(Said("replay.no_water_row", {"crop": plant.name}))
    kg = kg_of(plant, planting.plants)
    if kg is None:
        unknown.append(Said("replay.no_kg", {"crop": plant.name}))
    inside, over = _when(first, days, growing_year(freezes.latitude, year))
    over = over and planting.season == "cool"
    if first is not None and not inside:
        unknown.append(Said("replay.outside_year", {"crop": plant.name}))
    elif over:
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
        cover=cover_of(planting.cover, unknown),
        heat_c=plant.growth_max_mean_c,
        cold_days=int(cold["days"]) if cold is not None and limit else None,
        cold_below_c=f_to_c(cold["below_f"]) if cold is not None and limit else None,
        thirst=thirst,
        watered=planting.watered,
        kg=kg,
        replayed=inside and days is not None and not over,
        unknown=tuple(unknown),
    )


def _way(plant: Crop, planting: Planting, dates: SowingDates) -> tuple[Path, date | None]:
    """Choose how it is planted: as its days to harvest count, bought plants set out; else the way with a window."""
    opens = {"set_out": dates.set_out, "direct_sow": dates.direct_sow}
    try:
        wanted = "set_out" if planting.started == "bought" and dates.set_out else planted_how(plant)
    except InputProblem:
        wanted = "direct_sow"
    paths = sorted(paths_of(plant) or (DIRECT,), key=lambda path: (opens[path.name] is None, path.name != wanted))
    span = opens[paths[0].name]
    return paths[0], None if span is None else span[0]


def _when(first: date | None, days: Range | None, year: tuple[date, date]) -> tuple[bool, bool]:
    """Tell whether it is planted in the growing year, and whether its first picking may come after it."""
    inside = first is not None and year[0] <= first <= year[1]
    return inside, first is not None and days is not None and later(first, days.high) > year[1]
