"""How thick and how heavy water is at a temperature: two published formulas."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from gardenlib.problems import InputProblem
from gardenlib.units import Quantity

COLDEST_C, WARMEST_C = 1.0, 40.0
_FACTORS = np.array([280.68, 511.45, 61.131, 0.45903])
_POWERS = np.array([-1.9, -7.7, -19.6, -40.0])


def checked_water(water_temp_c: float) -> float:
    """Return a temperature at which water in a jar is a liquid that a hand can touch."""
    if not COLDEST_C <= water_temp_c <= WARMEST_C:
        raise InputProblem(
            "settling.water",
            value=Quantity(water_temp_c, "degC"),
            least=Quantity(COLDEST_C, "degC"),
            most=Quantity(WARMEST_C, "degC"),
        )
    return float(water_temp_c)


def viscosity_pa_s(water_temp_c: float | npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Give the dynamic viscosity of water, Patek and others 2009: the sum of a (T / 300 K)^b."""
    ratio = (np.asarray(water_temp_c, float)[..., None] + 273.15) / 300
    return np.asarray(1e-6 * (_FACTORS * ratio**_POWERS).sum(axis=-1))


def density_kg_m3(water_temp_c: float | npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Give the density of water, McCutcheon and others 1993."""
    temp = np.asarray(water_temp_c, float)
    return 1000 * (1 - (temp + 288.9414) * (temp - 3.9863) ** 2 / (508929.2 * (temp + 68.12963)))
