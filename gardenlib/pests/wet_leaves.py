"""Wet leaves: how long they stay so at a stretch, against the published hours."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity
from gardenlib.working import Answer, Notes, Value

Sprinkled = Literal["no", "evening", "morning"]

WETNESS_DISEASE = "alternaria"
MOST_HOURS = 24.0


@dataclass(frozen=True, kw_only=True)
class WetLeaves(Answer):
    """How long leaves stay wet at a stretch, against the published hours.

    Parameters
    ----------
    wet_hours, added_hours : float
        Hours at a stretch, and how many of them sprinkling added.
    limit_hours : float
        More hours than this let Alternaria leaf spot in.
    long_enough : bool
        Whether the leaves stayed wet for longer.
    """

    wet_hours: float
    added_hours: float
    limit_hours: float
    long_enough: bool


def leaf_wetness(dew_hours: float, *, sprinkled: Sprinkled = "no", hours_before_dew: float = 0.0) -> WetLeaves:
    """Count the hours for which leaves stay wet at a stretch, and set them against the published ones.

    Parameters
    ----------
    dew_hours : float
        Hours from the first dew, or rain, until the leaves are dry again.
    sprinkled : {"no", "evening", "morning"}
        Whether and when water falls on the leaves; water at the roots is ``no``.
    hours_before_dew : float
        For the evening: hours from sprinkling until the dew falls.

    Returns
    -------
    WetLeaves
        Hours, and whether they are more than 9.

    Raises
    ------
    InputProblem
        When hours are not between 0 and 24, or the time of sprinkling is unknown.

    Notes
    -----
    Source: University of Connecticut, late-season cole crop diseases: more than 9 hours of wet leaves let Alternaria
    in. Leaves that are sprinkled in the evening are taken to stay wet until the dew falls, and those sprinkled in the
    morning, while the dew still lies, to dry no later (FAO's cabbage guide gives the direction, no figure).

    Examples
    --------
    >>> leaf_wetness(8).long_enough, leaf_wetness(8, sprinkled="evening", hours_before_dew=3).wet_hours
    (False, 11.0)
    """
    if sprinkled not in get_args(Sprinkled):
        raise InputProblem("disease.sprinkled", value=str(sprinkled)[:40], known=", ".join(get_args(Sprinkled)))
    dew, before = _hours(dew_hours), _hours(hours_before_dew)
    added = before if sprinkled == "evening" else 0.0
    row = next(row for row in rows("diseases") if (row["disease"], row["property"]) == (WETNESS_DISEASE, "wet_hours"))
    limit, wet, notes = float(row["high"]), dew + added, Notes()
    given: dict[str, Value] = {"dew": Quantity(dew, "hours"), "sprinkled": Quantity(added, "hours")}
    notes.step("disease.wet", "dew + sprinkled", given, Quantity(wet, "hours"), "common_practice")
    notes.step("disease.limit", "wet > limit", {"wet": Quantity(wet, "hours")}, Quantity(limit, "hours"), row["source"])
    if sprinkled != "no":
        notes.say(f"disease.taken_{sprinkled}", "fao_cabbage_ipm")
    return WetLeaves(wet_hours=wet, added_hours=added, limit_hours=limit, long_enough=wet > limit, **notes.parts())


def _hours(value: float) -> float:
    number = isinstance(value, int | float) and not isinstance(value, bool)
    if not number or not 0 <= value <= MOST_HOURS:
        raise InputProblem("disease.hours", value=str(value)[:40], most=f"{MOST_HOURS:g}")
    return float(value)
