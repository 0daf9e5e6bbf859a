"""Soil temperature from the air: a published rule, with its error."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from gardenlib.problems import InputProblem
from gardenlib.units import Quantity
from gardenlib.working import Answer, Notes

if TYPE_CHECKING:
    import pandas as pd

    from gardenlib.site import Warmth

SOIL_WINDOW_DAYS = 11
SOIL_ERROR_C = 3.0


@dataclass(frozen=True, kw_only=True)
class SoilTemp(Answer):
    """A soil temperature that was estimated from the air.

    Parameters
    ----------
    temp_c, error_c : float
        Soil temperature 10 cm deep, and how far off it may be, degrees Celsius.
    day : date
        For which day.
    air_from : {"record", "typical year"}
        Whether the air was that of the days before, or of a typical year.
    """

    temp_c: float
    error_c: float
    day: date
    air_from: Literal["record", "typical year"]


def soil_temp_from_air(daily: pd.DataFrame | None, day: date, *, warmth: Warmth | None = None) -> SoilTemp:
    """Estimate the soil temperature of a day from the air of the days before it.

    Parameters
    ----------
    daily : DataFrame or None
        A station's days (index date; `tmin_c`, `tmax_c`); used where it holds all 11 days up to `day`.
    day : date
        For which day.
    warmth : Warmth, optional
        The typical year, used where the record does not reach.

    Returns
    -------
    SoilTemp
        The temperature with its error.

    Raises
    ------
    InputProblem
        When neither the record nor a typical year has the days.

    Notes
    -----
    Source: Zheng, Hunt and Running (1993), Climate Research 2:183: soil 10 cm deep = a + b * mean of 11 days of daily
    mean air temperature, with a standard error of 1.5 to 2.9 degrees Celsius. Its regional coefficients were not
    seen; a = 0 and b = 1, with an error of 3 degrees, are common practice.

    Examples
    --------
    >>> import pandas as pd
    >>> days = pd.date_range("2027-04-01", "2027-04-11")
    >>> air = pd.DataFrame({"tmin_c": 5.0, "tmax_c": 15.0}, index=days)
    >>> soil_temp_from_air(air, date(2027, 4, 11)).temp_c
    10.0
    """
    notes = Notes()
    days = [day - timedelta(days=back) for back in range(SOIL_WINDOW_DAYS)]
    means = None if daily is None else _recorded(daily, days)
    air_from: Literal["record", "typical year"] = "record"
    if means is None:
        if warmth is None:
            raise InputProblem("warm.no_air", day=day)
        air_from = "typical year"
        means = np.array([warmth.mean_c[_day_of_year(when)] for when in days])
        notes.say("warm.typical_year")
        notes.cite(*warmth.sources)
    temp_c = float(np.mean(means))
    temp = Quantity(temp_c, "degC")
    given = {"first_day": days[-1], "last_day": day}
    notes.step("warm.air_mean", "mean of (low + high) / 2 over 11 days", given, temp, "zheng_1993")
    notes.step("warm.soil", "0 + 1 * air_mean", {"air_mean": temp}, temp, "common_practice")
    error = Quantity(SOIL_ERROR_C, "degC_difference")
    notes.say("warm.soil_error", "zheng_1993", error=error)
    notes.say("warm.snow")
    return SoilTemp(temp_c=temp_c, error_c=SOIL_ERROR_C, day=day, air_from=air_from, **notes.parts())


def _recorded(daily: pd.DataFrame, days: list[date]) -> Any:
    import pandas as pd

    found = daily.reindex(pd.DatetimeIndex(days))[["tmin_c", "tmax_c"]].mean(axis=1, skipna=False).to_numpy()
    return None if np.isnan(found).any() else found


def _day_of_year(when: date) -> int:
    """Give the number of a day in a year without 29 February, which counts as 28 February."""
    shown = when.replace(day=28) if (when.month, when.day) == (2, 29) else when
    return (shown.replace(year=2001) - date(2001, 1, 1)).days
