"""The warmth of a typical year: 365 daily lows and highs, from a daily record or from twelve monthly values."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site.freeze import date_of, day_numbers, six_months_on
from gardenlib.site.heat_sum import Method, degree_days
from gardenlib.words import Said
from gardenlib.working import Answer, Step

if TYPE_CHECKING:
    from gardenlib.site.station import Station

Array = npt.NDArray[np.float64]

WINDOW_DAYS = 30
MIN_YEARS_FOR_SPREAD = 20
FEW_YEARS = 10
_MONTH_DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
_MONTH_OF_DAY = np.repeat(np.arange(12), _MONTH_DAYS)


@dataclass(frozen=True, kw_only=True)
class Warmth(Answer):
    """A typical year, day by day.

    Made by `from_station` or `from_monthly`.  Arrays run from 1 January to 31 December of a year without 29 February.

    Parameters
    ----------
    comes_from : Said
        Where it comes from.
    latitude : float
        Degrees, south negative.
    tmin_c, tmax_c : array, shape (365,)
        Low and high of a typical day, degrees Celsius.
    mean_30_c : array, shape (365,)
        Mean of the 30 days around each day, degrees Celsius.
    spread : array, shape (2, 365), or None
        The 30-day means that 1 year in 10 stays below and that 1 year in 10 passes; None when not known.
    years : int
        Years behind it, 0 when not known.
    """

    comes_from: Said
    latitude: float
    tmin_c: Array = field(compare=False, repr=False)
    tmax_c: Array = field(compare=False, repr=False)
    mean_30_c: Array = field(compare=False, repr=False)
    spread: Array | None = field(default=None, compare=False, repr=False)
    years: int = 0

    @classmethod
    def from_station(cls, station: Station, latitude: float | None = None) -> Warmth:
        """Take the typical year from a daily record.

        Parameters
        ----------
        station : Station
            A daily record with lows and highs.
        latitude : float, optional
            Degrees, south negative; the station's own when not given.

        Returns
        -------
        Warmth
            With the spread from 20 years on.

        Raises
        ------
        InputProblem
            When no latitude is known or some day of the year has no low or high in any year.

        Notes
        -----
        Mean over the years for each day, 29 February counted as 28 February, then the mean of the 30 days around each
        day, the year closed to a ring.  The spread is numpy's default 10 and 90 % quantile over the years of the
        30-day mean of the daily mean, at most 5 days missing.  The smoothing is our own.
        """
        latitude = station.latitude if latitude is None else latitude
        if latitude is None:
            raise InputProblem("climate.latitude_needed", name=station.name)
        six_months_on(latitude)
        daily = station.daily[["tmin_c", "tmax_c"]]
        known = daily.dropna()
        by_day = known.groupby(_day_of_year(known.index)).mean().reindex(range(365))
        if by_day.isna().to_numpy().any():
            gap = date_of(int(np.flatnonzero(by_day["tmin_c"].isna())[0]), 2001)
            raise InputProblem("climate.warmth_gap", name=station.name, day=gap)
        low, high = (_around(by_day[name].to_numpy()) for name in ("tmin_c", "tmax_c"))
        years = int((known.groupby(pd.DatetimeIndex(known.index).year).size() >= 355).sum())
        said = [Said("climate.warmth.typical"), Said("climate.warmth.smoothed")]
        if years < FEW_YEARS:
            said.append(Said("climate.warmth.rough", {"n": years}))
        spread = _spread(daily) if years >= MIN_YEARS_FOR_SPREAD else None
        if spread is None:
            said.append(Said("climate.warmth.no_spread_years"))
        return cls(
            latitude=latitude,
            tmin_c=low,
            tmax_c=high,
            mean_30_c=(low + high) / 2,
            years=years,
            comes_from=Said(
                "climate.warmth.from_record",
                {"name": station.name, "first": station.first_year, "last": station.last_year},
            ),
            spread=spread,
            steps=(
                Step("climate.warmth_days", "mean over the years", {"years": years}, None, "common_practice"),
                Step("climate.warmth_smooth", "mean of the 30 days around each day", {}, None, "common_practice"),
            ),
            assumptions=tuple(said),
            sources=("common_practice",),
        )

    @classmethod
    def from_monthly(cls, rows: Iterable[tuple[int, float, float]], *, latitude: float, source: str) -> Warmth:
        """Draw the typical year through twelve monthly means.

        Parameters
        ----------
        rows : iterable of (int, float, float)
            Month (1 to 12), mean high and mean low of the month, degrees Celsius; each month once.
        latitude : float
            Degrees, south negative.
        source : str
            Where the figures come from, in the words of who typed them.

        Returns
        -------
        Warmth
            A typical year without spread.

        Raises
        ------
        InputProblem
            When a month is missing, doubled or not a month, a value is not a number, or a low is above its high.

        Notes
        -----
        The smoothest closed curve of 365 days (least sum of squared second differences) whose mean over each month is
        the given one, for lows and highs apart.  The aim, a daily curve that keeps the monthly means, is that of
        Rymes and Myers (2001), Solar Energy 71:225; the way is our own.

        Examples
        --------
        >>> months = [(m, 25.0, 15.0) for m in range(1, 13)]
        >>> Warmth.from_monthly(months, latitude=10.0, source="made up").mean_30_c[0].round(3)
        np.float64(20.0)
        """
        six_months_on(latitude)
        high, low = _monthly(rows)
        curve = _curve_through_months()
        tmax_c, tmin_c = curve @ high, curve @ low
        if (tmin_c > tmax_c).any():
            month = int(_MONTH_OF_DAY[np.flatnonzero(tmin_c > tmax_c)[0]])
            raise InputProblem(
                "climate.monthly_crossed", month=month + 1, low=f"{low[month]:g}", high=f"{high[month]:g}"
            )
        return cls(
            latitude=latitude,
            tmin_c=tmin_c,
            tmax_c=tmax_c,
            mean_30_c=_around((tmin_c + tmax_c) / 2),
            comes_from=Said("climate.warmth.from_months", {"source": source}),
            steps=(
                Step(
                    "climate.warmth_months",
                    "smoothest ring of 365 days with these monthly means",
                    {},
                    None,
                    "rymes_2001",
                ),
                Step("climate.warmth_smooth", "mean of the 30 days around each day", {}, None, "common_practice"),
            ),
            assumptions=(Said("climate.warmth.no_spread"), Said("climate.warmth.no_swings")),
            sources=("rymes_2001",),
        )

    @property
    def mean_c(self) -> Array:
        """Mean of low and high of a typical day, degrees Celsius, shape (365,)."""
        return (self.tmin_c + self.tmax_c) / 2

    def first_above(self, mean_c: float, *, year: int) -> dt.date | None:
        """Give the day from which the 30-day mean stays above a limit until the warmest time.

        Parameters
        ----------
        mean_c : float
            The limit, degrees Celsius.
        year : int
            The growing year, called by the calendar year in which it begins: 1 January north, 1 July south.

        Returns
        -------
        date or None
            The start of the growing year where it is above from the start; None where it never is above.
        """
        ring, start = self._from_midwinter()
        warmest = int(ring.argmax())
        if ring[warmest] <= mean_c:
            return None
        not_yet = np.flatnonzero(ring[:warmest] <= mean_c)
        return date_of(start + (int(not_yet[-1]) + 1 if not_yet.size else 0), year)

    def first_below(self, mean_c: float, *, year: int) -> dt.date | None:
        """Give the first day after the warmest time on which the 30-day mean is below a limit.

        Parameters
        ----------
        mean_c : float
            The limit, degrees Celsius.
        year : int
            The growing year, called by the calendar year in which it begins: 1 January north, 1 July south.

        Returns
        -------
        date or None
            The start of the growing year where it is below all year; None where it is not below again before the
            growing year ends.
        """
        ring, start = self._from_midwinter()
        warmest = int(ring.argmax())
        if ring[warmest] < mean_c:
            return date_of(start, year)
        below = np.flatnonzero(ring[warmest:] < mean_c)
        return date_of(start + warmest + int(below[0]), year) if below.size else None

    def degree_days(self, lower_c: float, upper_c: float | None = None, method: Method = "sine") -> Array:
        """Compute the degree days of each day of the typical year.

        Parameters
        ----------
        lower_c, upper_c, method
            As in `gardenlib.site.degree_days`; above `upper_c` the horizontal cutoff.

        Returns
        -------
        array, shape (365,)
            Degree days, degrees Celsius times days.
        """
        return degree_days(
            self.tmin_c, self.tmax_c, lower_c, upper_c, method=method, next_tmin_c=np.roll(self.tmin_c, -1)
        )

    def _from_midwinter(self) -> tuple[Array, int]:
        start = 181 if six_months_on(self.latitude) else 0
        return np.roll(self.mean_30_c, -start), start


def _day_of_year(index: pd.Index) -> npt.NDArray[np.int64]:
    days = index.to_numpy().astype("datetime64[D]")
    return day_numbers(days, days.astype("datetime64[Y]").astype(np.int64) + 1970)


def _around(values: Array) -> Array:
    """Take the mean of the 30 days around each day: 15 before, the day itself and 14 after, round the year's end."""
    ring = np.concatenate([values[-15:], values, values[:14]])
    return np.convolve(ring, np.full(WINDOW_DAYS, 1 / WINDOW_DAYS), mode="valid")


def _spread(daily: pd.DataFrame) -> Array | None:
    """Give the 10 and 90 % quantile of each day's 30-day mean; None where some day has a mean in no year."""
    means = daily.mean(axis=1, skipna=False).asfreq("D")
    window = means.rolling(WINDOW_DAYS, min_periods=WINDOW_DAYS - 5).mean().shift(-14)
    days = pd.DatetimeIndex(window.index)
    kept = ~((days.month == 2) & (days.day == 29))
    table = pd.DataFrame({"year": days.year[kept], "day": _day_of_year(days)[kept], "mean_c": window.to_numpy()[kept]})
    by_year = table.pivot(index="year", columns="day", values="mean_c").reindex(columns=range(365))
    if by_year.isna().all().any():
        return None
    return np.asarray(np.nanquantile(by_year.to_numpy(), [0.1, 0.9], axis=0))


def _monthly(rows: Iterable[tuple[int, float, float]]) -> tuple[Array, Array]:
    found: dict[int, tuple[float, float]] = {}
    for month, high, low in rows:
        if month not in range(1, 13) or month in found:
            raise InputProblem("climate.monthly_months", month=month)
        values = _number(high, month), _number(low, month)
        if values[1] > values[0]:
            raise InputProblem("climate.monthly_crossed", month=month, low=f"{values[1]:g}", high=f"{values[0]:g}")
        found[int(month)] = values
    if len(found) < 12:
        raise InputProblem("climate.monthly_missing", month=min(set(range(1, 13)) - found.keys()))
    table = np.array([found[month] for month in range(1, 13)])
    return table[:, 0], table[:, 1]


def _number(value: Any, month: int) -> float:
    try:
        number = float(value)
    except (TypeError, ValueError):
        number = np.nan
    if not np.isfinite(number):
        raise InputProblem("climate.monthly_value", month=month, value=str(value)[:20])
    return number


@cache
def _curve_through_months() -> Array:
    """Give the matrix that turns twelve monthly means into the smoothest closed year of 365 days."""
    bend = np.roll(np.eye(365), 1, axis=0) - 2 * np.eye(365) + np.roll(np.eye(365), -1, axis=0)
    months = (np.arange(12)[:, None] == _MONTH_OF_DAY) / _MONTH_DAYS[:, None]
    system = np.block([[2 * bend.T @ bend, months.T], [months, np.zeros((12, 12))]])
    asked = np.vstack([np.zeros((365, 12)), np.eye(12)])
    return np.asarray(np.linalg.solve(system, asked)[:365])
