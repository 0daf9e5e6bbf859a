"""What short grass uses by week of the year, from a station's past years or from a typical year."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from gardenlib.problems import InputProblem
from gardenlib.site.evaporation import reference_et_mm
from gardenlib.site.freeze import dates_of, half_bounds
from gardenlib.site.past_seasons import lay_out
from gardenlib.working import Answer, Notes

if TYPE_CHECKING:
    import pandas as pd

    from gardenlib.site.warmth import Warmth

Array = npt.NDArray[np.float64]
LEAST_SEASONS = 10
DAYS_OF_WEEK = 5
"""Measured days that make a week usable."""
DRY_FRACTION = 0.9
WEEKS = 52
_RULE = "0.0023 * (mean + 17.8) * (high - low)^0.5 * 0.408 * sun"


@dataclass(frozen=True, kw_only=True)
class WeeklyWater(Answer):
    """What short grass uses by week of the growing year, and what falls as rain.

    Parameters
    ----------
    starts : tuple of date
        First day of each of the 52 weeks, from midwinter.
    typical_mm_day : array, shape (52,)
        Water used in the middle year of the record, millimetres a day.
    dry_mm_day : array, shape (52,), or None
        What 9 of 10 years stay below; None where only a typical year is known.
    rain_mm : array, shape (52,), or None
        Rain of the week in the middle year, mm; None where it was measured in fewer than ten years.
    seasons : int
        Past growing years behind it; 0 where only a typical year is known.
    """

    starts: tuple[date, ...]
    typical_mm_day: Array
    dry_mm_day: Array | None
    rain_mm: Array | None
    seasons: int

    @classmethod
    def from_daily(cls, daily: pd.DataFrame, latitude: float, *, year: int) -> WeeklyWater:
        """Work out the weeks from a station's past years.

        Parameters
        ----------
        daily : DataFrame
            The daily record: a date index; tmin_c, tmax_c (degrees Celsius) and, where measured, rain_mm.
        latitude : float
            Degrees, south negative.
        year : int
            The spring's year that is planned; it gives the dates.

        Returns
        -------
        WeeklyWater
            With the dry years.

        Raises
        ------
        InputProblem
            When a week was measured in fewer than ten years.

        Notes
        -----
        Source: Allen et al. 1998 (FAO-56), equation 52. Ten years and five days of a week: common practice, no source.
        """
        laid = lay_out(daily, latitude)
        days = dates_of(laid.first_day + np.arange(WEEKS * 7), 2001)
        lows, highs, rain = laid.measured[:, :, : WEEKS * 7]
        # A low above its high is a slip of the record: the day counts as missing.
        lows = np.where(lows > highs, np.nan, lows)
        used = _week_means(reference_et_mm(lows, highs, latitude, days))
        seasons = int(np.isfinite(used).sum(axis=0).min())
        if seasons < LEAST_SEASONS:
            raise InputProblem("water.few_seasons", n=seasons, least=LEAST_SEASONS)
        fell = _week_means(rain) * 7
        notes = _notes()
        notes.say("water.past_years", years=seasons)
        return cls(
            starts=_starts(laid.first_day, year),
            typical_mm_day=np.nanmedian(used, axis=0),
            dry_mm_day=np.nanquantile(used, DRY_FRACTION, axis=0),
            rain_mm=np.nanmedian(fell, axis=0) if np.isfinite(fell).sum(axis=0).min() >= LEAST_SEASONS else None,
            seasons=seasons,
            **notes.parts(),
        )

    @classmethod
    def from_warmth(cls, warmth: Warmth, *, year: int) -> WeeklyWater:
        """Work out the weeks from a typical year, where no daily record is at hand.

        Parameters
        ----------
        warmth : Warmth
            The typical year.
        year : int
            The spring's year that is planned.

        Returns
        -------
        WeeklyWater
            Without dry years and rain.

        Notes
        -----
        Source: Allen et al. 1998 (FAO-56), equation 52.
        """
        first = half_bounds(warmth.latitude, "spring")[0]
        days = dates_of(np.arange(365), 2001)
        used = np.roll(reference_et_mm(warmth.tmin_c, warmth.tmax_c, warmth.latitude, days), -first)[: WEEKS * 7]
        notes = _notes()
        notes.say("water.typical_year_only")
        return cls(
            starts=_starts(first, year),
            typical_mm_day=_week_means(used[None])[0],
            dry_mm_day=None,
            rain_mm=None,
            seasons=0,
            **notes.parts(),
        )

    def month_mm_day(self, month: int) -> float:
        """Give the typical use of the weeks that begin in a month, millimetres a day.

        Parameters
        ----------
        month : int
            1 to 12.

        Returns
        -------
        float
            Millimetres a day.

        Notes
        -----
        A plain mean; common practice, no source.
        """
        return float(
            np.mean(
                [used for start, used in zip(self.starts, self.typical_mm_day, strict=True) if start.month == month]
            )
        )


def _notes() -> Notes:
    notes = Notes()
    notes.step("water.reference", _RULE, {}, None, "fao56")
    notes.say("water.hargreaves", "fao56")
    return notes


def _starts(first_day: int, year: int) -> tuple[date, ...]:
    return tuple(dates_of(first_day + 7 * np.arange(WEEKS), year).tolist())


def _week_means(days: Array) -> Array:
    """Average each week, NaN where too few of its days were measured."""
    weeks = days.reshape(len(days), WEEKS, 7)
    count = np.isfinite(weeks).sum(axis=2)
    sums = np.where(np.isfinite(weeks), weeks, 0.0).sum(axis=2)
    return np.where(count >= DAYS_OF_WEEK, sums / np.maximum(count, 1), np.nan)
