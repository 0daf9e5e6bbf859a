"""Supply against need by week: where it is too little or too much, what keeping bridges, and when to plant again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
import pandas as pd

from gardenlib.checks import checked_between
from gardenlib.harvest.figures import whole
from gardenlib.harvest.stands import Further, Stand
from gardenlib.harvest.weeks import WEEK, Array, Balance, carry_on, supply_by_week
from gardenlib.problems import InputProblem
from gardenlib.sowing.windows import week_of
from gardenlib.units import Quantity
from gardenlib.working import COMMON_PRACTICE, Answer, Notes, Value

LITTLE = 1e-6
NEARLY_NONE = 0.05


@dataclass(frozen=True, kw_only=True)
class Supply(Answer):
    """Supply against need.

    Parameters
    ----------
    table : DataFrame
        One row a week: ``week`` (its first day); ``low`` and ``high``, servings that come in; ``need``; and, for the
        low end, ``from_store``, ``gap``, ``too_much`` (what spoils) and ``in_store`` at the week's end.
    gap_weeks, too_much_weeks, bridged_weeks : int
        Weeks with too little; weeks in which food spoils; weeks in which the store fills what the garden lacks.
    plant_again : date or None
        First day of the week in which one more planting would fill most of what is lacking.
    gap_weeks_then : int or None
        Weeks with too little that would be left with that planting.
    """

    table: pd.DataFrame
    gap_weeks: int
    too_much_weeks: int
    bridged_weeks: int
    plant_again: date | None
    gap_weeks_then: int | None


def weekly_supply(
    stands: Sequence[Stand],
    servings_a_week: float,
    season: tuple[date, date],
    *,
    need_from: date,
    need_weeks: int,
    further: Sequence[Further] = (),
) -> Supply:
    """Set what plantings give against what is eaten, week by week.

    Parameters
    ----------
    stands : sequence of Stand
        Plantings of one crop with their harvests.
    servings_a_week : float
        What all at the table eat in a week.
    season : tuple of (date, date)
        First and last day of the growing year.
    need_from : date
        A day of the first week in which it is eaten.
    need_weeks : int
        For how many weeks, 1 to 52.
    further : sequence of Further
        Windows for one more planting; the week that would fill most is looked for.

    Returns
    -------
    Supply
        The weeks with the working.

    Raises
    ------
    InputProblem
        When a number cannot be used or a day lies outside the growing year.

    Notes
    -----
    Too little and too much are told for the low end of the yields. A planting's yield is spread evenly over its days,
    and what would spoil first is eaten first: common practice, no source.

    Examples
    --------
    >>> from gardenlib.units import Range
    >>> heads = Stand(Range(20, 40, "servings"), date(2027, 6, 21), date(2027, 7, 4))
    >>> year = (date(2027, 1, 1), date(2027, 12, 31))
    >>> weekly_supply([heads], 4, year, need_from=date(2027, 6, 21), need_weeks=6).gap_weeks
    4
    """
    notes = Notes()
    wanted = checked_between(servings_a_week, "servings_a_week", 0.1, 2500)
    long = whole(need_weeks, "need_weeks", 52)
    if not season[0] <= need_from <= season[1]:
        raise InputProblem("need.outside", day=need_from)
    starts = np.arange(week_of(season[0]).toordinal(), season[1].toordinal() + 1, WEEK, dtype=float)
    begun = int(np.searchsorted(starts, need_from.toordinal(), side="right")) - 1
    need = np.zeros(len(starts))
    need[begun : begun + long] = wanted
    supply = _supply(stands, starts)
    keeps = [stand.keeps_weeks for stand in stands]
    low = carry_on(supply[0], need, keeps)
    table = _table(starts, supply, need, low)
    gaps = int((low.gap > LITTLE).sum())
    given: dict[str, Value] = {
        "need": Quantity(wanted, "servings"),
        "weeks": long,
        "plantings": len(stands),
    }
    notes.step("need.by_week", "need - supply - store, week by week", given, Quantity(gaps, "weeks"), COMMON_PRACTICE)
    notes.say("need.evenly")
    notes.say("need.low_end")
    if begun + long > len(starts):
        notes.say("need.next_year", n=begun + long - len(starts))
    again, gaps_then = _again(supply[0], keeps, need, starts, further) if gaps else (None, None)
    if again is not None:
        notes.say("need.again_some" if gaps_then else "need.again", day=again, n=gaps_then)
    return Supply(
        table=table,
        gap_weeks=gaps,
        too_much_weeks=int((table["too_much"] > NEARLY_NONE * wanted).sum()),
        bridged_weeks=int((table["from_store"] > LITTLE).sum()),
        plant_again=again,
        gap_weeks_then=gaps_then,
        **notes.parts(),
    )


def _supply(stands: Sequence[Stand], starts: Array) -> Array:
    """Lay the harvests out as servings by end of the range, planting and week."""
    ends = np.array([[stand.servings.low for stand in stands], [stand.servings.high for stand in stands]])
    first, last = ([getattr(stand, day).toordinal() for stand in stands] for day in ("first", "last"))
    return supply_by_week(ends.reshape(2, len(stands)), first, last, starts)


def _table(starts: Array, supply: Array, need: Array, low: Balance) -> pd.DataFrame:
    come = supply.sum(axis=1)
    return pd.DataFrame(
        {
            "week": [date.fromordinal(int(day)) for day in starts],
            "low": come[0],
            "high": come[1],
            "need": need,
            "from_store": np.clip(low.eaten - come[0], 0, None),
            "gap": low.gap,
            "too_much": low.spoiled,
            "in_store": low.in_store,
        }
    )


def _again(
    supply: Array, keeps: list[int], need: Array, starts: Array, further: Sequence[Further]
) -> tuple[date, int] | tuple[None, None]:
    """Try one more planting in each week of the windows, and give the earliest that leaves the least lacking."""
    tries = [
        (day, one.harvest, day - one.first.toordinal())
        for one in further
        for day in range(one.first.toordinal(), one.last.toordinal() + 1, WEEK)
        if one.not_before is None or day >= one.not_before.toordinal()
    ]
    if not tries:
        return None, None
    first, last = (
        [getattr(harvest, end).toordinal() + later for _, harvest, later in tries] for end in ("first", "last")
    )
    more = supply_by_week([harvest.servings.low for _, harvest, _ in tries], first, last, starts)
    kept = [harvest.keeps_weeks for _, harvest, _ in tries]
    together = np.concatenate([np.broadcast_to(supply, (len(tries), *supply.shape)), more[:, None, :]], axis=1)
    gap = carry_on(together, need, [*keeps, min(kept)]).gap
    lacking = np.round(gap.sum(axis=-1), 6)
    best = min(range(len(tries)), key=lambda at: (lacking[at], tries[at][0]))
    if lacking[best] >= carry_on(supply, need, keeps).gap.sum() - LITTLE:
        return None, None
    return week_of(date.fromordinal(tries[best][0])), int((gap[best] > LITTLE).sum())
