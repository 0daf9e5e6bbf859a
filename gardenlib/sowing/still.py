"""What can still be sown or set out today for fall."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from gardenlib.problems import InputProblem
from gardenlib.sowing.count_back import STARTED, path_for, slower_days
from gardenlib.sowing.fall import latest_sowing
from gardenlib.sowing.limits import TENDER, as_crop
from gardenlib.tables import Crop
from gardenlib.words import Said
from gardenlib.working import Answer, Notes

if TYPE_CHECKING:
    import pandas as pd

COLUMNS = ("crop", "started", "safe", "latest", "safe_days_left", "state")
OPEN = ["safe", "gamble"]


@dataclass(frozen=True, kw_only=True)
class StillPossible(Answer):
    """What can still go in.

    Parameters
    ----------
    table : DataFrame
        One row a crop and way of starting: ``crop``, ``started`` ("own", "bought", "seed"), ``safe`` and ``latest``
        (last day by each rule), ``safe_days_left`` (below 0: gone by), ``state``: "safe", "gamble" (only by the
        latest rule) or "over".
    n_crops, n_safe, n_gamble : int
        Crops in the table, those that are safe in some way today, and those that are only a gamble.
    left_out : tuple of (str, Said)
        Crops that could not be counted in any way, by id, each with the reason.
    """

    table: pd.DataFrame
    n_crops: int
    n_safe: int
    n_gamble: int
    left_out: tuple[tuple[str, Said], ...] = ()


def still_possible(
    crops: Iterable[str | Crop],
    first_fall: date | None,
    today: date,
    *,
    short_days_days: float | None = None,
    last_spring: date | None = None,
) -> StillPossible:
    """Find what can still be sown or set out today so that it is ready in fall.

    Parameters
    ----------
    crops : iterable of str or Crop
        The crops to look at.
    first_fall : date or None
        First freeze of the coming fall (32 F, in half of all falls).
    today : date
        Which day it is.
    short_days_days : float, optional
        As in `latest_sowing`.
    last_spring : date, optional
        Last freeze of spring before that fall. A tender crop whose safe planting would come before it is left out.

    Returns
    -------
    StillPossible
        The table, with what was assumed and the sources.

    Raises
    ------
    InputProblem
        When it never freezes, or a crop is not known.

    Notes
    -----
    Both rules as in `latest_sowing`: Virginia Cooperative Extension (2004) and University of Tennessee, SP291-G.

    Examples
    --------
    >>> found = still_possible(["bean_bush"], date(2027, 10, 15), date(2027, 7, 20))
    >>> found.table.loc[0, "state"]
    'gamble'
    """
    import pandas as pd

    plants = [as_crop(crop) for crop in crops]
    slower_days(short_days_days)
    if first_fall is None:
        raise InputProblem("fall.never_freezes_at_all")
    rows: list[Mapping[str, Any]] = []
    left_out: list[tuple[str, Said]] = []
    notes = Notes()
    notes.say("fall.average_freeze", date=first_fall)
    for plant in plants:
        found, problem = _one(plant, (last_spring, first_fall), today, short_days_days, notes)
        rows += found
        if problem is not None and not found:
            left_out.append((plant.id, problem.said))
    table = pd.DataFrame(rows, columns=list(COLUMNS))
    safe, possible = (int(table.loc[table["state"].isin(states), "crop"].nunique()) for states in (["safe"], OPEN))
    asked = {"today": today, "first_freeze": first_fall}
    notes.step("fall.still", "crops whose last day is today or later", asked, possible, "common_practice")
    return StillPossible(
        table=table,
        n_crops=int(table["crop"].nunique()),
        n_safe=safe,
        n_gamble=possible - safe,
        left_out=tuple(left_out),
        **notes.parts(),
    )


def _one(
    plant: Crop, freezes: tuple[date | None, date], today: date, slower: float | None, notes: Notes
) -> tuple[list[Mapping[str, Any]], InputProblem | None]:
    rows: list[Mapping[str, Any]] = []
    problem = None
    last_spring, first_fall = freezes
    for started in STARTED:
        try:
            if (path_for(plant, started).name == "direct_sow") != (started == "seed"):
                continue
            if plant.method == "sets" and started == "own":
                continue
            answers = [
                latest_sowing(plant, first_fall, "safe", started=started, short_days_days=slower),
                latest_sowing(plant, first_fall, "latest", started=started, short_days_days=slower),
            ]
            planted = answers[0].set_out or answers[0].date
            if last_spring is not None and planted < last_spring and plant.hardiness in TENDER:
                raise InputProblem("fall.spring_crop", crop=plant.name)
        except InputProblem as found:
            problem = found
            continue
        for answer in answers:
            notes.cite(*answer.sources)
        safe, latest = (answer.date for answer in answers)
        state = "safe" if today <= safe else "gamble" if today <= latest else "over"
        values = (plant.id, started, safe, latest, (safe - today).days, state)
        rows.append(dict(zip(COLUMNS, values, strict=True)))
    return rows, problem
