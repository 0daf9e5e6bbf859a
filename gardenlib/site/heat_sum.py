"""Degree days: how much warmth a day gives above a threshold."""

from __future__ import annotations

from typing import Any, Literal

import numpy as np
import numpy.typing as npt
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.words import Said

Method = Literal["average", "modified-average", "triangle", "sine", "double-triangle", "double-sine"]
Cutoff = Literal["horizontal", "intermediate", "vertical"]
Array = npt.NDArray[np.float64]

METHODS = ("average", "modified-average", "triangle", "sine", "double-triangle", "double-sine")
CUTOFFS = ("horizontal", "intermediate", "vertical")


def degree_days(
    tmin_c: Any,
    tmax_c: Any,
    lower_c: float,
    upper_c: float | None = None,
    *,
    method: Method = "sine",
    cutoff: Cutoff = "horizontal",
    next_tmin_c: Any = None,
) -> Array:
    """Compute the degree days of each day.

    Parameters
    ----------
    tmin_c, tmax_c : array
        Lowest and highest temperature of each day, degrees Celsius, same shape.
    lower_c : float
        Below this temperature nothing develops, degrees Celsius.
    upper_c : float, optional
        Above this temperature development is cut off, degrees Celsius; None means no cutoff.
    method : {"average", "modified-average", "triangle", "sine", "double-triangle", "double-sine"}
        The curve drawn through the day; the double ones go on to the next morning's low.
    cutoff : {"horizontal", "intermediate", "vertical"}
        Above `upper_c` development stays at its highest, falls off, or stops.
    next_tmin_c : array, optional
        Lowest temperature of the following day, for the double methods; a missing last one is taken as today's.

    Returns
    -------
    array
        Degree days, degrees Celsius times days, in the shape of `tmin_c`; NaN where a temperature is.

    Raises
    ------
    InputProblem
        When a temperature is infinite, a day's low is above its high, the upper threshold is not above the lower, a
        double method has no `next_tmin_c`, an average is asked for another cutoff than horizontal, or the method or
        cutoff is unknown.

    Notes
    -----
    Zalom et al. (1983), UC Leaflet 21373, tables 3 to 7; the two averages are methods 1 and 2 of McMaster and Wilhelm
    (1997), Agric. For. Meteorol. 87:291.  All cutoffs come from one function, the degree days above a threshold:
    horizontal S(L) - S(U), intermediate S(L) - 2 S(U) and not below 0, vertical S(L) - S(U) - (U - L) times the share
    of the day above U.  Where the next morning's low is above the day's high, the second half-day runs between the
    two. Totals of different methods are not interchangeable.

    Examples
    --------
    >>> degree_days([10.0, 4.0], [20.0, 8.0], 10.0, method="average")
    array([5., 0.])
    """
    if method not in METHODS or cutoff not in CUTOFFS:
        raise InputProblem(
            "climate.degree_method",
            name=method if method not in METHODS else cutoff,
            known=", ".join(METHODS if method not in METHODS else CUTOFFS),
        )
    if upper_c is not None and not upper_c > lower_c:
        raise InputProblem("climate.degree_cutoff", upper=f"{upper_c:g}", lower=f"{lower_c:g}")
    low, high = np.asarray(tmin_c, dtype=float), np.asarray(tmax_c, dtype=float)
    endless = [*low[np.isinf(low)], *high[np.isinf(high)]]
    if endless:
        raise InputProblem("water.not_temperature", value=f"{endless[0]:g}")
    _refuse_crossed(tmin_c, low, high)
    known = ~(np.isnan(low) | np.isnan(high))
    if method in ("average", "modified-average"):
        if upper_c is not None and cutoff != "horizontal":
            raise InputProblem("climate.degree_average", cutoff=cutoff)
        return np.where(known, _average(low, high, lower_c, upper_c, clip_first=method == "modified-average"), np.nan)[
            ()
        ]
    curve = _triangle if method.endswith("triangle") else _sine
    result = _cut(curve, low, high, (lower_c, upper_c), cutoff)
    if method.startswith("double"):
        following = _following(low, next_tmin_c, method)
        known = known & ~np.isnan(following)
        second = _cut(curve, np.minimum(following, high), np.maximum(following, high), (lower_c, upper_c), cutoff)
        result = (result + second) / 2
    return np.where(known, result, np.nan)[()]


def _refuse_crossed(given: Any, low: Array, high: Array) -> None:
    crossed = np.flatnonzero(np.ravel(low > high))
    if not crossed.size:
        return
    at = int(crossed[0])
    dated = isinstance(given, pd.Series) and isinstance(given.index, pd.DatetimeIndex)
    day = given.index[at].date() if dated else Said("climate.day_number", {"number": at + 1})
    raise InputProblem(
        "climate.low_above_high",
        day=day,
        low=f"{np.ravel(low)[at]:g}",
        high=f"{np.ravel(np.broadcast_to(high, low.shape))[at]:g}",
    )


def _following(low: Array, next_tmin_c: Any, method: str) -> Array:
    if next_tmin_c is None:
        raise InputProblem("climate.degree_next", method=method)
    following = np.array(next_tmin_c, dtype=float)
    if following.ndim and following.size and np.isnan(following[-1]):
        following[-1] = low[-1]
    return following


def _average(low: Array, high: Array, lower: float, upper: float | None, *, clip_first: bool) -> Array:
    ceiling = np.inf if upper is None else upper
    if clip_first:
        return np.asarray((np.clip(low, lower, ceiling) + np.clip(high, lower, ceiling)) / 2 - lower)
    return np.asarray(np.clip((low + high) / 2, lower, ceiling) - lower)


def _cut(curve: Any, low: Array, high: Array, limits: tuple[float, float | None], cutoff: str) -> Array:
    lower, upper = limits
    above, _ = curve(low, high, lower)
    if upper is None:
        return np.asarray(above)
    over, share = curve(low, high, upper)
    if cutoff == "intermediate":
        return np.asarray(np.maximum(above - 2 * over, 0))
    stopped = (upper - lower) * share if cutoff == "vertical" else 0
    return np.asarray(above - over - stopped)


def _triangle(low: Array, high: Array, threshold: float) -> tuple[Array, Array]:
    span = np.where(high > low, high - low, 1)
    part = np.clip(high - threshold, 0, None)
    return _by_case(low, high, threshold, part**2 / (2 * span), part / span)


def _sine(low: Array, high: Array, threshold: float) -> tuple[Array, Array]:
    mean, half = (high + low) / 2, np.where(high > low, (high - low) / 2, 1)
    angle = np.arcsin(np.clip((threshold - mean) / half, -1, 1))
    part = ((mean - threshold) * (np.pi / 2 - angle) + half * np.cos(angle)) / np.pi
    return _by_case(low, high, threshold, part, (np.pi / 2 - angle) / np.pi)


def _by_case(low: Array, high: Array, threshold: float, part: Array, share: Array) -> tuple[Array, Array]:
    """Choose by where the day lies: wholly below, wholly above, or across the threshold."""
    above = np.where(high <= threshold, 0, np.where(low >= threshold, (high + low) / 2 - threshold, part))
    return above, np.where(high <= threshold, 0, np.where(low >= threshold, 1, share))
