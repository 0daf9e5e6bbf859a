"""How many plants to look at, so that a walk seldom misses a pest that is there."""

from __future__ import annotations

import math

from gardenlib.problems import InputProblem
from gardenlib.sowing.chance import checked_fraction


def plants_to_see_one(true_fraction: float, sure_fraction: float = 0.95) -> int:
    """Count the plants to look at in a big field, to see at least one that is hit.

    Parameters
    ----------
    true_fraction : float
        Share of all plants that are hit, above 0.
    sure_fraction : float
        Share of walks that see one, above 0 and below 1.

    Returns
    -------
    int
        Plants.

    Raises
    ------
    InputProblem
        When a share is not one, or no count of plants would do.

    Notes
    -----
    The fewest plants ``n`` with ``1 - (1 - true) ** n`` at or above ``sure``; common practice, no source.

    Examples
    --------
    >>> plants_to_see_one(0.05), plants_to_see_one(0.10)
    (59, 29)
    """
    true, sure = checked_fraction(true_fraction, "true_fraction"), checked_fraction(sure_fraction, "sure_fraction")
    if true == 0 or not 0 < sure < 1:
        raise InputProblem("scouting.never_sure", true=f"{true:g}", sure=f"{sure:g}")
    return 1 if true >= sure else math.ceil(math.log1p(-sure) / math.log1p(-true) - 1e-9)
