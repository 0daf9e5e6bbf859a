"""In how many past seasons a plan would have worked, in the last of them too, and whether that has changed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

import numpy as np

from gardenlib.problems import InputProblem
from gardenlib.season.plan_row import PlannedPlanting
from gardenlib.season.trend import trend_of
from gardenlib.season.went import beside, columns_of, mean_kg
from gardenlib.sowing.chance import checked_count
from gardenlib.sowing.limits import cold_row
from gardenlib.units import Quantity, Range
from gardenlib.words import Said
from gardenlib.working import COMMON_PRACTICE, Answer, Notes, Value

if TYPE_CHECKING:
    import pandas as pd


@dataclass(frozen=True, kw_only=True)
class ReplayCounts(Answer):
    """What past seasons say of one planting, or of the whole plan.

    Parameters
    ----------
    planting : str or None
        The planting's id; None for all plantings together.
    seasons, worked : int
        Seasons that could be replayed, and those in which it worked.
    last_seasons, last_worked : int
        The same of the latest seasons.
    hurt, late : int
        Seasons with a night that hurts, and those in which it was not ready before the growing year ended.
    trend : {-1, 0, 1}
        Whether it worked less or more often in the later half of the seasons; 0 where chance may explain it.
    halves : tuple of (int, int, int, int)
        Worked and seasons of the earlier half, and of the later half.
    ready_first, ready_last : date or None
        Days between which it was first ready: by the first in 1, by the last in 9 of 10 seasons.
    heat_days, dry_days : float or None
        In the middle season; None where unknown.
    bolt_seasons, pests : int or None
        Seasons with a cold spell that may make it bolt; kinds of pests in the middle season.
    kg : Range or None
        Mean yield over all seasons, one that did not work counted as nothing.
    unknown : tuple of Said
        What is not known.
    """

    planting: str | None
    seasons: int
    worked: int
    last_seasons: int
    last_worked: int
    hurt: int
    late: int
    trend: int
    halves: tuple[int, int, int, int]
    ready_first: date | None = None
    ready_last: date | None = None
    heat_days: float | None = None
    dry_days: float | None = None
    bolt_seasons: int | None = None
    pests: int | None = None
    kg: Range | None = None
    unknown: tuple[Said, ...] = ()


def replay_counts(
    table: pd.DataFrame,
    planned: Sequence[PlannedPlanting],
    *,
    planting: str | None = None,
    last: int = 15,
) -> ReplayCounts:
    """Count the past seasons in which a planting, or the whole plan, would have worked.

    Parameters
    ----------
    table : DataFrame
        As `replay` gives it.
    planned : sequence of PlannedPlanting
        The plan that was replayed.
    planting : str, optional
        Id of one planting; without it a season counts when all plantings that could be replayed worked.
    last : int
        How many of the latest seasons are counted apart.

    Returns
    -------
    ReplayCounts
        The counts, with the working.

    Raises
    ------
    InputProblem
        When there is no such planting, or none that could be replayed.

    Notes
    -----
    A trend is said only where the exact binomial ranges (Clopper and Pearson 1934, 95 %) of the earlier and the later
    half of at least 20 seasons do not touch; weather is never assumed to change.

    Examples
    --------
    >>> import pandas as pd
    >>> replay_counts(pd.DataFrame(), ())
    Traceback (most recent call last):
    gardenlib.problems.InputProblem: No planting is in the plan yet. Choose what you grow first.
    """
    if not planned:
        raise InputProblem("season.no_plantings")
    last = checked_count(last, "last")
    chosen = [one for one in planned if planting in (None, one.id)]
    if not chosen:
        raise InputProblem("season.no_such_planting", value=str(planting)[:40], known=", ".join(p.id for p in planned))
    went = {one.id: columns_of(table, one.id) for one in chosen}
    known = [columns for columns in went.values() if columns["known"].any()]
    if not known:
        raise InputProblem("season.no_verdict")
    worked = np.all([columns["worked"] for columns in known], axis=0)
    hurt = int(np.any([columns["cold_nights"] > 0 for columns in known], axis=0).sum())
    late = int(np.any([np.isnan(columns["ready_late"]) for columns in known], axis=0).sum())
    seasons, half = len(worked), len(worked) // 2
    halves = int(worked[:half].sum()), half, int(worked[half:].sum()), seasons - half
    notes = Notes()
    _tell(notes, chosen, planting)
    found: dict[str, Any] = {"hurt": hurt, "late": late, "seasons": seasons}
    notes.step(
        "replay.worked", "seasons with hurt = 0 and ready in time", found, total := int(worked.sum()), COMMON_PRACTICE
    )
    recent = worked[-last:]
    notes.step("replay.last", "the same, latest seasons", {"seasons": len(recent)}, int(recent.sum()), COMMON_PRACTICE)
    return ReplayCounts(
        planting=planting,
        seasons=seasons,
        worked=total,
        last_seasons=len(recent),
        last_worked=int(recent.sum()),
        hurt=hurt,
        late=late,
        trend=trend_of(halves, notes),
        halves=halves,
        **({} if planting is None else beside(known[0], chosen[0], notes)),
        kg=mean_kg(known),
        unknown=_each_once(chosen),
        **notes.parts(),
    )


def _each_once(chosen: Sequence[PlannedPlanting]) -> tuple[Said, ...]:
    told = [said for one in chosen for said in one.unknown]
    return tuple(said for place, said in enumerate(told) if said not in told[:place])


def _tell(notes: Notes, chosen: Sequence[PlannedPlanting], planting: str | None) -> None:
    notes.say("replay.own_definition")
    notes.say("replay.stands_until")
    for one in chosen:
        row = cold_row(one.crop, hardened=True)
        given: dict[str, Value] = {"young": Quantity(one.young_c, "degC"), "grown": Quantity(one.grown_c, "degC")}
        if one.cover is not None:
            notes.say(
                "replay.cover_low_end", "colorado_722", add=Quantity(one.cover.low, one.cover.unit), span=one.cover
            )
            given["cover"] = Quantity(one.cover_c, "degC_difference")
        if planting is not None:
            rule = "low <= limit - cover" if one.cover else "low <= limit"
            notes.step("replay.cold", rule, given, None, row.sources[0])
    if planting is not None and chosen[0].heat_c is not None:
        notes.say("replay.heat_by_day", *chosen[0].crop.growth_sources, temp=Quantity(chosen[0].heat_c, "degC"))
    if planting is not None and chosen[0].cold_days is not None:
        notes.say("bolting.limit_unchecked", crop=chosen[0].crop.name)
    if any(not one.watered and one.thirst is not None for one in chosen):
        notes.say("replay.rain_only", "fao56")
    if any(one.kg is not None for one in chosen):
        notes.say("replay.kg_zero")
