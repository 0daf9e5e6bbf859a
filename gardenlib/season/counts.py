"""In how many past seasons a plan would have worked, in the last of them too, and whether that has changed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from typing import TYPE_CHECKING, Any

import numpy as np

from gardenlib.problems import InputProblem
from gardenlib.season.plan_row import PlannedPlanting
from gardenlib.sowing.chance import checked_count, exact_range
from gardenlib.sowing.limits import cold_row
from gardenlib.units import Quantity, Range
from gardenlib.words import Said
from gardenlib.working import Answer, Notes, Value

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["ReplayCounts", "replay_counts"]

SURE = 0.95
FEWEST_SEASONS = 20
EARLY, LATE = 0.1, 0.9
_PLAIN = "common_practice"
_COUNTED = ("cold_nights", "heat_days", "dry_days", "pests_seen", "kg_low", "kg_high")


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
    went = {one.id: _columns(table, one.id) for one in chosen}
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
    notes.step("replay.worked", "seasons with hurt = 0 and ready in time", found, total := int(worked.sum()), _PLAIN)
    recent = worked[-last:]
    notes.step("replay.last", "the same, latest seasons", {"seasons": len(recent)}, int(recent.sum()), _PLAIN)
    return ReplayCounts(
        planting=planting,
        seasons=seasons,
        worked=total,
        last_seasons=len(recent),
        last_worked=int(recent.sum()),
        hurt=hurt,
        late=late,
        trend=_trend(halves, notes),
        halves=halves,
        **({} if planting is None else _of_one(known[0], chosen[0], notes)),
        kg=_kg(known),
        unknown=_each_once(chosen),
        **notes.parts(),
    )


def _each_once(chosen: Sequence[PlannedPlanting]) -> tuple[Said, ...]:
    told = [said for one in chosen for said in one.unknown]
    return tuple(said for place, said in enumerate(told) if said not in told[:place])


@cache
def _left_open(hits: int, seasons: int) -> tuple[float, float]:
    return exact_range(hits, seasons, SURE)


def _trend(halves: tuple[int, int, int, int], notes: Notes) -> int:
    """Tell whether the later half worked more or less often than chance explains."""
    before, n_before, after, n_after = halves
    if n_before + n_after < FEWEST_SEASONS:
        notes.say("replay.too_few", n=n_before + n_after, needed=FEWEST_SEASONS)
        return 0
    (low, high), (low_after, high_after) = _left_open(before, n_before), _left_open(after, n_after)
    trend = int(low_after > high) - int(high_after < low)
    given: dict[str, Value] = {
        "earlier": Range(10 * low, 10 * high, "of_ten"),
        "later": Range(10 * low_after, 10 * high_after, "of_ten"),
    }
    notes.step("replay.trend", "do the exact 95 % ranges of both halves touch?", given, None, "clopper_pearson_1934")
    if not trend:
        notes.say("replay.no_trend")
    return trend


def _columns(table: pd.DataFrame, planting: str) -> dict[str, Any]:
    """Take one planting's columns as arrays, in the order of the seasons; days count from planting."""
    rows = table.loc[(table["planting"] == planting).to_numpy()]
    dates = {name: rows[name].to_numpy("M8[D]") for name in ("planted_on", "ready_early", "ready_late")}
    found: dict[str, Any] = {name: rows[name].to_numpy(dtype=float) for name in _COUNTED}
    for name in ("ready_early", "ready_late"):
        days = dates[name] - dates["planted_on"]
        found[name] = np.where(np.isnat(days), np.nan, days.astype(float))
    for name in ("worked", "may_bolt"):
        found[name] = rows[name].to_numpy(dtype=float, na_value=np.nan)
    found["known"] = ~np.isnan(found["worked"])
    return {**found, "worked": found["worked"] == 1}


def _of_one(columns: dict[str, Any], one: PlannedPlanting, notes: Notes) -> dict[str, Any]:
    """Give what stands beside the verdict of one planting."""
    if one.heat_sum is not None and one.base is not None:
        given: dict[str, Value] = {"days": one.days, "base": Quantity(one.base.lower_c, "degC")}
        notes.step("replay.heat_sum", "typical year's degree days over days", given, one.heat_sum, one.base.sources[0])

    def middle(name: str) -> float | None:
        return None if np.isnan(columns[name]).all() else float(np.nanmedian(columns[name]))

    pests, bolts = middle("pests_seen"), columns["may_bolt"]
    return {
        "ready_first": _by(columns["ready_early"], EARLY, one.planted_on),
        "ready_last": _by(columns["ready_late"], LATE, one.planted_on),
        "heat_days": middle("heat_days"),
        "dry_days": middle("dry_days"),
        "bolt_seasons": None if np.isnan(bolts).all() else int(np.nansum(bolts)),
        "pests": None if pests is None else int(pests),
    }


def _by(days: Any, share: float, planted_on: date | None) -> date | None:
    """Give the day by which it was ready in a share of the seasons; None where it was not."""
    place = float(np.quantile(np.where(np.isnan(days), np.inf, days), share, method="higher"))
    return None if planted_on is None or np.isinf(place) else planted_on + timedelta(days=int(place))


def _kg(known: Sequence[dict[str, Any]]) -> Range | None:
    """Add the mean yields of the plantings whose yield is known."""
    ends = [(one["kg_low"].mean(), one["kg_high"].mean()) for one in known]
    found = [(low, high) for low, high in ends if not np.isnan(low)]
    return Range(float(sum(low for low, _ in found)), float(sum(high for _, high in found)), "kg") if found else None


def _tell(notes: Notes, chosen: Sequence[PlannedPlanting], planting: str | None) -> None:
    notes.say("replay.own_definition")
    notes.say("replay.stands_until")
    for one in chosen:
        row = cold_row(one.crop, hardened=True)
        given: dict[str, Value] = {"young": Quantity(one.young_c, "degC"), "grown": Quantity(one.grown_c, "degC")}
        if one.cover_c:
            notes.say("replay.cover_low_end", "colorado_722")
            given["cover"] = Quantity(one.cover_c, "degC_difference")
        if planting is not None:
            rule = "low <= limit - cover" if one.cover_c else "low <= limit"
            notes.step("replay.cold", rule, given, None, row.sources[0])
    if planting is not None and chosen[0].heat_c is not None:
        notes.say("replay.heat_by_day", *chosen[0].crop.growth_sources, temp=Quantity(chosen[0].heat_c, "degC"))
    if planting is not None and chosen[0].cold_days is not None:
        notes.say("bolting.limit_unchecked", crop=chosen[0].crop.name)
    if any(not one.watered and one.thirst is not None for one in chosen):
        notes.say("replay.rain_only", "fao56")
    if any(one.kg is not None for one in chosen):
        notes.say("replay.kg_zero")
