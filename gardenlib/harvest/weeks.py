"""Kernels of the weeks: a planting's yield over its harvest, and what keeping carries on to later weeks."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from gardenlib.problems import InputProblem

Array = npt.NDArray[np.float64]
WEEK = 7
LONGEST_KEPT = 104


class Balance(NamedTuple):
    """By week: what was eaten, what was lacking, what spoiled, and what still lay in store at its end."""

    eaten: Array
    gap: Array
    spoiled: Array
    in_store: Array


def supply_by_week(
    amounts: npt.ArrayLike, first: npt.ArrayLike, last: npt.ArrayLike, week_starts: npt.ArrayLike
) -> Array:
    """Spread yields evenly over the days of their harvests, and add them up by week.

    Parameters
    ----------
    amounts : array_like
        What each planting yields; any unit, shape ``(..., plantings)``.
    first, last : array_like
        First and last day of each harvest as day numbers, the same or a wider shape; nan where there is no harvest.
    week_starts : array_like
        First days of the weeks as day numbers, shape ``(weeks,)``.

    Returns
    -------
    array
        What comes in each week, shape ``(..., plantings, weeks)``.

    Raises
    ------
    InputProblem
        When an amount is below nothing, or a harvest ends before it begins.

    Notes
    -----
    That a yield comes evenly is common practice, no source; a real one swells and fades.

    Examples
    --------
    >>> supply_by_week([14.0], [3], [9], [0, 7, 14])  # seven days: four in the first week, three in the second
    array([[8., 6., 0.]])
    """
    much, begun, done = (np.asarray(value, dtype=float)[..., None] for value in (amounts, first, last))
    starts = np.asarray(week_starts, dtype=float)
    if not np.all(much >= 0):
        raise InputProblem("need.amount")
    if np.any(done < begun):
        raise InputProblem("need.backwards")
    days = np.minimum(done + 1, starts + WEEK) - np.maximum(begun, starts)
    share = np.clip(days, 0, WEEK) / (done + 1 - begun)
    return np.asarray(np.where(np.isfinite(share), much * share, 0.0))


def carry_on(supply: npt.ArrayLike, need: npt.ArrayLike, keeps_weeks: npt.ArrayLike) -> Balance:
    """Eat week by week what would spoil first, and keep the rest as long as it keeps.

    Parameters
    ----------
    supply : array_like
        What each planting gives in each week, shape ``(..., plantings, weeks)``.
    need : array_like
        What is eaten in each week, shape ``(weeks,)`` or ``(..., weeks)``.
    keeps_weeks : array_like
        Whole weeks that each planting's harvest keeps after the week of picking, shape ``(plantings,)``.

    Returns
    -------
    Balance
        Arrays of shape ``(..., weeks)``.

    Raises
    ------
    InputProblem
        When an amount or a number of weeks cannot be used.

    Notes
    -----
    Common practice, no source: the food that would spoil first is eaten first.

    Examples
    --------
    >>> carry_on([[4.0, 0, 0]], [1.0, 1, 1], [1]).gap
    array([0., 0., 1.])
    """
    fresh, wanted = np.asarray(supply, dtype=float), np.asarray(need, dtype=float)
    keeps = np.asarray(keeps_weeks, dtype=float)
    if not (np.all(fresh >= 0) and np.all(wanted >= 0)):
        raise InputProblem("need.amount")
    if not np.all((keeps >= 0) & (keeps <= LONGEST_KEPT)):
        raise InputProblem("need.keeps", most=LONGEST_KEPT)
    left = np.floor(keeps).astype(int)
    by_age = np.zeros((len(left), int(left.max(initial=0)) + 1))
    by_age[np.arange(len(left)), left] = 1
    coming = np.swapaxes(fresh, -1, -2) @ by_age
    wanted = np.broadcast_to(wanted, coming.shape[:-1])
    store = np.zeros(coming.shape[:-2] + coming.shape[-1:])
    out = np.empty((4, *wanted.shape))
    for week in range(wanted.shape[-1]):
        store += coming[..., week, :]
        before = np.cumsum(store, axis=-1) - store
        eaten = np.clip(wanted[..., week, None] - before, 0, store)
        store -= eaten
        spoiled = store[..., 0].copy()
        store[..., :-1], store[..., -1] = store[..., 1:].copy(), 0.0
        together = eaten.sum(axis=-1)
        out[..., week] = together, wanted[..., week] - together, spoiled, store.sum(axis=-1)
    return Balance(*out)
