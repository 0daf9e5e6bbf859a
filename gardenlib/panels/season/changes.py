"""The changes that a learner may try on one planting."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from gardenlib.problems import InputProblem

if TYPE_CHECKING:
    from gardenlib.plot import Planting

MOST_WEEKS = 8
SAME = "same"
WEEKS = {"week_earlier": -1, "week_later": 1}
FIELDS: Mapping[str, Mapping[str, Any]] = {
    "risk_1": {"risk": 0.1},
    "risk_3": {"risk": 0.3},
    "risk_5": {"risk": 0.5},
    "row_cover": {"cover": "row_cover"},
    "tunnel": {"cover": "tunnel"},
    "no_water": {"watered": False},
}


def changed(planting: Planting, change: str) -> Planting:
    """Give a planting with one change.

    Parameters
    ----------
    planting : Planting
        As it is in the plan.
    change : str
        One of the changes that the page offers.

    Returns
    -------
    Planting
        The changed one.

    Raises
    ------
    InputProblem
        When it would be moved by more than eight weeks.
    """
    if change in WEEKS:
        weeks = planting.moved_weeks + WEEKS[change]
        if abs(weeks) > MOST_WEEKS:
            raise InputProblem("season.moved_far", most=MOST_WEEKS)
        return planting.model_copy(update={"moved_weeks": weeks})
    return planting.model_copy(update=dict(FIELDS.get(change, {})))
