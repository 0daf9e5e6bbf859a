"""Equal and even intervals: days of sowing, and the days whose harvests are evenly spaced."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site.freeze import MIN_SEASONS
from gardenlib.sowing.past_heat import NOT_RIPE, Array

if TYPE_CHECKING:
    from gardenlib.sowing.heat_to_ripe import Ripening

MOST_DAYS = 180
TENTHS = (0.1, 0.9)


def whole_days(days: int) -> None:
    """Refuse an interval that is not a whole number of days from 1 to 180."""
    if not isinstance(days, int | np.integer) or not 1 <= days <= MOST_DAYS:
        raise InputProblem("even.every", value=days, most=MOST_DAYS)


def sowings_between(first: date, last: date, every_days: int) -> tuple[date, ...]:
    """List the days of sowing at equal intervals.

    Parameters
    ----------
    first, last : date
        The first sowing, and the day after which nothing is sown.
    every_days : int
        Days from one sowing to the next.

    Returns
    -------
    tuple of date
        The days, `last` among them where it is met; none where `last` lies before `first`.

    Raises
    ------
    InputProblem
        When the interval is not a whole number of days from 1 to 180.

    Notes
    -----
    Counting on the calendar; common practice, no source.

    Examples
    --------
    >>> len(sowings_between(date(2027, 5, 5), date(2027, 8, 1), 14))
    7
    """
    whole_days(every_days)
    return tuple(first + timedelta(days=n) for n in range(0, (last - first).days + 1, every_days))


def spaced(middle: Array, begun: int, harvests: int, every_days: int) -> list[int]:
    """Choose the days whose median harvest comes nearest to each aim; the middle one where several meet it."""
    chosen = [begun]
    for aim in middle[begun] + every_days * np.arange(1, harvests):
        if aim >= NOT_RIPE:
            break
        left, right = np.searchsorted(middle, aim, "left"), np.searchsorted(middle, aim, "right")
        if right == left:
            before, after = left - 1, min(left, len(middle) - 1)
            left = right = before if aim - middle[before] <= middle[after] - aim else after
            right += 1
        chosen.append(int(left + right - 1) // 2)
    return chosen


def spread_over_seasons(ripe: Array) -> tuple[Array, Array]:
    """Give early and late over the seasons, for each sowing."""
    if len(ripe) < MIN_SEASONS:
        return ripe.min(axis=0), ripe.max(axis=0)
    low, high = np.quantile(ripe, TENTHS, axis=0)
    return low, high


def even_table(
    past: Ripening, middle: Array, chosen: list[int], spread: tuple[Array, Array], every: int
) -> pd.DataFrame:
    """Put the sowings beside what equal intervals would have given."""
    begun = past.date(chosen[0]) or past.end
    equal = [past.day(day) for day in sowings_between(begun, past.end, every)][: len(chosen)]
    equal += [NOT_RIPE] * (len(chosen) - len(equal))
    ripe, equal_ripe = np.append(middle, NOT_RIPE)[chosen], np.append(middle, NOT_RIPE)[equal]
    days: dict[str, Iterable[float]] = {
        "sow": chosen,
        "harvest": ripe,
        "early": spread[0],
        "late": spread[1],
        "equal_sow": equal,
        "equal_harvest": equal_ripe,
    }
    dates = {name: np.array([past.date(day) for day in values], dtype=object) for name, values in days.items()}
    table = pd.DataFrame(dates)
    for name, found in (("gap_days", ripe), ("equal_gap_days", equal_ripe)):
        table[name] = pd.Series(np.where(found < NOT_RIPE, found, np.nan)).diff()
    return table
