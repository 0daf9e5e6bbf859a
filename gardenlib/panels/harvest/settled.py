"""Page 06, its end: how much of each crop, and how long it keeps in the learner's store."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gardenlib.harvest import plants_for_household, readable_days, storage_life
from gardenlib.panels.harvest.keep import here_c
from gardenlib.panels.harvest.much import START_WEEKS, servings_of
from gardenlib.problems import InputProblem
from gardenlib.units import Quantity

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def results(session: Session) -> list[tuple[str, str]]:
    """List for each crop the plants for the table and the time it stays good."""
    return [(session.crop_name(i), f"{_plants(session, i)}; {_keeps(session, i)}") for i in session.crop_ids]


def _plants(session: Session, crop_id: str) -> str:
    say = session.voice.say
    try:
        found = plants_for_household(session.crop(crop_id), session.people, START_WEEKS, servings_of(session, crop_id))
    except InputProblem:
        return say("settled.no_yield")
    return say("settled.for_the_table", plants=found.plants, n=START_WEEKS)


def _keeps(session: Session, crop_id: str) -> str:
    say, temp_c = session.voice.say, here_c(session)
    try:
        days = storage_life(session.crop(crop_id), temp_c).days
    except InputProblem:
        return say("settled.no_life", temp=Quantity(temp_c, "degC"))
    return say("settled.keeps", span=readable_days(days), temp=Quantity(temp_c, "degC"))
