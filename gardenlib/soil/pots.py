"""The pots that find weed killer in a gift, and the figures that go with gifts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.units import Range
from gardenlib.words import Said
from gardenlib.working import Answer, Notes

LEAVES = ("flat", "curled", "none")


@dataclass(frozen=True, kw_only=True)
class PotCheck(Answer):
    """What the pots of the weed-killer check say.

    Parameters
    ----------
    verdict : {"take", "refuse", "again"}
        ``again`` when the pots cannot tell.
    time : Range
        How long the plants must grow, weeks.
    leaf_sets : int
        How many sets of leaves to wait for.
    pots_each : int
        How many pots of each kind.
    meaning : Said
        The verdict with its reason.
    """

    verdict: Literal["take", "refuse", "again"]
    time: Range
    leaf_sets: int
    pots_each: int
    meaning: Said


def pot_check(clean: str, gift: str) -> PotCheck:
    """Read the pots of the weed-killer check.

    Parameters
    ----------
    clean : {"flat", "curled", "none"}
        The leaves in the pots with clean potting mix: flat, curled or twisted, or no plants came up.
    gift : {"flat", "curled", "none"}
        The leaves in the pots with the gift mixed in.

    Returns
    -------
    PotCheck
        Whether to take the gift, refuse it, or set the pots again.

    Raises
    ------
    InputProblem
        When a word for the leaves is not known.

    Notes
    -----
    Source: Washington State University 2011 (peas, three sets of leaves, 2 to 3 weeks); Colorado State University
    Extension 2014 (curled, cupped or twisted leaves; clean pots beside). How many pots: common practice, no source.
    Where the clean pots fail too, the cause is not the gift alone, so the pots cannot tell.

    Examples
    --------
    >>> pot_check("flat", "curled").verdict
    'refuse'
    """
    for value in (clean, gift):
        if value not in LEAVES:
            raise InputProblem("gifts.leaves", value=str(value), known=", ".join(LEAVES))
    notes = Notes()
    time, sets, pots = (gift_figure(name) for name in ("pot_time", "leaf_sets", "pots_each"))
    weeks = Range(time["low"], time["high"], "weeks")
    notes.step("gifts.pot_time", "weeks", {}, weeks, time["source"])
    verdict: Literal["take", "refuse", "again"] = "again"
    if clean == "flat":
        verdict = {"flat": "take", "curled": "refuse", "none": "again"}[gift]  # type: ignore[assignment]
    notes.step("gifts.compare", "clean, gift", {"clean": clean, "gift": gift}, verdict, "colorado_carryover_2014")
    notes.say("gifts.pots_practice", pots["source"], n=int(pots["low"]))
    return PotCheck(
        verdict=verdict,
        time=weeks,
        leaf_sets=int(sets["low"]),
        pots_each=int(pots["low"]),
        meaning=Said(f"gifts.pots_{verdict}"),
        **notes.parts(),
    )


def gift_figure(name: str) -> Mapping[str, Any]:
    """Give one row of the figures that go with gifts."""
    return next(row for row in rows("gift_figures") if row["figure"] == name)
