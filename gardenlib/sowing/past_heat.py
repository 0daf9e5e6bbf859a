"""The degree days of past seasons above a crop's base, and what they bring to ripeness."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from gardenlib.problems import InputProblem
from gardenlib.site import degree_days
from gardenlib.site.past_seasons import YEAR_DAYS, lay_out
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, f_to_c
from gardenlib.working import Notes, Value

if TYPE_CHECKING:
    from gardenlib.site import Station, Warmth

Array = npt.NDArray[np.float64]
NOT_RIPE = YEAR_DAYS
"""Day of the growing year that stands for "not ripe before it ended"."""
LEAST_TOTAL = 1.0
"""Below so many degree days (Celsius) the published days of a crop held no warmth: it does not grow there."""


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
    past = lay_out(station.daily, latitude).whole(warmth, name=station.name)
    notes.say("even.seasons", n=len(past.years))
    if past.left_out:
        notes.say("even.left_out", n=past.left_out)
    if past.filled:
        notes.say("even.filled", n=past.filled)
    given: dict[str, Value] = {"seasons": len(past.years), "base": Quantity(base.lower_c, "degC")}
    rule = "single sine between low and high, above base"
    if base.upper_c is not None:
        rule, given["top"] = f"{rule} and at most top", Quantity(base.upper_c, "degC")
    notes.step("even.degree_days", rule, given, None, "zalom_1983")
    return np.asarray(degree_days(past.tmin_c, past.tmax_c, base.lower_c, base.upper_c))


def ripe_days(daily_degree_days: Array, total: float) -> Array:
    """Find the day on which the degree days since planting reach a total, for each season and planting day.

    A planting counts from the morning of its day. Where the total is none, since it is never warm enough to grow,
    nothing ripens. All seasons stand one after the other in one rising row of sums,
    so that one search answers for all of them.
    """
    seasons = len(daily_degree_days)
    if total < LEAST_TOTAL:
        return np.full((seasons, YEAR_DAYS), float(NOT_RIPE))
    sums = np.zeros((seasons, YEAR_DAYS + 1))
    np.cumsum(daily_degree_days, axis=1, out=sums[:, 1:])
    step = sums[:, -1].max() + total + 1.0
    offsets = np.arange(seasons)[:, None] * step
    # A hundredth of a millionth: sums that are equal but for rounding count as reached.
    asked = (sums[:, :-1] + total - 1e-8 + offsets).ravel()
    found = np.searchsorted((sums + offsets).ravel(), asked).reshape(seasons, YEAR_DAYS)
    days = found - np.arange(seasons)[:, None] * (YEAR_DAYS + 1) - 1
    return np.asarray(np.minimum(days, NOT_RIPE), dtype=float)
