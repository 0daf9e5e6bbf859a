"""A published sequential plan: look plant by plant, and stop when enough was seen."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt
import pandas as pd

from gardenlib.pests.scouting import checked_plants
from gardenlib.problems import InputProblem
from gardenlib.sowing.chance import chances, checked_fraction
from gardenlib.units import Quantity
from gardenlib.working import Answer, Notes, Value

Verdict = Literal["under", "over", "go_on"]

TIE = 1e-9
"""Allowance at the lines: two hit of two plants lie exactly on the upper one."""
PUBLISHED = {"low_fraction": 0.05, "high_fraction": 0.15, "error_fraction": 0.10}
MOST_PLANTS = 2000


@dataclass(frozen=True, kw_only=True)
class SequentialPlan(Answer):
    """Two lines between which one goes on looking.

    Parameters
    ----------
    slope : float
        How many more hit plants each plant looked at allows.
    apart_low, apart_high : float
        How far the lines lie below and above the middle, hit plants.
    """

    slope: float
    apart_low: float
    apart_high: float

    def verdict(self, looked_at: int, hit: int) -> Verdict:
        """Say whether enough was seen.

        Parameters
        ----------
        looked_at, hit : int
            Plants looked at so far, and those that were hit.

        Returns
        -------
        {"under", "over", "go_on"}
            At or below the lower line, at or above the upper one, or between them.
        """
        if hit > looked_at or hit < 0:
            raise InputProblem("scouting.more_hit", hit=hit, checked=looked_at)
        middle = self.slope * looked_at
        if hit <= middle - self.apart_low + TIE:
            return "under"
        return "over" if hit >= middle + self.apart_high - TIE else "go_on"

    def limits(self, most: int) -> pd.DataFrame:
        """List for each count of plants the hit plants at which one stops.

        Parameters
        ----------
        most : int
            Plants looked at, at most.

        Returns
        -------
        DataFrame
            Index looked_at; columns under_at_most and over_at_least; missing where one cannot stop yet.
        """
        looked = np.arange(1, most + 1)
        under = np.floor(self.slope * looked - self.apart_low + TIE)
        over = np.ceil(self.slope * looked + self.apart_high - TIE)
        table = pd.DataFrame({"under_at_most": under, "over_at_least": over}, index=pd.Index(looked, name="looked_at"))
        return table.where(np.column_stack([under >= 0, over <= looked])).astype("Int64")

    def outcomes(self, true_fraction: float, most: int = 50) -> dict[str, float]:
        """Give the exact shares of walks that end under, over and undecided, and the mean plants looked at.

        Parameters
        ----------
        true_fraction : float
            Share of all plants that are hit, 0 to 1.
        most : int
            Plants looked at, at most.

        Returns
        -------
        dict of str to float
            ``under``, ``over``, ``undecided`` (shares) and ``plants`` (mean).
        """
        share = checked_fraction(true_fraction, "true_fraction")
        going: npt.NDArray[np.float64] = np.zeros(most + 2)
        going[0], hits = 1.0, np.arange(most + 2)
        ended = {"under": 0.0, "over": 0.0}
        plants = 0.0
        for looked in range(1, most + 1):
            plants += float(going.sum())
            going = going * (1 - share) + np.concatenate([[0.0], going[:-1]]) * share
            middle = self.slope * looked
            under, over = hits <= middle - self.apart_low + TIE, hits >= middle + self.apart_high - TIE
            ended["under"] += float(going[under].sum())
            ended["over"] += float(going[over].sum())
            going[under | over] = 0.0
        return {**ended, "undecided": float(going.sum()), "plants": plants}


def sequential_plan(
    low_fraction: float = PUBLISHED["low_fraction"],
    high_fraction: float = PUBLISHED["high_fraction"],
    error_fraction: float = PUBLISHED["error_fraction"],
) -> SequentialPlan:
    """Draw the lines of a sequential plan.

    Parameters
    ----------
    low_fraction, high_fraction : float
        Shares of hit plants at which one surely would not act, and surely would, 0 to 1.
    error_fraction : float
        Share of walks that may end on the other side of each, 0 to 0.5.

    Returns
    -------
    SequentialPlan
        The lines with their working.

    Raises
    ------
    InputProblem
        When the shares are not rising fractions, or the error is not between 0 and 0.5.

    Notes
    -----
    Wald (1947), the sequential probability ratio test; the bounds of 5 and 15 % and the errors of 10 % are those
    published for the cabbage looper around a limit of 10 % (Burkness and Hutchison 2001).

    Examples
    --------
    >>> plan = sequential_plan()
    >>> round(plan.slope, 4), round(plan.apart_low, 3), plan.verdict(20, 0), plan.verdict(2, 2)
    (0.0919, 1.816, 'under', 'over')
    """
    low, high = checked_fraction(low_fraction, "low_fraction"), checked_fraction(high_fraction, "high_fraction")
    error = checked_fraction(error_fraction, "error_fraction")
    if not 0 < low < high < 1 or not 0 < error < 0.5:
        raise InputProblem("scouting.plan", low=f"{low:g}", high=f"{high:g}", error=f"{error:g}")
    notes = Notes()
    scale = math.log(high * (1 - low) / (low * (1 - high)))
    slope = math.log((1 - low) / (1 - high)) / scale
    apart = math.log((1 - error) / error) / scale
    bounds: dict[str, Value] = {"low": Quantity(100 * low, "percent"), "high": Quantity(100 * high, "percent")}
    odds = "ln(high (1 - low) / (low (1 - high)))"
    notes.step("scouting.slope", f"ln((1 - low) / (1 - high)) / {odds}", bounds, round(slope, 4), "wald_1947")
    errors: dict[str, Value] = {**bounds, "error": Quantity(100 * error, "percent")}
    notes.step("scouting.apart", f"ln((1 - error) / error) / {odds}", errors, round(apart, 4), "wald_1947")
    notes.cite("burkness_2001")
    return SequentialPlan(slope=slope, apart_low=apart, apart_high=apart, **notes.parts())


def walks(true_fraction: float, looked_at: int, *, trials: int, seed: int = 0) -> npt.NDArray[np.int64]:
    """Walk a field many times and count the hit plants of each walk.

    Parameters
    ----------
    true_fraction : float
        Share of all plants that are hit, 0 to 1.
    looked_at : int
        Plants looked at on a walk, taken from all over the field.
    trials : int
        Walks.
    seed : int
        The same seed gives the same walks.

    Returns
    -------
    array of int, shape (trials,)
        Hit plants seen on each.

    Raises
    ------
    InputProblem
        When the share is not a fraction, or nothing is looked at.

    Notes
    -----
    Draws from the binomial distribution; common practice, no source.

    Examples
    --------
    >>> walks(1.0, 10, trials=3).tolist()
    [10, 10, 10]
    """
    checked_plants(looked_at, 1, MOST_PLANTS)
    dice = np.random.Generator(np.random.PCG64(seed))
    return dice.binomial(looked_at, checked_fraction(true_fraction, "true_fraction"), size=trials)


def chance_to_act(true_fraction: float, looked_at: int, limit_fraction: float) -> float:
    """Give the chance that a walk finds a share of hit plants at or above a limit.

    Parameters
    ----------
    true_fraction : float
        Share of all plants that are hit, 0 to 1.
    looked_at : int
        Plants looked at.
    limit_fraction : float
        The limit, 0 to 1.

    Returns
    -------
    float
        A chance from 0 to 1.

    Raises
    ------
    InputProblem
        When a share is not a fraction, or nothing is looked at.

    Notes
    -----
    The upper tail of the binomial distribution; common practice, no source.

    Examples
    --------
    >>> round(chance_to_act(0.05, 10, 0.10), 3)  # 1 - 0.95 ** 10
    0.401
    """
    seen = checked_plants(looked_at, 1, MOST_PLANTS)
    share = checked_fraction(true_fraction, "true_fraction")
    needed = hits_at_limit(seen, checked_fraction(limit_fraction, "limit_fraction"))
    if needed == 0 or share == 0:
        return float(needed == 0)
    return float(chances(needed, share, seen)[-1])


def hits_at_limit(looked_at: int, limit_fraction: float) -> int:
    """Count the hit plants with which a walk is at its limit."""
    return math.ceil(looked_at * limit_fraction - TIE)
