"""The days of past growing years, one row a season, from a station's record."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site.freeze import MAX_MISSING, day_numbers, half_bounds, halves_of

if TYPE_CHECKING:
    from gardenlib.site.station import Station
    from gardenlib.site.warmth import Warmth

Array = npt.NDArray[np.float64]
YEAR_DAYS = 365


@dataclass(frozen=True)
class PastSeasons:
    """Past growing years from midwinter to midwinter; 29 February is left out.

    Parameters
    ----------
    years : array of int, shape (seasons,)
        The calendar year of each season's spring.
    first_day : int
        Day number of a season's first day, 0 for 1 January.
    tmin_c, tmax_c : array, shape (seasons, 365)
        Low and high of each day, degrees Celsius; gaps are filled from the typical year.
    rain_mm : array, shape (seasons, 365)
        Rain of each day, mm; NaN where it was not measured.
    left_out : int
        Seasons left out, since more than ten days are missing.
    filled : int
        Days filled from the typical year.
    """

    years: npt.NDArray[np.int64]
    first_day: int
    tmin_c: Array
    tmax_c: Array
    rain_mm: Array
    left_out: int
    filled: int


def past_seasons(station: Station, latitude: float, warmth: Warmth) -> PastSeasons:
    """Lay out a record as one row a season.

    Parameters
    ----------
    station : Station
        The daily record.
    latitude : float
        Degrees, north positive; it tells in which month a season begins.
    warmth : Warmth
        The typical year, from which single gaps are filled.

    Returns
    -------
    PastSeasons
        The seasons in which at most ten days lack a temperature.

    Raises
    ------
    InputProblem
        When no season is whole enough.

    Notes
    -----
    Source: the limit of ten missing days is that of the freeze seasons.
    """
    index = pd.DatetimeIndex(station.daily.index)
    days = index.to_numpy().astype("datetime64[D]")
    kept = ~((index.month == 2) & (index.day == 29))
    season, _ = halves_of(days, latitude)
    start = half_bounds(latitude, "spring")[0]
    place = np.clip(day_numbers(days, season) - start, 0, YEAR_DAYS - 1)
    seasons = np.arange(season.min(), season.max() + 1)
    laid = np.full((3, len(seasons), YEAR_DAYS), np.nan)
    for row, name in enumerate(("tmin_c", "tmax_c", "rain_mm")):
        if name in station.daily:
            values = station.daily[name].to_numpy(dtype=float)
            laid[row, season[kept] - seasons[0], place[kept]] = values[kept]
    missing = np.isnan(laid[:2]).any(axis=0)
    usable = missing.sum(axis=1) <= MAX_MISSING
    if not usable.any():
        raise InputProblem("climate.no_season", name=station.name)
    missing, laid = missing[usable], laid[:, usable]
    typical = np.roll(np.stack([warmth.tmin_c, warmth.tmax_c]), -start, axis=1)
    lows, highs = np.where(missing, typical[:, None, :], laid[:2])
    return PastSeasons(
        years=seasons[usable],
        first_day=start,
        tmin_c=lows,
        tmax_c=highs,
        rain_mm=laid[2],
        left_out=int((~usable).sum()),
        filled=int(missing.sum()),
    )
