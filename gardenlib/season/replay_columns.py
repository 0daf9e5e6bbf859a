"""The columns of a replay, each for all plantings and seasons at once: arrays [plantings, seasons]."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import numpy as np
import numpy.typing as npt

from gardenlib.season.past_weather import PastWeather
from gardenlib.season.plan_row import PlannedPlanting
from gardenlib.season.standing import NEVER, Whole, counted, heat_ready, rain_fed
from gardenlib.site.freeze import FREEZE_TOLERANCE_C, MAX_MISSING, day_numbers
from gardenlib.site.past_seasons import YEAR_DAYS
from gardenlib.sowing.bolting import FIRST_WEEKS
from gardenlib.sowing.past_heat import Base

Array = npt.NDArray[np.float64]


def starts(planned: Sequence[PlannedPlanting], weather: PastWeather, year: int) -> Whole:
    """Give the day of the growing year on which each is planted; -1 without a date."""
    dated = [one.planted_on or date(year, 1, 1) for one in planned]
    found = day_numbers(np.array(dated, dtype="datetime64[D]"), np.array([year])) - weather.past.first_day
    return np.where([one.planted_on is not None for one in planned], found, -1)


def ready_days(
    planned: Sequence[PlannedPlanting], weather: PastWeather, start: Whole, known: npt.NDArray[np.bool_]
) -> tuple[Whole, Whole]:
    """Give the earliest and the latest day of the first picking: by warmth where a base is published, else by days."""
    ends = np.full((2, len(planned), weather.seasons), NEVER, dtype=np.int64)
    bases: dict[Base, list[int]] = {}
    for place, one in enumerate(planned):
        if not known[place] or one.days is None:
            continue
        if one.base is not None and one.heat_sum is not None:
            bases.setdefault(one.base, []).append(place)
        else:
            counts = np.floor(np.array([one.days.low, one.days.high]) + 0.5).astype(int)
            ends[:, place] = np.minimum(start[place] + counts, NEVER)[:, None]
    for base, places in bases.items():
        sums = weather.heat_sums(base)
        for end, row in zip(("low", "high"), ends, strict=True):
            total = np.array([getattr(planned[place].heat_sum, end) for place in places])
            row[places] = heat_ready(sums, start[places], total)
    return ends[0], ends[1]


def cold_nights(
    planned: Sequence[PlannedPlanting], weather: PastWeather, first: Whole, last: Whole
) -> tuple[Whole, Whole]:
    """Count the nights that hurt, young plants in the spring half and grown ones after; and find the first of those."""
    half, nights = weather.spring_days, weather.nights_c
    spring = np.arange(YEAR_DAYS) < half
    cover = np.array([one.cover_c for one in planned])
    young = np.array([one.young_c for one in planned]) - cover
    grown = np.array([one.grown_c for one in planned]) - cover

    def at_or_below(limit: float) -> npt.NDArray[np.bool_]:
        return nights <= limit + FREEZE_TOLERANCE_C

    cold = counted(lambda limit: at_or_below(limit) & spring, young, first, last)
    cold += counted(lambda limit: at_or_below(limit) & ~spring, grown, first, last)
    frost = np.empty(last.shape, dtype=np.int64)
    for limit in np.unique(grown):
        here = np.flatnonzero(grown == limit)
        days = np.where(at_or_below(float(limit)) & ~spring, np.arange(YEAR_DAYS), NEVER)
        coming = np.minimum.accumulate(days[:, ::-1], axis=1)[:, ::-1]
        frost[here] = coming[:, np.minimum(np.maximum(first[here], half), YEAR_DAYS - 1)].T
    return cold, frost


def heat_days(planned: Sequence[PlannedPlanting], weather: PastWeather, first: Whole, last: Whole) -> Array:
    """Count the days with a mean above the limit."""
    limits = np.array([np.nan if one.heat_c is None else one.heat_c for one in planned])
    days = counted(lambda limit: weather.mean_c > limit + 1e-6, np.nan_to_num(limits, nan=99.0), first, last)
    return np.where(np.isnan(limits)[:, None], np.nan, days)


def cold_days(planned: Sequence[PlannedPlanting], weather: PastWeather, start: Whole) -> Array:
    """Count the cold days of the first weeks."""
    below = np.array([np.nan if one.cold_below_c is None else one.cold_below_c for one in planned])
    last = np.broadcast_to(
        np.minimum(start + 7 * FIRST_WEEKS - 1, YEAR_DAYS - 1)[:, None], (len(start), weather.seasons)
    )
    days = counted(lambda limit: weather.mean_c < limit - 1e-6, np.nan_to_num(below, nan=-99.0), start, last)
    return np.where(np.isnan(below)[:, None], np.nan, days)


def dry_days(
    planned: Sequence[PlannedPlanting], weather: PastWeather, first: Whole, last: Whole
) -> tuple[Array, Array]:
    """Give the dry days (none where somebody waters) and the rain; unknown where more than ten days lack rain."""
    measured = ~np.isnan(weather.past.rain_mm)
    rain = np.where(measured, weather.past.rain_mm, 0.0)
    sums = np.zeros((2, weather.seasons, YEAR_DAYS + 1))
    np.cumsum(np.stack([rain, ~measured]), axis=2, out=sums[:, :, 1:])
    begin = np.minimum(first, YEAR_DAYS)
    end = np.maximum(np.minimum(last + 1, YEAR_DAYS), begin[:, None])
    fallen, missing = (one[np.arange(weather.seasons)[None, :], end] - one[:, begin].T for one in sums)
    unknown = missing > MAX_MISSING
    dry = np.zeros(last.shape)
    alone = [place for place, one in enumerate(planned) if not one.watered]
    thirsty = [place for place in alone if planned[place].thirst is not None]
    dry[alone] = np.nan
    if thirsty:
        thirsts = [one for place in thirsty if (one := planned[place].thirst) is not None]
        dry[thirsty] = rain_fed(thirsts, weather.et_mm, rain, first[thirsty], last[thirsty]).dry_days
        dry[alone] = np.where(unknown[alone], np.nan, dry[alone])
    return dry, np.where(unknown, np.nan, fallen)


def pests_seen(planned: Sequence[PlannedPlanting], weather: PastWeather, first: Whole, last: Whole) -> Whole:
    """Count the kinds of pests with a published event while the crop stood."""
    out = np.zeros(last.shape, dtype=np.int64)
    for place, one in enumerate(planned):
        for events in weather.pest_days(one.crop).values():
            low, high = (np.array(days) for days in zip(*events, strict=True))
            out[place] += np.any((low <= last[place]) & (low < NEVER) & (high >= first[place]), axis=0)
    return out
