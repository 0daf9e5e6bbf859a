"""The days of past growing years, one row a season, from a station's record."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site.freeze import MAX_MISSING, date_of, day_numbers, half_bounds, halves_of

if TYPE_CHECKING:
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


@dataclass(frozen=True)
class SoFar:
    """One growing year as far as its record goes.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (1, days)
        Low and high of each day from the first of the growing year, degrees Celsius; gaps are filled.
    until : date or None
        Last day that was measured; None without any.
    filled : int
        Days filled from the typical year.
    """

    tmin_c: Array
    tmax_c: Array
    until: date | None
    filled: int


@dataclass(frozen=True)
class LaidOut:
    """A record laid out by season and day; 29 February is left out.

    Parameters
    ----------
    years : array of int, shape (seasons,)
        The calendar year of each season's spring.
    first_day : int
        Day number of a season's first day, 0 for 1 January.
    measured : array, shape (3, seasons, 365)
        Lows, highs (degrees Celsius) and rain (mm) of each day; NaN where nothing was measured.
    """

    years: npt.NDArray[np.int64]
    first_day: int
    measured: Array

    def whole(self, warmth: Warmth, *, name: str = "") -> PastSeasons:
        """Give the seasons in which at most ten days lack a temperature, gaps filled from the typical year.

        Parameters
        ----------
        warmth : Warmth
            The typical year.
        name : str
            What the record is called.

        Returns
        -------
        PastSeasons
            The whole seasons.

        Raises
        ------
        InputProblem
            When no season is whole enough.
        """
        missing = np.any(np.isnan(self.measured[:2]), axis=0)
        usable = missing.sum(axis=1) <= MAX_MISSING
        if not usable.any():
            raise InputProblem("climate.no_season", name=name) if name else InputProblem("climate.no_season_here")
        missing, kept = missing[usable], self.measured[:, usable]
        lows, highs = np.where(missing, self._typical(warmth)[:, None, :], kept[:2])
        return PastSeasons(
            years=self.years[usable],
            first_day=self.first_day,
            tmin_c=lows,
            tmax_c=highs,
            rain_mm=kept[2],
            left_out=int((~usable).sum()),
            filled=int(missing.sum()),
        )

    def so_far(self, warmth: Warmth, year: int) -> SoFar:
        """Give one season up to the last day that was measured.

        Parameters
        ----------
        warmth : Warmth
            The typical year, from which gaps are filled.
        year : int
            Calendar year of the season's spring.

        Returns
        -------
        SoFar
            Its days.
        """
        here = np.flatnonzero(self.years == year)
        days = self.measured[:2, here[0]] if here.size else np.full((2, YEAR_DAYS), np.nan)
        missing = np.any(np.isnan(days), axis=0)
        count = 0 if missing.all() else YEAR_DAYS - int(missing[::-1].argmin())
        filled = np.where(missing[:count], self._typical(warmth)[:, :count], days[:, :count])
        return SoFar(
            tmin_c=filled[0][None],
            tmax_c=filled[1][None],
            until=date_of(self.first_day + count - 1, year) if count else None,
            filled=int(missing[:count].sum()),
        )

    def _typical(self, warmth: Warmth) -> Array:
        return np.roll(np.stack([warmth.tmin_c, warmth.tmax_c]), -self.first_day, axis=1)


def lay_out(daily: pd.DataFrame, latitude: float) -> LaidOut:
    """Lay a record out as one row a season.

    Parameters
    ----------
    daily : DataFrame
        The daily record: a date index; tmin_c, tmax_c (degrees Celsius) and, where measured, rain_mm.
    latitude : float
        Degrees, north positive; it tells in which month a season begins.

    Returns
    -------
    LaidOut
        The record by season and day.

    Raises
    ------
    InputProblem
        When the record holds no day.

    Notes
    -----
    Source: none; it is a way of laying out a record. The limit of ten missing days is that of the freeze seasons.

    Examples
    --------
    >>> days = pd.date_range("2024-12-30", "2025-12-31")
    >>> laid = lay_out(pd.DataFrame({"tmin_c": 1.0, "tmax_c": 9.0}, index=days), latitude=45.0)
    >>> laid.years.tolist(), laid.measured.shape
    ([2024, 2025], (3, 2, 365))
    """
    if daily.empty:
        raise InputProblem("climate.no_season_here")
    index = pd.DatetimeIndex(daily.index)
    days = index.to_numpy().astype("datetime64[D]")
    kept = ~((index.month == 2) & (index.day == 29))
    (season, _), start = halves_of(days, latitude), half_bounds(latitude, "spring")[0]
    place = np.clip(day_numbers(days, season) - start, 0, YEAR_DAYS - 1)
    years = np.arange(season.min(), season.max() + 1)
    measured = np.full((3, len(years), YEAR_DAYS), np.nan)
    for row, column in enumerate(("tmin_c", "tmax_c", "rain_mm")):
        if column in daily:
            measured[row, season[kept] - years[0], place[kept]] = daily[column].to_numpy(dtype=float)[kept]
    return LaidOut(years=years, first_day=start, measured=measured)
