"""How much water vapor air holds, how much more it could take up, and what that takes from white cabbage."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from gardenlib.checks import checked_all
from gardenlib.problems import InputProblem

CABBAGE_PA, CABBAGE_DAYS, CABBAGE_C = (14.0, 88.0), (60.0, 90.0), (0.5, 8.0)
PCT_PER_PA, PCT_PER_DAY, PCT_AT_START = 0.0696, 0.0314, -1.74


def vapor_pressure_kpa(temp_c: npt.ArrayLike) -> npt.NDArray[np.float64]:
    """Give the pressure of water vapor in air that can hold no more.

    Parameters
    ----------
    temp_c : array
        Temperature, degrees Celsius.

    Returns
    -------
    array
        Saturation vapor pressure, kPa.

    Raises
    ------
    InputProblem
        Outside -90 to 100 degrees Celsius.

    Notes
    -----
    Source: Allen and others 1998, FAO Irrigation and Drainage Paper 56, equation 11.

    Examples
    --------
    >>> vapor_pressure_kpa([15.0, 24.5]).round(3).tolist()
    [1.705, 3.075]
    """
    temp = checked_all(temp_c, "temp_c", -90, 100)
    return np.asarray(0.6108 * np.exp(17.27 * temp / (temp + 237.3)))


def vapor_deficit_pa(temp_c: npt.ArrayLike, humidity_pct: npt.ArrayLike) -> npt.NDArray[np.float64]:
    """Give how much more water vapor the air could hold: what dries a crop.

    Parameters
    ----------
    temp_c : array
        Temperature, degrees Celsius.
    humidity_pct : array
        Relative humidity, 0 to 100.

    Returns
    -------
    array
        Vapor pressure deficit, pascals.

    Raises
    ------
    InputProblem
        When the humidity is not from 0 to 100, or the temperature not from -90 to 100.

    Notes
    -----
    Source: Allen and others 1998, FAO Irrigation and Drainage Paper 56, equation 11.

    Examples
    --------
    >>> round(float(vapor_deficit_pa(4.0, 90.0)))
    81
    """
    return 1000 * vapor_pressure_kpa(temp_c) * (1 - checked_all(humidity_pct, "humidity_pct", 0, 100) / 100)


def cabbage_loss_pct(deficit_pa: float, days: float) -> float:
    """Give the weight that stored white cabbage loses.

    Parameters
    ----------
    deficit_pa : float
        Vapor pressure deficit, 14 to 88 Pa.
    days : float
        Days in the store, 60 to 90.

    Returns
    -------
    float
        Loss, percent of the weight.

    Raises
    ------
    InputProblem
        Outside the deficits and days of the trial.

    Notes
    -----
    Source: Acta Horticulturae 157 (1984), article 34: 0.0696 deficit + 0.0314 days - 1.74, r = 0.90.

    Examples
    --------
    >>> round(cabbage_loss_pct(30.0, 90.0), 1)
    3.2
    """
    if not CABBAGE_PA[0] <= deficit_pa <= CABBAGE_PA[1]:
        raise InputProblem(
            "air.deficit", value=f"{deficit_pa:.0f}", low=f"{CABBAGE_PA[0]:g}", high=f"{CABBAGE_PA[1]:g}"
        )
    if not CABBAGE_DAYS[0] <= days <= CABBAGE_DAYS[1]:
        raise InputProblem("air.days", value=f"{days:g}", low=f"{CABBAGE_DAYS[0]:g}", high=f"{CABBAGE_DAYS[1]:g}")
    return PCT_PER_PA * deficit_pa + PCT_PER_DAY * days + PCT_AT_START
