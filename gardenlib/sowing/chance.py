"""The chance that enough seeds come up: exact sums of the binomial distribution."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from gardenlib.problems import InputProblem
from gardenlib.units import Quantity

MOST_PLANTS = 10_000
MOST_TESTED = 400
LEAST_GERMINATION = 0.01
TIE = 1e-9
"""Allowance for rounding where a chance equals the asked one exactly."""
TEST_SURE = 0.9
"""Share of towel tests whose range holds the true germination."""


def checked_fraction(value: float, name: str) -> float:
    """Return a fraction from 0 to 1, or refuse it in one sentence."""
    if value > 1:
        raise InputProblem("fraction_over_one", name=name, value=f"{value:g}", as_fraction=f"{value / 100:g}")
    if not 0 <= value <= 1:
        raise InputProblem("seeds.fraction", name=name, value=f"{value:g}")
    return float(value)


def checked_germination(value: float) -> float:
    """Return a germination that seed can be planned with."""
    fraction = checked_fraction(value, "germination_fraction")
    if fraction < LEAST_GERMINATION:
        raise InputProblem("seeds.no_germination", value=f"{value:g}")
    return fraction


def checked_confidence(value: float) -> float:
    """Return how sure somebody wants to be."""
    confidence = checked_fraction(value, "confidence")
    if not 0 < confidence <= 0.9999:
        raise InputProblem("seeds.confidence", value=f"{value:g}")
    return confidence


def checked_count(value: int, name: str, most: int = MOST_PLANTS) -> int:
    """Return a whole number from 1 to `most`."""
    if isinstance(value, bool) or not 1 <= value <= most or int(value) != value:
        raise InputProblem("seeds.count", name=name, value=f"{value:g}", most=most)
    return int(value)


def as_percent(fraction: float) -> Quantity:
    """Write a fraction in the working."""
    return Quantity(fraction * 100, "percent")


def chances(plants: int, germination_fraction: float, most: int) -> npt.NDArray[np.float64]:
    """Give the chance of at least `plants` plants from `plants`, `plants` + 1, ... `most` seeds.

    The last plant that is needed may come from the seed number m = plants, plants + 1, ...; the chances of these are
    those of the negative binomial distribution, summed.
    """
    extra = np.arange(1, most - plants + 1, dtype=float)
    with np.errstate(divide="ignore"):
        steps = np.log((plants - 1 + extra) / extra) + np.log1p(-germination_fraction)
    logs = plants * math.log(germination_fraction) + np.concatenate([[0.0], np.cumsum(steps)])
    return np.asarray(np.minimum(np.cumsum(np.exp(logs)), 1.0))


def chance_of_enough(plants: int, germination_fraction: float, sown: int) -> float:
    """Give the chance that at least `plants` of the sown seeds come up.

    Parameters
    ----------
    plants : int
        Plants wanted.
    germination_fraction : float
        Chance that one seed comes up, 0.01 to 1.
    sown : int
        Seeds sown.

    Returns
    -------
    float
        A chance from 0 to 1.

    Raises
    ------
    InputProblem
        When a count is not a whole number of 1 or more, or the fraction is not one.

    Notes
    -----
    The upper tail of the binomial distribution; common practice, no source. Seeds come up or not independently.

    Examples
    --------
    >>> round(chance_of_enough(20, 0.75, 27), 2)
    0.64
    """
    wanted, seeds = checked_count(plants, "plants"), checked_count(sown, "sown", 100 * MOST_PLANTS)
    fraction = checked_germination(germination_fraction)
    return float(chances(wanted, fraction, seeds)[-1]) if seeds >= wanted else 0.0


def seeds_to_sow(plants: int, germination_fraction: float, confidence: float = 0.9) -> int:
    """Count the seeds to sow so that enough plants come up this surely.

    Parameters
    ----------
    plants : int
        Plants wanted, 1 to 10,000.
    germination_fraction : float
        Chance that one seed gives a plant, 0.01 to 1.
    confidence : float
        How sure to be of enough plants: 0.9 is 9 sowings of 10.

    Returns
    -------
    int
        The smallest number of seeds that is enough.

    Raises
    ------
    InputProblem
        When `plants` is not a whole number in its range, or a fraction is not one ("did you mean").

    Notes
    -----
    The smallest n with P(Bin(n, germination) >= plants) >= confidence; common practice, no source. Seeds come up or
    not independently of each other.

    Examples
    --------
    >>> seeds_to_sow(20, 0.75), seeds_to_sow(20, 0.75, 0.99)
    (31, 35)
    """
    wanted, sure = checked_count(plants, "plants"), checked_confidence(confidence)
    fraction = checked_germination(germination_fraction)
    if fraction == 1:
        return wanted
    most = math.ceil((wanted + 4 * math.sqrt(wanted) + 10) / fraction)
    while (found := chances(wanted, fraction, most))[-1] < sure - TIE:
        most *= 2
    return wanted + int(np.argmax(found >= sure - TIE))


def germination_range(sprouted: int, tested: int) -> tuple[float, float]:
    """Give the range of germination that a small test leaves open.

    Parameters
    ----------
    sprouted, tested : int
        Seeds that sprouted, of how many.

    Returns
    -------
    tuple of (float, float)
        Lowest and highest germination, 0 to 1; 9 tests of 10 hold the true one.

    Raises
    ------
    InputProblem
        When more sprouted than were tested, or a count is not a whole number.

    Notes
    -----
    Clopper and Pearson (1934), the exact interval at 90 %, found by halving.

    Examples
    --------
    >>> [round(end, 2) for end in germination_range(7, 10)]
    [0.39, 0.91]
    """
    of = checked_count(tested, "tested", MOST_TESTED)
    if isinstance(sprouted, bool) or not 0 <= sprouted <= of or int(sprouted) != sprouted:
        raise InputProblem("seeds.towel", sprouted=f"{sprouted:g}", tested=of)
    return exact_range(int(sprouted), of, TEST_SURE)


def exact_range(hits: int, looked_at: int, sure: float) -> tuple[float, float]:
    """Give the shares of a whole that a count leaves open (Clopper and Pearson 1934), by halving."""
    tail = (1 - sure) / 2
    low = _fraction_where(hits, looked_at, tail) if hits > 0 else 0.0
    high = _fraction_where(hits + 1, looked_at, 1 - tail) if hits < looked_at else 1.0
    return low, high


def _fraction_where(wanted: int, tested: int, chance: float) -> float:
    low, high = 0.0, 1.0
    while high - low > 1e-12:
        middle = (low + high) / 2
        enough = chances(wanted, middle, tested)[-1]
        low, high = (middle, high) if enough < chance else (low, middle)
    return (low + high) / 2
