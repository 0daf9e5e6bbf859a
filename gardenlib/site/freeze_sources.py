"""What `FreezeDates` is filled with, from each kind of source."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site import freeze_steps
from gardenlib.site.freeze import FREEZE_TOLERANCE_C, Half, freeze_seasons, six_months_on, usable_days
from gardenlib.site.freeze_half import FromSeasons, Published, between
from gardenlib.site.normals import NORMALS_THRESHOLDS_F, Normals, day_on_axis
from gardenlib.units import f_to_c
from gardenlib.words import Said
from gardenlib.working import Quantity, Step

if TYPE_CHECKING:
    from gardenlib.site.station import Station

MonthDay = tuple[int, int]
Halves = Mapping[tuple[Half, int], FromSeasons | Published]

THRESHOLDS_F = (36, 32, 28, 24)
HALVES: tuple[Half, ...] = ("spring", "fall")
MOST_FREE_DAYS = 400
"""Most days from a last freeze to the next first one; two dates that changed places leave about 500 or more."""
UNKNOWN: dict[Half, Published] = {half: Published(half, {}, "unknown") for half in HALVES}
OFFSET_KEYS = (
    "climate.freeze.station_not_plot",
    "climate.freeze.offset_colder",
    "climate.freeze.offset_warmer",
    "climate.freeze.typed_colder",
    "climate.freeze.typed_warmer",
)


def from_record(station: Station, latitude: float, night_offset_c: float) -> dict[str, Any]:
    """Count the freezes of a daily record, each night moved by the offset."""
    plot_daily = station.daily[["tmin_c"]] + night_offset_c
    halves: dict[tuple[Half, int], FromSeasons | Published] = {}
    seasons = {}
    coldest = _coldest_by_month(plot_daily["tmin_c"])
    for threshold in THRESHOLDS_F:
        seasons[threshold] = table = freeze_seasons(plot_daily, f_to_c(float(threshold)), latitude=latitude)
        always = _every_month(coldest, f_to_c(float(threshold)))
        for half in HALVES:
            days, n_usable = usable_days(table, half)
            halves[half, threshold] = FromSeasons(half, days, n_usable, always, latitude)
    said = [
        Said("climate.freeze.halves_south" if six_months_on(latitude) else "climate.freeze.halves_north"),
        Said("climate.freeze.no_freeze_years"),
        offset_said(night_offset_c, applied=True),
    ]
    return {
        "kind": "station",
        "latitude": latitude,
        "night_offset_c": night_offset_c,
        "comes_from": Said(
            "climate.freeze.from_record",
            {"name": station.name, "first": station.first_year, "last": station.last_year},
        ),
        "_halves": halves,
        "_seasons": seasons,
        "_station": station,
        "steps": tuple(s for half in HALVES for s in freeze_steps.counting(halves[half, 32], 32)),
        "assumptions": tuple(said),
        "sources": ("ncei_2021_methods",),
    }


def from_published(normals: Normals, latitude: float, night_offset_c: float) -> dict[str, Any]:
    """Take the published dates, between their thresholds where the plot differs from the station."""
    halves: dict[tuple[Half, int], FromSeasons | Published] = {
        (half, threshold): _shifted(normals.halves, half, threshold, night_offset_c)
        for half in HALVES
        for threshold in NORMALS_THRESHOLDS_F
    }
    said = [Said("climate.freeze.conditional"), *normals.notes, offset_said(night_offset_c, applied=True)]
    if night_offset_c:
        said.append(Said("climate.freeze.offset_lines"))
    named = {"name": normals.name, "period": normals.period}
    return {
        "kind": "normals",
        "latitude": latitude,
        "night_offset_c": night_offset_c,
        "comes_from": Said(
            "climate.freeze.from_normals" if normals.period else "climate.freeze.from_newer_normals", named
        ),
        "_halves": halves,
        "_normals": normals,
        "steps": tuple(s for half in HALVES for s in freeze_steps.counting(halves[half, 32], 32)),
        "assumptions": tuple(said),
        "sources": ("ncei_2021_methods",),
    }


def from_typed(
    given: Mapping[Half, Mapping[float, MonthDay | None]],
    threshold_f: int,
    source: str,
    latitude: float,
    offset_c: float,
) -> dict[str, Any]:
    """Take the dates as they were typed."""
    six_months_on(latitude)
    typed = {half: _typed_half(half, given[half], latitude) for half in HALVES}
    _check_apart(typed["spring"], typed["fall"])
    known = {half: tuple(risk for risk, day in given[half].items() if day) for half in HALVES}
    said = [offset_said(offset_c, applied=False)]
    if (0.5,) in known.values():
        said.insert(0, Said("climate.freeze.no_spread"))
    return {
        "kind": "typed",
        "latitude": latitude,
        "night_offset_c": offset_c,
        "risks": tuple(sorted({*known["spring"], *known["fall"]})),
        "comes_from": Said(
            "climate.freeze.from_typed" if source else "climate.freeze.from_typed_bare", {"source": source}
        ),
        "_halves": {(half, threshold_f): part for half, part in typed.items()},
        "steps": (Step("climate.typed_given", "dates as typed", {}, None, "common_practice"),),
        "assumptions": tuple(said),
        "sources": ("common_practice",),
    }


def offset_said(offset_c: float, *, applied: bool) -> Said:
    """Say how the plot's nights differ, and whether the dates were counted anew for it."""
    if not offset_c:
        return Said("climate.freeze.station_not_plot")
    by = {"by": Quantity(abs(offset_c), "degC_difference")}
    if applied:
        return Said("climate.freeze.offset_colder" if offset_c < 0 else "climate.freeze.offset_warmer", by)
    return Said("climate.freeze.typed_colder" if offset_c < 0 else "climate.freeze.typed_warmer", by)


def _typed_half(half: Half, given: Mapping[float, MonthDay | None], latitude: float) -> Published:
    points = {risk: day_on_axis(*_checked_day(when), half, latitude) for risk, when in given.items() if when}
    ordered = [points[risk] for risk in sorted(points)]
    if ordered != sorted(ordered, reverse=half == "spring"):
        raise InputProblem("climate.typed_order_spring" if half == "spring" else "climate.typed_order_fall")
    return Published(half, points, "dates" if points else "unknown")


def _check_apart(spring: Published, fall: Published) -> None:
    """Refuse dates that changed places, or that belong to the other half of the earth."""
    if not (spring.points and fall.points):
        return
    free = min(fall.points.values()) - max(spring.points.values())
    if free > MOST_FREE_DAYS:
        raise InputProblem("climate.typed_swapped", days=f"{free:.0f}")


def _checked_day(when: MonthDay) -> MonthDay:
    try:
        dt.date(2000, *when)
    except (TypeError, ValueError) as error:
        raise InputProblem("climate.typed_day", value=str(when)) from error
    return when


def _shifted(halves: Mapping[tuple[Half, int], Published], half: Half, threshold: int, offset_c: float) -> Published:
    """Read a plot's threshold between the station's thresholds: a plot 2 F colder freezes at the station's 34 F."""
    at = round(threshold - offset_c * 1.8, 6)
    published = [t for t in NORMALS_THRESHOLDS_F if (half, t) in halves]
    colder = max((t for t in published if t <= at), default=None)
    warmer = min((t for t in published if t >= at), default=None)
    if colder is None or warmer is None:
        return UNKNOWN[half]
    weight = (at - colder) / (warmer - colder) if warmer > colder else 0.0
    return between(halves[half, colder], halves[half, warmer], weight)


def _coldest_by_month(tmin_c: pd.Series) -> pd.DataFrame:
    """Give the coldest night of each month, a row a year and a column a month."""
    known = tmin_c.dropna()
    days = pd.DatetimeIndex(known.index)
    return known.groupby([days.year, days.month]).min().unstack()


def _every_month(coldest: pd.DataFrame, threshold_c: float) -> bool:
    """Tell whether each month of the year froze in at least half of the years that have that month."""
    froze = (coldest <= threshold_c + FREEZE_TOLERANCE_C).sum() / coldest.notna().sum()
    return bool(len(froze) == 12 and (froze >= 0.5).all())
