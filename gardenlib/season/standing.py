"""What past seasons held for plantings while they stood: ripeness, cold, heat and dry spells.

Arrays are [plantings, seasons]; days are places in the growing year.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

import numpy as np
import numpy.typing as npt

from gardenlib.beds.soil_water import coefficient, held_mm, ready_mm
from gardenlib.beds.water import POT_DEPTH_M
from gardenlib.season.plan_row import Thirst
from gardenlib.site.past_seasons import YEAR_DAYS
from gardenlib.sowing.past_heat import LEAST_TOTAL

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.int64]
NEVER = YEAR_DAYS
"""Stands for a day that did not come before the growing year ended."""
_USUAL_USE_MM = 5.0


class WaterYear(NamedTuple):
    """What a rain-fed root zone went through, each shape (plantings, seasons): days short of water, and mm."""

    dry_days: Array
    used_mm: Array
    rain_mm: Array
    drained_mm: Array
    deficit_mm: Array


def heat_ready(sums: Array, start: Whole, total: Array) -> Whole:
    """Find the day on which the degree days since planting reach a total.

    Parameters
    ----------
    sums : array, shape (seasons, 366)
        Running sums of degree days.
    start : array of int, shape (plantings,)
        Day of planting, which counts from its morning.
    total : array, shape (plantings,)
        Degree days needed.

    Returns
    -------
    array of int, shape (plantings, seasons)
        The day, or `NEVER`.
    """
    seasons = len(sums)
    # All seasons stand one after the other in one rising row of sums, so that one search answers for all.
    offsets = np.arange(seasons) * (sums[:, -1].max() + total.max(initial=0.0) + 1.0)
    # A hundredth of a millionth: sums that are equal but for rounding count as reached.
    asked = sums[:, start].T + total[:, None] - 1e-8 + offsets
    found = np.searchsorted((sums + offsets[:, None]).ravel(), asked.ravel()).reshape(asked.shape)
    days = np.minimum(found - np.arange(seasons) * (YEAR_DAYS + 1) - 1, NEVER)
    # Without warmth over the published days nothing ripens.
    return np.asarray(np.where(total[:, None] < LEAST_TOTAL, NEVER, days))


def counted(flags: Callable[[float], npt.NDArray[np.bool_]], limits: Array, first: Whole, last: Whole) -> Whole:
    """Count the flagged days from a first to a last, for a limit a planting.

    Parameters
    ----------
    flags : callable
        Gives the flagged days of all seasons, shape (seasons, 365), for one limit.
    limits : array, shape (plantings,)
        The limit of each planting.
    first : array of int, shape (plantings,)
        First day that counts.
    last : array of int, shape (plantings, seasons)
        Last day that counts.

    Returns
    -------
    array of int, shape (plantings, seasons)
        Days.
    """
    out = np.zeros(last.shape, dtype=np.int64)
    for limit in np.unique(limits):
        here = np.flatnonzero(limits == limit)
        days = flags(float(limit))
        sums = np.zeros((len(days), YEAR_DAYS + 1), dtype=np.int64)
        np.cumsum(days, axis=1, out=sums[:, 1:])
        begin, end = np.minimum(first[here], YEAR_DAYS), np.minimum(last[here] + 1, YEAR_DAYS)
        upto = sums[np.arange(len(days))[None, :], np.maximum(end, begin[:, None])]
        out[here] = upto - sums[:, begin].T
    return out


def rain_fed(thirsts: Sequence[Thirst], et_mm: Array, rain_mm: Array, first: Whole, last: Whole) -> WaterYear:
    """Keep the water account of plantings that nobody waters, day by day, for all at once.

    Parameters
    ----------
    thirsts : sequence of Thirst
        One a planting.
    et_mm, rain_mm : array, shape (seasons, 365)
        What short grass uses and what falls, mm.
    first : array of int, shape (plantings,)
        First day of each account; the root zone is full that morning.
    last : array of int, shape (plantings, seasons)
        Its last day.

    Returns
    -------
    WaterYear
        Days on which the root zone was below what is easily taken, and the account.

    Notes
    -----
    Source: Allen et al. 1998 (FAO-56), equations 80 and 82 to 85: the use falls below the crop's as the root zone
    dries past its easy part; what rain brings beyond a full root zone drains. The easy part is the table's, without
    the correction for the day's use, as FAO-56 allows.
    """
    length = int(max((last - first[:, None]).max(initial=-1) + 1, 0))
    days = np.arange(length)
    kc = np.stack([coefficient(days, one.stage_days, one.kc) for one in thirsts])
    grown = np.stack([coefficient(days, (*one.stage_days[:2], YEAR_DAYS, 0), (0.0, 1.0, 1.0)) for one in thirsts])
    deep = np.array([[one.root_m] for one in thirsts])
    pot = np.minimum(POT_DEPTH_M, deep)
    roots: Any = pot + (deep - pot) * grown
    per_m: Any = np.array([[one.held_mm_m] for one in thirsts])
    total = np.asarray(held_mm(per_m, roots))
    easy = total * np.array([[ready_mm(1.0, one.ready_fraction, _USUAL_USE_MM)] for one in thirsts])
    day_of = first[:, None] + days
    place = np.minimum(day_of, YEAR_DAYS - 1)
    wanted = et_mm.T[place] * kc[:, :, None]  # plantings, days, seasons
    rain = rain_mm.T[place]
    stands = day_of[:, :, None] <= last[:, None, :]
    short, used, fallen, drained = (np.zeros(last.shape) for _ in range(4))
    lack = np.zeros(last.shape)
    for day in range(length):
        on = stands[:, day]
        held, ready = total[:, day, None], easy[:, day, None]
        stress = np.clip((held - lack) / (held - ready), 0.0, 1.0)
        use = np.minimum(stress * wanted[:, day], held - lack + rain[:, day])
        after = lack + use - rain[:, day]
        through = np.maximum(-after, 0.0)
        lack = np.where(on, after + through, lack)
        short += on & (lack > ready + 1e-9)
        used += on * use
        fallen += on * rain[:, day]
        drained += on * through
    return WaterYear(short, used, fallen, drained, lack)
