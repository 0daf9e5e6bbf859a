"""What the plan would have given, week by week, in the past seasons."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from gardenlib.harvest.figures import is_picked_once
from gardenlib.harvest.stands import ONCE_DAYS
from gardenlib.harvest.weeks import WEEK, supply_by_week
from gardenlib.problems import InputProblem
from gardenlib.season.plan_row import PlannedPlanting
from gardenlib.sowing.windows import week_of
from gardenlib.units import Quantity
from gardenlib.working import COMMON_PRACTICE, Answer, Notes, Value

if TYPE_CHECKING:
    import pandas as pd

Days = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class WeeklyYield(Answer):
    """What a plan would have given, week by week.

    Parameters
    ----------
    table : DataFrame
        One row a week from the first to the last with a picking: ``week`` (its Monday in the year that is planned),
        ``kg_low`` and ``kg_high`` (means over all seasons; one that did not work counts as nothing), and ``seasons``
        (those with a picking in that week).
    seasons : int
        Seasons that were replayed.
    best_week : date
        Monday of the week with the most.
    """

    table: pd.DataFrame
    seasons: int
    best_week: date


def weekly_yield(
    table: pd.DataFrame, planned: Sequence[PlannedPlanting], *, year: int, planting: str | None = None
) -> WeeklyYield:
    """Spread what each past season would have given over its days of picking, and add it up by week.

    Parameters
    ----------
    table : DataFrame
        As `replay` gives it.
    planned : sequence of PlannedPlanting
        The plan that was replayed.
    year : int
        Calendar year of the season that is planned; weeks are told as its days.
    planting : str, optional
        Id of one planting; all of them without it.

    Returns
    -------
    WeeklyYield
        The weeks with the working.

    Raises
    ------
    InputProblem
        When no planting with a known yield worked in any season.

    Notes
    -----
    A crop that is cut once comes within two weeks of its first day; any other from its earliest to its latest first
    picking; a frost that ends it ends its picking. Evenly over these days: common practice, no source.

    Examples
    --------
    >>> import pandas as pd
    >>> weekly_yield(pd.DataFrame({"planting": [], "worked": [], "kg_low": []}), (), year=2027)
    Traceback (most recent call last):
    gardenlib.problems.InputProblem: No planting worked whose yield is known. There are no weeks to show.
    """
    import pandas as pd

    chosen = [one for one in planned if planting in (None, one.id)]
    rows = table[table["planting"].isin([one.id for one in chosen]) & (table["worked"] == True)]  # noqa: E712  NA is no
    rows = rows[rows["kg_low"].notna()]
    if rows.empty:
        raise InputProblem("season.no_weeks")
    seasons = int(table["year"].nunique())
    crops = {one.id: one for one in chosen}
    once = np.array([is_picked_once(crops[name].crop.id) for name in rows["planting"]])
    first, last = _picked(rows, once)
    starts, moved = _weeks(rows, first, last, year)
    amounts = rows[["kg_low", "kg_high"]].to_numpy(dtype=float).T
    weekly = supply_by_week(amounts, first + moved, last + moved, starts)
    come = weekly.sum(axis=1) / seasons
    here = weekly[1] > 0
    years = rows["year"].to_numpy()
    picked = [len(np.unique(years[here[:, at]])) for at in range(len(starts))]
    weeks = [date.fromordinal(int(day)) for day in starts]
    found = pd.DataFrame({"week": weeks, "kg_low": come[0], "kg_high": come[1], "seasons": picked})
    best = int(np.argmax(come.sum(axis=0)))
    notes = Notes()
    given: dict[str, Value] = {"kg": Quantity(float(amounts[0].sum()), "kg"), "seasons": seasons}
    notes.step("replay.by_week", "kg / seasons", given, Quantity(float(come[0].sum()), "kg"), COMMON_PRACTICE)
    notes.say("replay.kg_evenly")
    notes.say("replay.kg_zero")
    return WeeklyYield(table=found, seasons=seasons, best_week=weeks[best], **notes.parts())


def _picked(rows: pd.DataFrame, once: npt.NDArray[np.bool_]) -> tuple[Days, Days]:
    """Give the first and the last day of picking as day numbers."""
    epoch = date(1970, 1, 1).toordinal()
    early, late, frost = (
        rows[name].to_numpy("M8[D]").astype(float) + epoch for name in ("ready_early", "ready_late", "frost_on")
    )
    frost = np.where(np.isnat(rows["frost_on"].to_numpy("M8[D]")), np.inf, frost)
    stop = np.minimum(np.where(once, early + ONCE_DAYS - 1, late), frost)
    return early, np.maximum(stop, early)


def _weeks(rows: pd.DataFrame, first: Days, last: Days, year: int) -> tuple[Days, Days]:
    """Move each season to the year that is planned, and give the Mondays that its pickings cover."""
    moves = {int(past): (date(year, 1, 1) - date(int(past), 1, 1)).days for past in np.unique(rows["year"].to_numpy())}
    moved = np.array([float(moves[int(past)]) for past in rows["year"]])
    begin = week_of(date.fromordinal(int((first + moved).min())))
    stop = date.fromordinal(int((last + moved).max())) + timedelta(days=1)
    return np.arange(begin.toordinal(), stop.toordinal(), WEEK, dtype=float), moved
