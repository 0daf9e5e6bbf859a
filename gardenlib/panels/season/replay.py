"""Page 07, core panel: in how many past springs the plan would have worked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts.replay import SORTS, Run, past_seasons
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.season.replay_here import (
    ALL,
    Replayed,
    beside,
    counts,
    of,
    plantings_here,
    plantings_offered,
    replay_here,
    weather_here,
    went,
)
from gardenlib.problems import InputProblem
from gardenlib.season import ReplayCounts
from gardenlib.site.freeze_sources import offset_said
from gardenlib.words import Said, Voice

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

# Shown as a question of its own where the learner's plan cannot be replayed.
STAND_IN = (31, 40)


def panel(session: Session) -> Panel:
    """Show in how many past springs the plan would have worked."""
    return Panel(session, SPEC).show()


def check(session: Session) -> CheckBox:
    """Ask what a count of past springs says of the next one."""
    return CheckBox(session, _CHECK).show()


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    offered = [(say("replay.whole_plan"), ALL), *plantings_offered(session)]
    return {"planting": c.choice(say("replay.which"), offered, ALL)}


def _replayed(session: Session) -> Replayed:
    return replay_here(session, plantings_here(session)[0])


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw each past season as a mark."""
    say, voice = session.voice.say, session.voice
    replayed, chosen = _replayed(session), values["planting"]
    found = counts(replayed, chosen)
    names = {value: name for name, value in plantings_offered(session)}
    name = names.get(chosen, say("replay.whole_plan"))
    rows = []
    for one in replayed.planned:
        row = {say("replay.column_planting"): names[one.id]}
        row[say("replay.column_planted")] = voice.date(one.planted_on, "MMMd") if one.planted_on else say("replay.none")
        try:
            its = counts(replayed, one.id)
        except InputProblem:
            rows.append({**row, **dict.fromkeys(_columns(voice), say("replay.unknown"))})
            continue
        told = (of(voice, its.worked, its.seasons), of(voice, its.last_worked, its.last_seasons), _ready(its, voice))
        rows.append({**row, **dict(zip(_columns(voice), told, strict=True))})
    key = "replay.finding_all" if chosen == ALL else "replay.finding"
    said = {"crop": name, "worked": found.worked, "last": found.last_seasons, "last_worked": found.last_worked}
    finding = say(key, n=found.seasons, **said)
    words = {sort: say(f"replay.key_{sort}") for sort in SORTS}
    drawn = past_seasons([Run(name, went(replayed.table, chosen))], words=words, voice=voice)
    alt = say("replay.alt", n=found.seasons, words=finding)
    return charts.View(finding, pd.DataFrame(rows), charts.svg(drawn), alt)


def _columns(voice: Voice) -> list[str]:
    return [voice.say("replay.column_worked"), voice.say("replay.column_last"), voice.say("replay.column_ready")]


def _ready(found: ReplayCounts, voice: Voice) -> str:
    if found.ready_first is None:
        return voice.say("replay.not_ready")
    first = voice.date(found.ready_first, "MMMd")
    if found.ready_last is None:
        return voice.say("replay.from_day", day=first)
    return voice.say("unit.between", low=first, high=voice.date(found.ready_last, "MMMd"))


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    replayed, chosen = _replayed(session), values["planting"]
    found = counts(replayed, chosen)
    borrowed = plantings_here(session)[1]
    told = [] if borrowed is None else [borrowed]
    told += session.record_elsewhere()
    told += [Said("replay.new_years"), Said("replay.own_definition")]
    weather = weather_here(session)
    if weather.past.left_out:
        told.append(Said("replay.left_out", {"n": weather.past.left_out}))
    if weather.night_offset_c:
        told.append(offset_said(weather.night_offset_c, applied=True))
    if found.trend:
        before, n_before, after, n_after = found.halves
        key = "replay.trend_more" if found.trend > 0 else "replay.trend_less"
        told.append(Said(key, {"before": before, "n_before": n_before, "after": after, "n_after": n_after}))
    if chosen != ALL:
        told += beside(found, session.crop_name(replayed.one(chosen).crop.id), watered=replayed.one(chosen).watered)
    return [*told, *found.unknown]


def _truth(session: Session) -> Said:
    found = counts(_replayed(session))
    return Said("replay.truth", {"worked": found.worked, "n": found.seasons})


SPEC = Spec(
    "07.replay",
    Said("replay.title"),
    _controls,
    view,
    guess=Guess(
        "07.replay.guess",
        lambda session: Said("replay.question"),
        lambda session: [
            ("few", Said("replay.option_few")),
            ("half", Said("replay.option_half")),
            ("most", Said("replay.option_most")),
        ],
        _truth,
    ),
    working=lambda session, values: counts(_replayed(session), values["planting"]),
    notes=_notes,
)


# ---- the check -------------------------------------------------------------------------------------


def _case(session: Session) -> tuple[int, int]:
    """Give a count from the learner's plan that a reader can get wrong, else one of ours."""
    try:
        replayed = _replayed(session)
        cases = [counts(replayed, one.id) for one in replayed.planned if one.replayed]
    except InputProblem:
        return STAND_IN
    # In ten and in a hundred must read apart, and neither none nor all may have worked.
    found = [(one.worked, one.seasons) for one in cases if 0 < in_ten(one.worked, one.seasons) < 10]
    return max(found, default=STAND_IN)


def in_ten(worked: int, seasons: int) -> int:
    """Write a count as seasons in ten, half a season counting up."""
    return int(10 * worked / seasons + 0.5)


def _question(session: Session) -> Said:
    worked, seasons = _case(session)
    return Said("replay.check1_question", {"worked": worked, "n": seasons})


def _replies(session: Session) -> list[Reply]:
    worked, seasons = _case(session)
    ten = in_ten(worked, seasons)
    sure = "replay.check1_sure" if ten >= 5 else "replay.check1_sure_not"
    said = {"worked": worked, "n": seasons, "ten": ten, "other": 10 - ten}
    return [
        Reply("sure", Said(sure), False, Said("replay.check1_sure_reply", {"worked": worked, "n": seasons})),
        Reply("in_ten", Said("replay.check1_in_ten", said), True, Said("replay.check1_in_ten_reply", said)),
        Reply("percent", Said("replay.check1_percent", said), False, Said("replay.check1_percent_reply", said)),
    ]


_CHECK = Check("07.replay.check1", _question, _replies)
