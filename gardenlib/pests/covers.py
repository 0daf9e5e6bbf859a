"""Before it happens: when a cover goes on and off."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal, get_args

from gardenlib.beds.kin import plain
from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.working import Answer, Notes

Ground = Literal["rotated", "same", "not_known"]
Advice = Literal["cover", "not_here", "ask_first"]
Off = Literal["first_flower", "harvest"]

_ADVICE: Mapping[Ground, Advice] = {"rotated": "cover", "same": "not_here", "not_known": "ask_first"}


@dataclass(frozen=True, kw_only=True)
class CoverDates(Answer):
    """When a cover goes on and off.

    Parameters
    ----------
    crop : str
        Crop id.
    advice : {"cover", "not_here", "ask_first"}
        Cover it; grow it elsewhere, as its pests wait in this ground; or find out first what grew here.
    on : date or None
        The day to cover; None unless the advice is to cover.
    off : {"first_flower", "harvest"}
        What to wait for before the cover comes off.
    until : date or None
        The first harvest, where the cover stays on until then and the day is known.
    why : str
        Why it comes off then: ``insects``, ``shaken``, ``wind``, ``alone``, ``no_flower``, or ``not_listed``.
    """

    crop: str
    advice: Advice
    on: date | None
    off: Off
    until: date | None
    why: str


def cover_dates(crop: str | Crop, goes_out: date, *, ground: Ground, first_harvest: date | None = None) -> CoverDates:
    """Say when a crop's cover goes on and off.

    Parameters
    ----------
    crop : str or Crop
        What is covered.
    goes_out : date
        The day it is sown or set out in the bed.
    ground : {"rotated", "same", "not_known"}
        Whether its family grew elsewhere last season, or in this bed, or nobody knows.
    first_harvest : date, optional
        The first day of harvest, as far as it is planned.

    Returns
    -------
    CoverDates
        The dates with their working.

    Raises
    ------
    InputProblem
        When there is no such crop or ground, or the harvest comes before the crop is in the bed.

    Notes
    -----
    Source: Espace pour la vie, Montreal (pests that pupated in the ground hatch under the net; off at the first
    flower of cucurbits; leaf and head brassicas stay covered); Wisconsin pest bulletin 63-1 (on at planting). For
    other crops the table ``covers_off`` says what is common practice. A crop it does not list is uncovered at its
    first flower.

    Examples
    --------
    >>> found = cover_dates("cucumber", date(2027, 6, 1), ground="rotated")
    >>> found.on.isoformat(), found.off
    ('2027-06-01', 'first_flower')
    """
    plant, notes = as_crop(crop), Notes()
    if ground not in get_args(Ground):
        raise InputProblem("covers.ground", value=str(ground)[:40], known=", ".join(get_args(Ground)))
    if first_harvest is not None and first_harvest < goes_out:
        raise InputProblem("covers.harvest", crop=plant.name, out=goes_out, first=first_harvest)
    row = next((row for row in rows("covers_off") if row["crop"] == plant.id), None)
    off: Off = "first_flower" if row is None else row["off"]
    if row is None:
        notes.say("before.not_listed", "common_practice", crop=plant.name)
    advice = _ADVICE[ground]
    if advice == "cover":
        notes.step("covers.on", "on = day it goes out", {"goes_out": goes_out}, goes_out, "datcp_63_1")
    else:
        notes.say("before.hatch", "montreal_nets")
    until = first_harvest if off == "harvest" and advice == "cover" else None
    cited = "common_practice" if row is None else row["source"]
    key = "covers.off_harvest" if off == "harvest" else "covers.off_first_flower"
    notes.step(key, f"off = {off}", {}, until, cited)
    return CoverDates(
        crop=plant.id,
        advice=advice,
        on=goes_out if advice == "cover" else None,
        off=off,
        until=until,
        why="not_listed" if row is None else row["why"],
        **notes.parts(),
    )


def ground_of(family: str, past_families: Sequence[Sequence[str]]) -> Ground:
    """Tell whether a family grew in a bed last season; `past_families` has the latest year first."""
    if not past_families:
        return "not_known"
    return "same" if plain(family) in {plain(name) for name in past_families[0]} else "rotated"
