"""Why plants divided by germination comes up short: the sum, and the sowing tried many times."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from gardenlib.sowing.chance import as_percent, chance_of_enough, checked_count, checked_germination
from gardenlib.working import COMMON_PRACTICE, Answer, Notes, Value


def simple_sowing(plants: int, germination_fraction: float) -> int:
    """Divide the plants by the germination: the number that is enough only on average.

    Parameters
    ----------
    plants : int
        Plants wanted.
    germination_fraction : float
        Chance that one seed gives a plant.

    Returns
    -------
    int
        Plants divided by germination, rounded up.

    Raises
    ------
    InputProblem
        As `seeds_to_sow`.

    Notes
    -----
    Common practice, no source; see `seeds_to_sow` for the number that is enough more surely.

    Examples
    --------
    >>> simple_sowing(20, 0.75)
    27
    """
    return math.ceil(checked_count(plants, "plants") / checked_germination(germination_fraction) - 1e-9)


@dataclass(frozen=True, kw_only=True)
class Shortfall(Answer):
    """How often a sowing leaves too few plants.

    Parameters
    ----------
    plants, sown, trials : int
        Plants wanted, seeds sown, and how often the sowing was tried.
    came_up : tuple of int
        Plants in each of the tried sowings.
    short : int
        How many of them had too few.
    short_fraction : float
        The exact chance of too few.
    """

    plants: int
    sown: int
    trials: int
    came_up: tuple[int, ...]
    short: int
    short_fraction: float


def shortfall(plants: int, germination_fraction: float, sown: int, *, trials: int = 1000, seed: int = 0) -> Shortfall:
    """Try one sowing many times, and say how often too few plants come up.

    Parameters
    ----------
    plants : int
        Plants wanted.
    germination_fraction : float
        Chance that one seed gives a plant.
    sown : int
        Seeds sown.
    trials : int
        How often the sowing is tried, 1 to 10,000.
    seed : int
        Start of the random numbers; the same start gives the same sowings.

    Returns
    -------
    Shortfall
        The tried sowings and the exact chance beside them.

    Raises
    ------
    InputProblem
        As `seeds_to_sow`.

    Notes
    -----
    Common practice, no source: draws of the binomial distribution by numpy's default generator.

    Examples
    --------
    >>> tried = shortfall(20, 0.75, 27)
    >>> round(1 - tried.short_fraction, 2)
    0.64
    """
    often = checked_count(trials, "trials")
    exact = 1 - chance_of_enough(plants, germination_fraction, sown)
    drawn = np.random.default_rng(seed).binomial(sown, germination_fraction, often)
    short = int((drawn < plants).sum())
    notes = Notes()
    given: dict[str, Value] = {"seeds": sown, "chance": as_percent(germination_fraction), "plants": plants}
    notes.step("seeds.short_chance", "1 - P(at least plants of seeds)", given, as_percent(exact), COMMON_PRACTICE)
    notes.step("seeds.short_tried", "sowings with too few plants", {**given, "sowings": often}, short, COMMON_PRACTICE)
    notes.say("seeds.independent")
    return Shortfall(
        plants=plants,
        sown=sown,
        trials=often,
        came_up=tuple(int(n) for n in drawn),
        short=short,
        short_fraction=exact,
        **notes.parts(),
    )
