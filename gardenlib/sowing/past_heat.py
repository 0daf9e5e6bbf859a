"""The degree days of past seasons above a crop's base, and what they bring to ripeness."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site import degree_days
from gardenlib.site.freeze import MAX_MISSING, day_numbers, half_bounds, halves_of
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, f_to_c
from gardenlib.working import Notes

if TYPE_CHECKING:
    from gardenlib.site import Station, Warmth

Array = npt.NDArray[np.float64]
YEAR_DAYS = 365
NOT_RIPE = YEAR_DAYS
"""Day of the growing year that stands for "not ripe before it ended"."""


@dataclass(frozen=True)
class Base:
    """The temperatures between which a crop's degree days count, degrees Celsius."""

    lower_c: float
    upper_c: float | None
    sources: tuple[str, ...]
    status: str


def crops_with_base() -> tuple[str, ...]:
    """List the crops whose base temperature is in the table.

    Returns
    -------
    tuple of str
        Crop ids.

    Notes
    -----
    Source: the keys in ``tables.table("degree_day_bases")``.

    Examples
    --------
    >>> "pea" in crops_with_base(), "pepper" in crops_with_base()
    (True, False)
    """
    return tuple(_bases())


@cache
def _bases() -> dict[str, Base]:
    return {
        row["crop"]: Base(
            f_to_c(row["base_f"]),
            None if row["upper_f"] is None else f_to_c(row["upper_f"]),
            tuple(row["source"].split("|")),
            row["status"],
        )
        for row in rows("degree_day_bases")
    }


def base_of(plant: Crop) -> Base:
    """Give a crop's base temperature, or say which crops have one."""
    if plant.id not in _bases():
        raise InputProblem("even.no_base", crop=plant.name, known=", ".join(_bases()))
    return _bases()[plant.id]


def past_days(station: Station, latitude: float, warmth: Warmth, base: Base, notes: Notes) -> Array:
    """Give the degree days of each day of each usable season, single gaps filled from the typical year."""
    index = pd.DatetimeIndex(station.daily.index)
    days = index.to_numpy().astype("datetime64[D]")
    leap_day = (index.month == 2) & (index.day == 29)
    season, _ = halves_of(days, latitude)
    start = half_bounds(latitude, "spring")[0]
    place = np.clip(day_numbers(days, season) - start, 0, YEAR_DAYS - 1)
    seasons = np.arange(season.min(), season.max() + 1)
    both = np.full((2, len(seasons), YEAR_DAYS), np.nan)
    for row, name in enumerate(("tmin_c", "tmax_c")):
        values = station.daily[name].to_numpy(dtype=float)
        both[row, season[~leap_day] - seasons[0], place[~leap_day]] = values[~leap_day]
    missing = np.isnan(both).any(axis=0)
    usable = missing.sum(axis=1) <= MAX_MISSING
    if not usable.any():
        raise InputProblem("even.no_season", name=station.name)
    both, missing = both[:, usable], missing[usable]
    typical = np.roll(np.stack([warmth.tmin_c, warmth.tmax_c]), -start, axis=1)
    both = np.where(missing, typical[:, None, :], both)
    notes.say("even.seasons", n=int(usable.sum()))
    if left := int((~usable).sum()):
        notes.say("even.left_out", n=left)
    if filled := int(missing.sum()):
        notes.say("even.filled", n=filled)
    notes.step(
        "even.degree_days",
        "single sine between low and high, above base",
        {"seasons": int(usable.sum()), "base": Quantity(base.lower_c, "degC")},
        None,
        "zalom_1983",
    )
    return np.asarray(degree_days(both[0], both[1], base.lower_c, base.upper_c))


def ripe_days(daily_degree_days: Array, total: float) -> Array:
    """Find the day on which the degree days since planting reach a total, for each season and planting day.

    A planting counts from the morning of its day. All seasons stand one after the other in one rising row of sums,
    so that one search answers for all of them.
    """
    seasons = len(daily_degree_days)
    sums = np.zeros((seasons, YEAR_DAYS + 1))
    np.cumsum(daily_degree_days, axis=1, out=sums[:, 1:])
    step = sums[:, -1].max() + total + 1.0
    offsets = np.arange(seasons)[:, None] * step
    # A hundredth of a millionth: sums that are equal but for rounding count as reached.
    asked = (sums[:, :-1] + total - 1e-8 + offsets).ravel()
    found = np.searchsorted((sums + offsets).ravel(), asked).reshape(seasons, YEAR_DAYS)
    days = found - np.arange(seasons)[:, None] * (YEAR_DAYS + 1) - 1
    return np.asarray(np.minimum(days, NOT_RIPE), dtype=float)
