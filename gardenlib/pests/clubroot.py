"""Clubroot: how many of its spores still live in the soil."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from gardenlib.problems import InputProblem
from gardenlib.sowing.chance import checked_fraction


def spores_left(years: Any, half_life_years: Any) -> Any:
    """Give the share of clubroot's spores that still live after years without a plant to feed on.

    Parameters
    ----------
    years : float or array
        Years without the cabbage family, 0 or more.
    half_life_years : float or array
        Years in which half of them die.

    Returns
    -------
    float or array
        A share from 0 to 1.

    Raises
    ------
    InputProblem
        When years are negative or a half-life is not above 0.

    Notes
    -----
    Source: ``0.5 ** (years / half_life)``; Pacific Northwest handbook, clubroot: a half-life of 3 to 6 years.

    Examples
    --------
    >>> [round(float(left), 4) for left in spores_left(7, np.array([3, 6]))]
    [0.1984, 0.4454]
    """
    try:
        past, half = np.asarray(years, dtype=float), np.asarray(half_life_years, dtype=float)
    except (TypeError, ValueError):
        past = half = np.asarray(math.nan)
    if not (np.all(np.isfinite(past)) and np.all(past >= 0) and np.all(np.isfinite(half)) and np.all(half > 0)):
        raise InputProblem("disease.spores", years=str(years)[:40], half_life=str(half_life_years)[:40])
    return 0.5 ** (past / half)


def years_until(left_fraction: float, half_life_years: Any) -> Any:
    """Give the years until only this share of clubroot's spores still lives.

    Parameters
    ----------
    left_fraction : float
        The share, above 0 and at most 1.
    half_life_years : float or array
        Years in which half of them die.

    Returns
    -------
    float or array
        Years.

    Raises
    ------
    InputProblem
        When the share is not one, or a half-life is not above 0.

    Notes
    -----
    The inverse of `spores_left`; common practice, no source.

    Examples
    --------
    >>> round(float(years_until(0.01, 3)), 2)
    19.93
    """
    share = checked_fraction(left_fraction, "left_fraction")
    if share == 0:
        raise InputProblem("disease.share", value=f"{left_fraction:g}")
    spores_left(0, half_life_years)  # refuses a half-life that cannot be
    return math.log2(1 / share) * np.asarray(half_life_years, dtype=float)[()]
