"""Published lime methods, each a small function in the unit in which its source prints it."""

from __future__ import annotations

from functools import cache

import numpy as np
import numpy.typing as npt

from gardenlib.tables.loader import rows

STANDARD_LIME_CCE = 0.9
"""North Carolina counts in lime of 90 % calcium carbonate equivalent."""
NC_BUFFER_PH = 6.6
PSU_GOALS = (6.5, 7.0)
PSU_LEAST_LB_AC = 2000.0


@cache
def osu_grid() -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64], npt.NDArray[np.float64]]:
    """Give the Oregon table: buffer values and targets, both rising, and short tons an acre."""
    cells = {(row["buffer_ph"], row["target_ph"]): row["short_t_ac"] for row in rows("lime_osu_sikora")}
    buffers, targets = (sorted({cell[side] for cell in cells}) for side in (0, 1))
    tons = np.array([[cells[buffer, target] for target in targets] for buffer in buffers])
    return np.array(buffers), np.array(targets), tons


def osu_sikora_t_ac(buffer_ph: float, target_ph: float) -> float:
    """Read the Oregon table for the Sikora buffer, short tons of pure lime an acre, 6 inches deep.

    Between printed values the table is read in a straight line, first along the buffer and then along the target.
    """
    buffers, targets, tons = osu_grid()
    at_buffer = [np.interp(buffer_ph, buffers, column) for column in tons.T]
    return float(np.interp(target_ph, targets, at_buffer))


@cache
def smp_lines() -> dict[float, tuple[float, float]]:
    """Give the Iowa equations: intercept and slope by target."""
    return {row["target_ph"]: (row["intercept"], row["slope"]) for row in rows("lime_smp_isu")}


def smp_isu_lb_ac(buffer_ph: float, target_ph: float, depth_in: float = 6) -> float:
    """Work out the Iowa rate for the SMP buffer, pounds of pure lime an acre; never below none."""
    by_target = {
        target: max(0.0, (intercept - slope * buffer_ph) * 0.167 * depth_in)
        for target, (intercept, slope) in smp_lines().items()
    }
    return float(np.interp(target_ph, list(by_target), list(by_target.values())))


def ncda_acidity(buffer_ph: float) -> float:
    """Work out the acidity from the North Carolina (Mehlich) buffer, meq in 100 cubic centimetres."""
    return max(0.0, (NC_BUFFER_PH - buffer_ph) * 4)


def ncda_factor(water_ph: float, target_ph: float) -> float:
    """Give the share of the acidity that is to be limed away; the water pH lies below 6.6."""
    return max(0.0, (target_ph - water_ph) / (NC_BUFFER_PH - water_ph))


def ncda_t_ac(acidity: float, water_ph: float, target_ph: float) -> float:
    """Work out the North Carolina rate, short tons of standard lime an acre; never below none."""
    return acidity * ncda_factor(water_ph, target_ph)


def psu_lb_ac(acidity_meq_100g: float, water_ph: float, target_ph: float) -> float:
    """Work out the Penn State rate for a goal of 6.5 or 7.0, pounds of pure lime an acre, 7 inches deep."""
    if water_ph >= target_ph:
        return 0.0
    if target_ph == PSU_GOALS[1]:
        return 1000 * acidity_meq_100g
    return 840 * acidity_meq_100g if acidity_meq_100g > 4 else PSU_LEAST_LB_AC


def psu_turf_lb_1000(acidity_meq_100g: float, target_ph: float) -> float:
    """Read the Penn State table for lawns, pounds of pure lime in 1,000 square feet, for a goal of 6.0, 6.5 or 7.0."""
    column = [row for row in rows("lime_psu_turf") if row["target_ph"] == target_ph]
    acidities, pounds = ([float(row[name]) for row in column] for name in ("acidity_meq_100g", "lb_1000_sq_ft"))
    return float(np.interp(acidity_meq_100g, acidities, pounds))


def soil_row(texture: str) -> str | None:
    """Give the row of the limestone table that stands for a texture."""
    return next((row["soil"] for row in rows("lime_soils") if row["texture"] == texture), None)


def usda_span(region: str, soil: str) -> tuple[float, float]:
    """Tell between which pH values the limestone table has figures for a soil."""
    found = _usda_rows(region, soil)
    return found[0]["from_ph"], found[-1]["to_ph"]


def usda_texture_t_ac(region: str, soil: str, water_ph: float, target_ph: float) -> float:
    """Add up the limestone table between two pH values, short tons an acre, 7 inches deep; unchecked figures."""
    found = _usda_rows(region, soil)
    ends = [found[0]["from_ph"], *(row["to_ph"] for row in found)]
    added = np.cumsum([0.0, *(row["short_t_ac"] for row in found)])
    low, high = np.interp([water_ph, target_ph], ends, added)
    return float(max(0.0, high - low))


def _usda_rows(region: str, soil: str) -> list[dict[str, float]]:
    found = [dict(row) for row in rows("lime_texture_usda") if (row["region"], row["soil"]) == (region, soil)]
    return sorted(found, key=lambda row: row["from_ph"])
