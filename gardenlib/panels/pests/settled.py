"""Page 05, its end: when to look for what."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gardenlib.panels.pests.when import first_weeks
from gardenlib.pests import attacks, pest_names
from gardenlib.problems import InputProblem
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def results(session: Session) -> list[tuple[str, str]]:
    """List from which day to look for each pest of the learner's crops."""
    say = session.voice.say
    own = [pest for pest in pest_names() if any(attacks(pest, session.crop(i)) for i in session.crop_ids)]
    return [(say(f"pest.{pest}"), _from(session, pest)) for pest in own]


def _from(session: Session, pest: str) -> str:
    """Say the first day on which an early season brings it, or what takes its place."""
    say = session.voice.say
    try:
        found = first_weeks(session, pest)
    except InputProblem as problem:
        return problem.in_voice(session.voice)
    if isinstance(found, Said):
        return say("settled.twice_a_week")
    first = found.first
    if first is None or first.early is None:
        return say("settled.when_seen") if found.needs_seen else say("settled.twice_a_week")
    return say("settled.look_from", day=first.early)
