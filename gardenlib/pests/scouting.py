"""Whether to act: what plants that were looked at say of a bed, small or big."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal, get_args

from gardenlib.pests.models import checked_pest
from gardenlib.problems import InputProblem
from gardenlib.sowing.chance import exact_range
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, Range
from gardenlib.working import Answer, Notes, Value

Stage = Literal["young", "growing", "heading"]
Advice = Literal["pick", "look_at_all", "look_again", "over", "under", "between"]

SMALL_BED = 50
"""Fewer plants than this are all looked at."""
DAYS_APART = (3, 4)
"""Twice a week."""
SURE = 0.95
MOST = 100_000
CATERPILLARS = ("imported_cabbageworm", "cabbage_looper", "diamondback_moth")


@dataclass(frozen=True)
class Programme:
    """What one published programme says of a share of plants that are hit.

    Parameters
    ----------
    source : str
        Key of the source.
    plants_hit_pct : float
        At or above this share of plants it would act.
    reached : bool or None
        Whether the bed is there; None where the count leaves it open.
    """

    source: str
    plants_hit_pct: float
    reached: bool | None


@dataclass(frozen=True, kw_only=True)
class Decision(Answer):
    """What to do after a look at the plants.

    Parameters
    ----------
    advice : str
        ``pick``, ``look_at_all`` or ``look_again`` in a small bed; ``over``, ``under`` or ``between`` the published
        thresholds in a big one.
    plants_left : int
        Plants of a small bed that were not looked at.
    look_again : tuple of date, or None
        First and last day for the next look; None where the day of this one was not given.
    hit_pct : Range
        Shares of plants that the count leaves open, percent.
    programmes : tuple of Programme
        Published thresholds for the stage, in a big bed.
    """

    advice: Advice
    plants_left: int
    look_again: tuple[date, date] | None
    hit_pct: Range
    programmes: tuple[Programme, ...]


def scouting_decision(  # noqa: PLR0917  what one says in one breath
    pest: str,
    crop: str | Crop,
    stage: Stage,
    plants_checked: int,
    plants_hit: int,
    plants_in_bed: int | None = None,
    *,
    looked_on: date | None = None,
) -> Decision:
    """Say what to do after plants were looked at.

    Parameters
    ----------
    pest : str
        A pest of ``tables.table("pests")``.
    crop : str or Crop
        What was looked at.
    stage : {"young", "growing", "heading"}
        Up to four true leaves; until heads fill; heads fill or are ready.
    plants_checked, plants_hit : int
        Plants looked at, and those with eggs, insects or fresh damage.
    plants_in_bed : int, optional
        All plants of the crop; without it only those that were looked at.
    looked_on : date, optional
        The day of the look.

    Returns
    -------
    Decision
        The advice with its working.

    Raises
    ------
    InputProblem
        When a count cannot be, or pest, crop or stage is unknown.

    Notes
    -----
    In a bed of fewer than 50 plants all are looked at, twice a week, and what is found is picked (common practice, no
    source). In a bigger one published thresholds are set beside the share that the count leaves open: the exact range
    of Clopper and Pearson (1934) at 95 %. No threshold is used for a crop its source does not name.

    Examples
    --------
    >>> scouting_decision("imported_cabbageworm", "cabbage_main", "young", 12, 1, 12).advice
    'pick'
    >>> scouting_decision("imported_cabbageworm", "cabbage_main", "heading", 50, 20, 400).advice
    'over'
    """
    plant, notes = as_crop(crop), Notes()
    checked_pest(pest)
    if stage not in get_args(Stage):
        raise InputProblem("scouting.stage", value=str(stage)[:40], known=", ".join(get_args(Stage)))
    checked, hit = checked_plants(plants_checked, 1), checked_plants(plants_hit, 0)
    all_plants = checked if plants_in_bed is None else checked_plants(plants_in_bed, 1)
    if hit > checked:
        raise InputProblem("scouting.more_hit", hit=hit, checked=checked)
    if checked > all_plants:
        raise InputProblem("scouting.more_checked", checked=checked, plants=all_plants)
    low, high = exact_range(hit, checked, SURE) if checked < all_plants else (hit / checked, hit / checked)
    given: dict[str, Value] = {"hit": hit, "looked_at": checked}
    notes.step("scouting.share", "hit / looked_at", given, Quantity(100 * hit / checked, "percent"), "common_practice")
    share = Range(100 * low, 100 * high, "percent")
    if checked < all_plants:
        notes.step("scouting.open", "exact binomial range at 95 %", given, share, "clopper_pearson_1934")
        notes.say("scouting.independent")
    programmes: tuple[Programme, ...] = ()
    advice: Advice
    if all_plants < SMALL_BED:
        advice = "pick" if hit else "look_at_all" if checked < all_plants else "look_again"
    else:
        programmes = _programmes(pest, plant, stage, share, notes)
        if not programmes:
            raise InputProblem("scouting.no_threshold", crop=plant.name)
        answers = {programme.reached for programme in programmes}
        advice = "over" if answers == {True} else "under" if answers == {False} else "between"
    return Decision(
        advice=advice,
        plants_left=all_plants - checked if all_plants < SMALL_BED else 0,
        look_again=None if looked_on is None else _twice_a_week(looked_on),
        hit_pct=share,
        programmes=programmes,
        **notes.parts(),
    )


def _twice_a_week(day: date) -> tuple[date, date]:
    return day + timedelta(days=DAYS_APART[0]), day + timedelta(days=DAYS_APART[1])


def checked_plants(value: int, least: int, most: int = MOST) -> int:
    """Return a whole number of plants."""
    number = isinstance(value, int | float) and not isinstance(value, bool)
    if not number or not least <= value <= most or value != int(value):
        raise InputProblem("scouting.count", value=str(value)[:40], least=least, most=most)
    return int(value)


def _programmes(pest: str, plant: Crop, stage: str, share: Range, notes: Notes) -> tuple[Programme, ...]:
    """Set each published threshold for the crop beside the share that the count leaves open."""
    group = "caterpillars" if pest in CATERPILLARS else pest
    found = []
    for row in rows("pest_thresholds"):
        kinds = row["crops"].split("|")
        if row["pest_group"] == group and row["stage"] == stage and plant.id.split("_")[0] in kinds:
            limit = row["plants_hit_pct"]
            reached = True if share.low >= limit else False if share.high < limit else None
            found.append(Programme(row["source"], limit, reached))
            percent = Quantity(limit, "percent")
            notes.step("scouting.threshold", "share at or above threshold", {"share": share}, percent, row["source"])
    return tuple(found)


def chance_to_miss(plants: int, hit: int, looked_at: int) -> float:
    """Give the chance that none of the plants looked at is among those that are hit.

    Parameters
    ----------
    plants, hit, looked_at : int
        All plants, those that are hit, and those that are looked at.

    Returns
    -------
    float
        A chance from 0 to 1.

    Raises
    ------
    InputProblem
        When more are hit or looked at than there are.

    Notes
    -----
    The hypergeometric distribution; common practice, no source.

    Examples
    --------
    >>> round(1 - chance_to_miss(40, 4, 10), 4)
    0.7001
    """
    of, sick, seen = checked_plants(plants, 1), checked_plants(hit, 0), checked_plants(looked_at, 0)
    if sick > of:
        raise InputProblem("scouting.more_hit", hit=sick, checked=of)
    if seen > of:
        raise InputProblem("scouting.more_checked", checked=seen, plants=of)
    return math.comb(of - sick, seen) / math.comb(of, seen)
