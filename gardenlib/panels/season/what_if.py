"""Page 07: what if one planting were moved, covered, or planned at another risk; the old answer stays beside it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts.replay import SORTS, Run, past_seasons
from gardenlib.panels import controls as c
from gardenlib.panels.form import Form
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.season.changes import FIELDS, SAME, WEEKS, changed
from gardenlib.panels.season.replay_here import (
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
from gardenlib.words import Said
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def fold(session: Session) -> w.Widget:
    """Offer to change one planting and see what past springs say."""
    return more(session, Said("whatif.title"), 6, _build)


def _build(session: Session) -> w.Widget:
    shown = Panel(session, _SPEC)

    def keep(_: Session, __: Mapping[str, Any]) -> Said:
        return _keep(shown)

    return w.VBox([shown, Form(session, Said("whatif.about"), lambda _: {}, keep, Said("whatif.keep"))])


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    offered = plantings_offered(session)
    if not offered:
        raise InputProblem("season.no_plantings")
    changes = [(say(f"whatif.{change}"), change) for change in (SAME, *WEEKS, *FIELDS)]
    return {
        "planting": c.choice(say("replay.which"), offered, offered[0][1]),
        "change": c.choice(say("whatif.change"), changes, SAME),
    }


def _both(session: Session, values: Mapping[str, Any]) -> tuple[Replayed, Replayed]:
    """Replay the planting as it is and as it is changed."""
    weather = weather_here(session)
    old = next(one for one in plantings_here(session)[0] if one.id == values["planting"])
    new = changed(old, values["change"])
    return replay_here(session, [old], weather), replay_here(session, [new], weather)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw the past seasons of the old plan and of the new one below it."""
    say, voice, chosen = session.voice.say, session.voice, values["planting"]
    shown = [one for one in _both(session, values) if one.planned[0].replayed]
    if not shown:
        raise InputProblem("season.no_verdict")
    if values["change"] == SAME:
        shown = shown[:1]
    found = [counts(one, chosen) for one in shown]
    names = [say("whatif.column_old"), say("whatif.column_new")][: len(shown)]
    told = {say("whatif.column_what"): _what(session)}
    told |= {name: _told(session, one, its, chosen) for name, one, its in zip(names, shown, found, strict=True)}
    runs = [
        Run(say("whatif.run", plan=name, count=of(voice, its.worked, its.seasons)), went(one.table, chosen))
        for name, one, its in zip(names, shown, found, strict=True)
    ]
    words = {sort: say(f"replay.key_{sort}") for sort in SORTS}
    finding = _finding(session, values, found)
    drawn = past_seasons(runs, words=words, voice=voice)
    return charts.View(finding, pd.DataFrame(told), charts.svg(drawn), say("whatif.alt", words=finding))


def _finding(session: Session, values: Mapping[str, Any], found: list[ReplayCounts]) -> str:
    say, old, new = session.voice.say, found[0], found[-1]
    planting = next(one for one in plantings_here(session)[0] if one.id == values["planting"])
    said = {"crop": session.crop_name(planting.crop), "old": old.worked, "new": new.worked}
    if values["change"] == SAME:
        return say("whatif.finding_same", n=old.seasons, **said)
    if len(found) == 1:
        return say("whatif.finding_none", n=old.seasons, **said)
    return say(f"whatif.finding_{_compare(old, new)}", n=old.seasons, **said)


def _compare(old: ReplayCounts, new: ReplayCounts) -> str:
    return "more" if new.worked > old.worked else "fewer" if new.worked < old.worked else "equal"


def _what(session: Session) -> list[str]:
    say = session.voice.say
    return [
        say("replay.column_planted"),
        say("replay.column_worked"),
        say("whatif.row_hurt"),
        say("whatif.row_first"),
        say("whatif.row_last"),
        say("whatif.row_dry"),
        say("whatif.row_kg"),
    ]


def _told(session: Session, replayed: Replayed, its: ReplayCounts, chosen: str) -> list[str]:
    say, voice, one = session.voice.say, session.voice, replayed.one(chosen)
    days = [voice.date(day, "MMMd") if day else say("replay.none") for day in (one.planted_on, its.ready_first)]
    last = voice.date(its.ready_last, "MMMd") if its.ready_last else say("replay.none")
    dry = say("replay.unknown") if its.dry_days is None else voice.number(its.dry_days, 0)
    return [
        days[0],
        of(voice, its.worked, its.seasons),
        of(voice, its.hurt, its.seasons),
        days[1],
        last,
        dry,
        say("replay.unknown") if its.kg is None else voice.range(its.kg),
    ]


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    _, new = _both(session, values)
    one = new.one(values["planting"])
    if not one.replayed:
        return list(one.unknown[:1])
    found = counts(new, values["planting"])
    told = beside(found, session.crop_name(one.crop.id), watered=one.watered)
    covered = [said for said in found.assumptions if said.key == "replay.cover_low_end"]
    wind = [Said("replay.cover_wind")] if covered else []
    return [*covered, *wind, *told, *found.unknown]


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    new = _both(session, values)[1]
    one = new.planned[0]
    return counts(new, one.id) if one.replayed else Answer(assumptions=one.unknown[:1])


def _keep(shown: Panel) -> Said:
    """Save the change in the plot; the class's plan becomes the learner's own with it."""
    session, values = shown.session, shown.values
    if values["change"] == SAME:
        raise InputProblem("season.nothing_changed")
    plantings = [
        changed(one, values["change"]) if one.id == values["planting"] else one for one in plantings_here(session)[0]
    ]
    session.save("plantings", [one.model_dump(mode="json") for one in plantings])
    shown.controls["change"].value = SAME
    return Said(
        "whatif.kept", {"crop": session.crop_name(next(o.crop for o in plantings if o.id == values["planting"]))}
    )


_SPEC = Spec(
    "07.what_if",
    Said("whatif.title"),
    _controls,
    view,
    working=_working,
    notes=_notes,
)
