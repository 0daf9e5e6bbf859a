"""Page 02, the fold on lead: the history of the place, then a number beside what the authorities say."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.soil import LeadHistory, LeadReading, lead_history, lead_number, lead_questions, lead_reading
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

HISTORY = {"house": "02.lead.house", "ground": "02.lead.ground"}
ANSWERS = ("yes", "no", "unknown")


def fold(session: Session) -> w.Widget:
    """Offer the history of the place, a laboratory's number for lead, and the habits."""
    return more(session, Said("lead.title"), 5, _inside)


def _inside(session: Session) -> w.Widget:
    house, ground = (Panel(session, spec) for spec in (_HOUSE, _GROUND))
    # What one panel finds leans on the answers in the other.
    session.watch(on_saved=house.redraw)
    session.watch(on_saved=ground.redraw)
    panels = [house, ground, Panel(session, _HABITS), Panel(session, _NUMBER)]
    return w.VBox([*panels, CheckBox(session, _BELOW), CheckBox(session, _TOTAL)])


# ---- the history -----------------------------------------------------------------------------------


def _questions(session: Session, about: str) -> dict[str, w.Widget]:
    say = session.voice.say
    answers = [(say(f"lead.answer.{answer}"), answer) for answer in ANSWERS]
    return {name: c.one_of(say(f"lead.ask.{name}"), answers) for name in lead_questions(about)}


def _history(session: Session, values: Mapping[str, Any]) -> LeadHistory:
    """Join the answers in sight with those that are kept from the other panel."""
    kept = {name: value for key in HISTORY.values() for name, value in session.kept(key).items()}
    return lead_history({name: values.get(name, kept.get(name)) for name in lead_questions()})


def history_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show whether the history asks for a test."""
    say, found = session.voice.say, _history(session, values)
    if found.ask_for_test:
        finding = say("lead.finding_test")
    elif found.asks:
        finding = say("lead.finding_open", left=len(found.asks))
    else:
        finding = say("lead.finding_none")
    told = {**dict.fromkeys(found.reasons, "yes"), **dict.fromkeys(found.unknown, "unknown")}
    rows = []
    for name in lead_questions():
        answer = say("lead.open") if name in found.asks else say(f"lead.answer.{told.get(name, 'no')}")
        rows.append((say(f"lead.ask.{name}"), answer))
    table = pd.DataFrame(rows, columns=[say("lead.column_ask"), say("lead.column_answer")])
    return charts.View(finding, table, None, say("lead.history_alt"))


_HOUSE = Spec(
    HISTORY["house"],
    Said("lead.house_title"),
    lambda session: _questions(session, "house"),
    history_view,
    intro=Said("lead.house_title"),
    caution=Said("lead.caution"),
    working=_history,
)
_GROUND = Spec(
    HISTORY["ground"],
    Said("lead.ground_title"),
    lambda session: _questions(session, "ground"),
    history_view,
    intro=Said("lead.ground_title"),
    working=_history,
    notes=lambda session, values: list(_history(session, values).assumptions),
)


# ---- the habits, whatever the number is or whether it can be used at all ----------------------------


def _habits_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say = session.voice.say
    rows = [(say(habit),) for habit in lead_reading(None, is_total=False).habits]
    return charts.View(
        say("lead.habits"), pd.DataFrame(rows, columns=[say("lead.habits_column")]), None, say("lead.habits")
    )


_HABITS = Spec("02.lead.habits", Said("lead.habits"), lambda session: {}, _habits_view)


# ---- the number ------------------------------------------------------------------------------------


def _number_controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    return {
        "total": c.one_of(say("lead.total"), [(say(f"lead.total_{word}"), word) for word in ("yes", "no")]),
        "number": c.line(say("lead.number"), "", say("lead.hint")),
    }


def _reading(session: Session, values: Mapping[str, Any]) -> LeadReading:
    ours = session.klass.lead
    said = {} if ours is None else {"line": ours.line, "authority": ours.authority, "dated": ours.date}
    return lead_reading(lead_number(values["number"]), is_total=values["total"] == "yes", **said)


def number_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show the number beside the line of the class's authority and the federal figure, each with its date."""
    voice, say, found = session.voice, session.voice.say, _reading(session, values)
    screening = voice.value(found.screening)
    if found.total is None:
        finding = say("lead.finding_no_number")
    elif found.reached:
        finding = say("lead.finding_reached", total=found.total, screening=screening)
    else:
        finding = say("lead.finding_below", total=found.total, screening=screening)
    mine = say("lead.row_none") if found.total is None else voice.value(found.total)
    rows = [(say("lead.row_lab"), mine, "")]
    if found.line:
        rows.append((found.authority, found.line, _day(session, found.dated)))
    rows.append((say("lead.row_federal"), screening, voice.date(found.screening_dated, "yMMMM")))
    table = pd.DataFrame(rows, columns=[say("lead.column_who"), say("lead.column_says"), say("lead.column_date")])
    return charts.View(finding, table, None, say("lead.number_alt"))


def _day(session: Session, dated: str) -> str:
    """Write a date of the class folder as people read it; other words stay as they are."""
    try:
        return session.voice.date(date.fromisoformat(dated), "yMMMd")
    except ValueError:
        return dated


def _number_notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    found = _reading(session, values)
    line = [] if found.line else [Said("lead.no_line")]
    return [*line, found.next_step, *found.assumptions, Said("lead.same")]


_NUMBER = Spec(
    "02.lead",
    Said("lead.number_title"),
    _number_controls,
    number_view,
    intro=Said("lead.number_title"),
    caution=Said("lead.caution"),
    working=_reading,
    notes=_number_notes,
)


# ---- the checks ------------------------------------------------------------------------------------


def _screening() -> dict[str, Any]:
    return {"screening": lead_reading(None, is_total=False).screening}


_BELOW = Check(
    "02.lead.check1",
    lambda session: Said("lead.check.question", _screening()),
    lambda session: [
        Reply("fine", Said("lead.check.fine", _screening()), False, Said("lead.check.fine_reply")),
        Reply("right", Said("lead.check.right"), True, Said("lead.check.right_reply")),
        Reply("close", Said("lead.check.close"), False, Said("lead.check.close_reply")),
    ],
)

_TOTAL = Check(
    "02.lead.check2",
    lambda session: Said("lead.check2.question"),
    lambda session: [
        Reply("use", Said("lead.check2.use"), False, Said("lead.check2.use_reply")),
        Reply("right", Said("lead.check2.right"), True, Said("lead.check2.right_reply")),
        Reply("add", Said("lead.check2.add"), False, Said("lead.check2.add_reply")),
    ],
)
