"""How long the day is."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from gardenlib.problems import InputProblem

# The sun's upper edge on the horizon, bent by the air: centre 0.833 degrees below it.
_RISE_ZENITH = np.deg2rad(90.833)


def daylength_hours(latitude: float, dates: Any) -> npt.NDArray[np.float64]:
    """Compute the hours from sunrise to sunset.

    Parameters
    ----------
    latitude : float
        Degrees, south negative.
    dates : date, array of datetime64 or DatetimeIndex
        Calendar days, any shape.

    Returns
    -------
    array
        Hours, in the shape of `dates`; 24 where the sun does not set, 0 where it does not rise; NaN where
        a day is missing.

    Raises
    ------
    InputProblem
        When the latitude is not between -90 and 90.

    Notes
    -----
    NOAA's solar equations (after Meeus 1991, *Astronomical Algorithms*), evaluated once a day at 12 UTC:
    within about 1 minute of a full reckoning of sunrise and sunset up to 50 degrees.  For a level horizon at sea level.

    Examples
    --------
    >>> float(daylength_hours(40.0, np.datetime64("2025-06-21")).round(1))
    15.0
    """
    if not -90 <= latitude <= 90:
        raise InputProblem("climate.latitude", latitude=latitude)
    day = np.asarray(dates, dtype="datetime64[D]")
    declination = _declination((day - np.datetime64("2000-01-01")).astype(float) / 36525)
    lat = np.deg2rad(latitude)
    cos_hour = (np.cos(_RISE_ZENITH) - np.sin(lat) * np.sin(declination)) / (np.cos(lat) * np.cos(declination))
    # Beyond 1 the sun stays down all day, beyond -1 it stays up.
    hours = np.rad2deg(np.arccos(np.clip(cos_hour, -1, 1))) * 2 / 15
    return np.asarray(np.where(np.isnat(day), np.nan, hours))[()]


def _declination(century: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    t = century
    mean_longitude = 280.46646 + t * (36000.76983 + 0.0003032 * t)
    anomaly = np.deg2rad(357.52911 + t * (35999.05029 - 0.0001537 * t))
    centre = (
        np.sin(anomaly) * (1.914602 - t * (0.004817 + 0.000014 * t))
        + np.sin(2 * anomaly) * (0.019993 - 0.000101 * t)
        + np.sin(3 * anomaly) * 0.000289
    )
    node = np.deg2rad(125.04 - 1934.136 * t)
    longitude = np.deg2rad(mean_longitude + centre - 0.00569 - 0.00478 * np.sin(node))
    tilt = 23 + (26 + (21.448 - t * (46.815 + t * (0.00059 - 0.001813 * t))) / 60) / 60 + 0.00256 * np.cos(node)
    return np.asarray(np.arcsin(np.sin(np.deg2rad(tilt)) * np.sin(longitude)))
