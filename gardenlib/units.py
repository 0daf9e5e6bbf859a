"""Units: how a measured value is held, converted and shown in the class's units.

Inside the library everything is SI (temperatures in degrees Celsius).  Each
conversion factor stands once, here, and is exact by definition (NIST Special
Publication 811, 2008, appendix B).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeVar

import numpy as np

System = Literal["us", "metric"]
Number = TypeVar("Number", float, np.ndarray)

MM_PER_INCH = 25.4
M_PER_FOOT = 0.3048
KG_PER_POUND = 0.45359237
LITRES_PER_GALLON = 3.785411784


@dataclass(frozen=True)
class Quantity:
    """A value and its unit (a unit name of this module, such as ``degC``)."""

    value: float
    unit: str


@dataclass(frozen=True)
class Range:
    """A lowest and a highest value and their unit."""

    low: float
    high: float
    unit: str


def f_to_c(temp_f: Number) -> Number:
    """Convert degrees Fahrenheit to degrees Celsius.

    Parameters
    ----------
    temp_f : float or array
        Temperature, degrees Fahrenheit.

    Returns
    -------
    float or array
        Temperature, degrees Celsius.

    Notes
    -----
    Source: NIST Special Publication 811 (2008), appendix B.8.

    Examples
    --------
    >>> f_to_c(212.0)
    100.0
    """
    return (temp_f - 32) / 1.8


def c_to_f(temp_c: Number) -> Number:
    """Convert degrees Celsius to degrees Fahrenheit.

    Parameters
    ----------
    temp_c : float or array
        Temperature, degrees Celsius.

    Returns
    -------
    float or array
        Temperature, degrees Fahrenheit.

    Notes
    -----
    Source: NIST Special Publication 811 (2008), appendix B.8.

    Examples
    --------
    >>> c_to_f(100.0)
    212.0
    """
    return temp_c * 1.8 + 32


# SI unit -> (US unit, factor, offset); differences of temperature have no offset.
_US = {
    "degC": ("degF", 1.8, 32.0),
    "degC_difference": ("degF_difference", 1.8, 0.0),
    "mm": ("in", 1 / MM_PER_INCH, 0.0),
    "m": ("ft", 1 / M_PER_FOOT, 0.0),
    "degC_days": ("degF_days", 1.8, 0.0),
    "kg": ("lb", 1 / KG_PER_POUND, 0.0),
    "m2": ("sq_ft", 1 / M_PER_FOOT**2, 0.0),
    "kg_m2": ("lb_100_sq_ft", 100 * M_PER_FOOT**2 / KG_PER_POUND, 0.0),
    "m3": ("cu_ft", 1 / M_PER_FOOT**3, 0.0),
    "litres": ("gal", 1 / LITRES_PER_GALLON, 0.0),
    "cm": ("in", 10 / MM_PER_INCH, 0.0),
}


def in_system(value: float, unit: str, system: System) -> tuple[float, str]:
    """Give a value held in SI in the units of a class.

    Parameters
    ----------
    value : float
        The value, in `unit`.
    unit : str
        An SI unit name, such as ``degC``, ``mm``, ``m``, ``kg``, ``kg_m2`` or ``litres``; others pass through.
    system : {"us", "metric"}
        What the class reads.

    Returns
    -------
    tuple of (float, str)
        The value and its unit name.

    Examples
    --------
    >>> in_system(0.0, "degC", "us")
    (32.0, 'degF')
    >>> in_system(25.4, "mm", "metric")
    (25.4, 'mm')
    """
    if system == "us" and unit in _US:
        name, factor, offset = _US[unit]
        return value * factor + offset, name
    return value, unit
