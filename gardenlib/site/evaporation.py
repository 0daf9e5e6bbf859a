"""Reference evapotranspiration: the water that a field of short grass would use in a day."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from gardenlib.problems import InputProblem

Array = npt.NDArray[np.float64]
COLDEST_C, HOTTEST_C = -90.0, 60.0
_SUN_MJ_M2_MIN = 0.0820
_MM_PER_MJ = 0.408


def extraterrestrial_mj_m2(latitude: float, dates: Any) -> Array:
    """Compute the sun's energy that reaches the top of the air in a day.

    Parameters
    ----------
    latitude : float
        Degrees, south negative.
    dates : date, array of datetime64 or DatetimeIndex
        Calendar days, any shape.

    Returns
    -------
    array
        Megajoules a square metre and day, in the shape of `dates`; 0 where the sun does not rise, NaN where a
        day is missing.

    Raises
    ------
    InputProblem
        When the latitude is not between -90 and 90.

    Notes
    -----
    Source: Allen et al. 1998 (FAO-56), equations 21 to 25. Where the sun does not set the sunset angle is half a turn.
    FAO-56 gives Ra = 32.2 for 3 September at 20 degrees south (example 8).

    Examples
    --------
    >>> float(extraterrestrial_mj_m2(-20.0, np.datetime64("2015-09-03")).round(1))
    32.2
    """
    if not -90 <= latitude <= 90:
        raise InputProblem("climate.latitude", latitude=latitude)
    days = np.asarray(dates, dtype="datetime64[D]")
    turn = 2 * np.pi / 365 * ((days - days.astype("datetime64[Y]").astype("datetime64[D]")).astype(float) + 1)
    distance, tilt, lat = 1 + 0.033 * np.cos(turn), 0.409 * np.sin(turn - 1.39), np.deg2rad(latitude)
    # Beyond 1 the sun stays up all day, below -1 it stays down.
    sunset = np.arccos(np.clip(-np.tan(lat) * np.tan(tilt), -1, 1))
    high = sunset * np.sin(lat) * np.sin(tilt) + np.cos(lat) * np.cos(tilt) * np.sin(sunset)
    energy = np.maximum(24 * 60 / np.pi * _SUN_MJ_M2_MIN * distance * high, 0.0)
    return np.asarray(np.where(np.isnat(days), np.nan, energy))[()]


def reference_et_mm(tmin_c: npt.ArrayLike, tmax_c: npt.ArrayLike, latitude: float, dates: Any) -> Array:
    """Estimate the water that short grass uses in a day, from the day's low and high.

    Parameters
    ----------
    tmin_c, tmax_c : float or array
        Low and high of each day, degrees Celsius; NaN where missing.
    latitude : float
        Degrees, south negative.
    dates : date, array of datetime64 or DatetimeIndex
        The days; shapes are broadcast.

    Returns
    -------
    array
        Millimetres a day, never below 0; NaN where a temperature or a day is missing. In the polar night it is 0.

    Raises
    ------
    InputProblem
        When a value is no temperature, a low is above its high, or the latitude cannot be.

    Notes
    -----
    Source: Hargreaves and Samani 1985 as in Allen et al. 1998 (FAO-56), equation 52, with Ra by equation 21.
    FAO-56 asks to check it against measured values of the region: it runs low in wind and high in damp air. Above 55
    degrees of latitude the equations hold badly in winter.

    Examples
    --------
    >>> float(reference_et_mm(14.8, 26.6, 45.72, np.datetime64("2015-07-15")).round(1))
    5.0
    """
    lows, highs = _temperatures(tmin_c), _temperatures(tmax_c)
    if np.any(lows > highs):
        raise InputProblem("water.low_above_high")
    rule = 0.0023 * ((lows + highs) / 2 + 17.8) * np.sqrt(highs - lows)
    return np.asarray(np.maximum(rule * _MM_PER_MJ * extraterrestrial_mj_m2(latitude, dates), 0.0))[()]


def _temperatures(values: npt.ArrayLike) -> Array:
    try:
        temps = np.asarray(values, dtype=float)
    except (TypeError, ValueError) as error:
        raise InputProblem("water.not_temperature", value=str(values)[:40]) from error
    off = temps[(temps < COLDEST_C) | (temps > HOTTEST_C)]
    if off.size:
        raise InputProblem("water.not_temperature", value=f"{off.flat[0]:g}")
    return temps
