"""The water a soil holds for roots, and how thirsty a crop is by its age."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
MM_M_PER_IN_FT = 25.4 / 0.3048
"""An inch of water in a foot of soil, as millimetres in a metre."""
_FULL_USE_MM = 5.0


def coefficient(
    days_since: npt.ArrayLike, stage_days: tuple[float, float, float, float], kc: tuple[float, float, float]
) -> Array:
    """Give how much a crop uses against short grass, by its age.

    Parameters
    ----------
    days_since : int or array
        Days since planting.
    stage_days : tuple of (float, float, float, float)
        Days of the start, the growing, the full and the late stage.
    kc : tuple of (float, float, float)
        The coefficient at the start, in full growth and at the end.

    Returns
    -------
    array
        The coefficient, in the shape of `days_since`; after the last day it stays at the end's.

    Notes
    -----
    Source: Allen et al. 1998 (FAO-56), equation 66: level, a straight line, level, a straight line.

    Examples
    --------
    >>> float(coefficient(35, (20, 30, 20, 10), (0.7, 1.05, 0.95)).round(3))
    0.875
    """
    start, growing, full, late = np.cumsum(stage_days)
    return np.asarray(
        np.interp(
            np.asarray(days_since, dtype=float), [0, start, growing, full, late], [kc[0], kc[0], kc[1], kc[1], kc[2]]
        )
    )[()]


def held_mm(held_mm_m: float, root_m: float) -> float:
    """Give all the water that roots can reach in a soil that was well watered and has drained.

    Parameters
    ----------
    held_mm_m : float
        What the soil holds for roots, millimetres of water in a metre of soil.
    root_m : float
        Depth of the roots, metres.

    Returns
    -------
    float
        Millimetres of water.

    Notes
    -----
    Source: Allen et al. 1998 (FAO-56), equation 82.

    Examples
    --------
    >>> held_mm(130.0, 0.5)
    65.0
    """
    return held_mm_m * root_m


def ready_mm(held: float, ready_fraction: float, use_mm_day: float) -> float:
    """Give the part of the held water that a crop takes up before it goes short.

    Parameters
    ----------
    held : float
        Water that roots can reach, mm.
    ready_fraction : float
        The part of it that is easily taken, from the table, 0 to 1.
    use_mm_day : float
        Water used by the crop, millimetres a day; at 5 the table's fraction holds.

    Returns
    -------
    float
        Millimetres of water.

    Notes
    -----
    Source: Allen et al. 1998 (FAO-56), equation 83 and the note to table 22: 0.04 less for each mm a day above 5.

    Examples
    --------
    >>> round(ready_mm(100.0, 0.45, 7.0), 6)
    37.0
    """
    return held * min(max(ready_fraction + 0.04 * (_FULL_USE_MM - use_mm_day), 0.1), 0.8)
