"""Settling: how long sand and silt take to sink through the water of a jar, by Stokes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from gardenlib.checks import checked_all
from gardenlib.problems import InputProblem
from gardenlib.soil.water_ways import checked_water, density_kg_m3, viscosity_pa_s
from gardenlib.units import Quantity
from gardenlib.working import Answer, Notes, Value

GRAIN_KG_M3 = 2650.0
"""Density of quartz, as settling tables take it."""
GRAVITY_M_S2 = 9.81
SAND_MM, SILT_MM = 0.05, 0.002
"""The smallest sand and the smallest silt (Soil Survey Manual 2017, chapter 3)."""
LEAST_M, MOST_M = 0.03, 0.6
GRAIN_SPAN_MM, FALL_SPAN_M, WATER_SPAN_C = (1e-5, 2.0), (0.0, 100.0), (0.0, 100.0)
KEYS = {"sand": ("settling.speed_sand", "settling.time_sand"), "silt": ("settling.speed_silt", "settling.time_silt")}
_STOKES = "stokes_1851"


@dataclass(frozen=True, kw_only=True)
class JarTimes(Answer):
    """When to read a jar.

    Parameters
    ----------
    height_m : float
        Water above the bottom, metres.
    water_temp_c : float
        Temperature of the water, degrees Celsius.
    sand_seconds, silt_hours : float
        When the smallest sand, and the smallest silt, have sunk from the top to the bottom.
    """

    height_m: float
    water_temp_c: float
    sand_seconds: float
    silt_hours: float


def settling_seconds(
    diameter_mm: float | npt.ArrayLike, height_m: float | npt.ArrayLike, water_temp_c: float | npt.ArrayLike
) -> npt.NDArray[np.float64]:
    """Time how long a grain takes to sink through still water.

    Parameters
    ----------
    diameter_mm : float or array
        Diameter of the grain, millimetres; the rule holds up to about 0.05 mm.
    height_m : float or array
        How far it sinks, metres.
    water_temp_c : float or array
        Temperature of the water, degrees Celsius.

    Returns
    -------
    array
        Seconds.

    Raises
    ------
    InputProblem
        When a diameter is none of a grain of soil, a height is below 0, or water of this temperature is not liquid.

    Notes
    -----
    Source: Stokes 1851, speed = (grain - water) g d^2 / (18 viscosity) for a ball of 2650 kg/m3; viscosity by Patek
    and others 2009, density of water by McCutcheon and others 1993. Plates of clay sink more slowly than balls.

    Examples
    --------
    >>> round(float(settling_seconds(0.05, 0.1, 20.0)), 1)
    44.5
    """
    grain = checked_all(diameter_mm, "diameter_mm", *GRAIN_SPAN_MM)
    height = checked_all(height_m, "height_m", *FALL_SPAN_M)
    temp = checked_all(water_temp_c, "water_temp_c", *WATER_SPAN_C)
    heavier = (GRAIN_KG_M3 - density_kg_m3(temp)) * GRAVITY_M_S2
    speed = heavier * (grain / 1000) ** 2 / (18 * viscosity_pa_s(temp))
    return np.asarray(height / speed)


def jar_times(height_m: float, water_temp_c: float = 20.0) -> JarTimes:
    """Time when the sand and the silt of a jar have sunk.

    Parameters
    ----------
    height_m : float
        Water above the bottom of the jar, metres, 0.03 to 0.6.
    water_temp_c : float
        Temperature of the water, degrees Celsius, 1 to 40.

    Returns
    -------
    JarTimes
        The two times with the working.

    Raises
    ------
    InputProblem
        When height or temperature is none that a jar has.

    Notes
    -----
    Source: Stokes 1851; see `settling_seconds`. Sizes: Soil Survey Manual 2017, sand above 0.05 mm, silt above
    0.002 mm.

    Examples
    --------
    >>> times = jar_times(0.1, 20.0)
    >>> round(times.sand_seconds), round(times.silt_hours, 1)
    (45, 7.7)
    """
    if not LEAST_M <= height_m <= MOST_M:
        raise InputProblem("settling.height", value=_cm(height_m), least=_cm(LEAST_M), most=_cm(MOST_M))
    temp = checked_water(water_temp_c)
    notes = Notes()
    thick, water = float(viscosity_pa_s(temp)), float(density_kg_m3(temp))
    warm: dict[str, Value] = {"T": round(temp, 1)}  # in degrees Celsius for every class, as the formulas are published
    notes.step(
        "settling.viscosity", "sum of a * ((T + 273.15) / 300)^b", warm, Quantity(thick * 1e6, "uPa_s"), "patek_2009"
    )
    weigh = "1000 * (1 - (T + 288.94) * (T - 3.99)^2 / (508929 * (T + 68.13)))"
    notes.step("settling.density", weigh, warm, Quantity(water, "kg_m3"), "mccutcheon_1993")
    seconds = {}
    for part, diameter in (("sand", SAND_MM), ("silt", SILT_MM)):
        seconds[part] = float(settling_seconds(diameter, height_m, temp))
        sinks: dict[str, Value] = {
            "grain": Quantity(GRAIN_KG_M3, "kg_m3"),
            "water": Quantity(water, "kg_m3"),
            "d": Quantity(diameter * 1000, "um"),
            "viscosity": Quantity(thick * 1e6, "uPa_s"),
        }
        speed = Quantity(height_m / seconds[part] * 1e6, "um_s")
        notes.step(KEYS[part][0], "(grain - water) * 9.81 * d^2 / (18 * viscosity)", sinks, speed, _STOKES)
        falls: dict[str, Value] = {"height": _cm(height_m), "speed": speed}
        took = Quantity(seconds[part], "seconds") if part == "sand" else Quantity(seconds[part] / 3600, "hours")
        notes.step(KEYS[part][1], "height / speed", falls, took, _STOKES)
    notes.say("settling.balls")
    notes.say("settling.quartz")
    return JarTimes(
        height_m=float(height_m),
        water_temp_c=temp,
        sand_seconds=seconds["sand"],
        silt_hours=seconds["silt"] / 3600,
        **notes.parts(),
    )


def _cm(height_m: float) -> Quantity:
    return Quantity(height_m * 100, "cm")
