"""Page 06, a fold: what keeping bridges, when to plant again, and the vegetables of a whole week."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib import charts, tables
from gardenlib.harvest import StorageLife, WeeklyCups, readable_days, storage_life, weekly_cups
from gardenlib.panels import controls as c
from gardenlib.panels.harvest.keep import here_c
from gardenlib.panels.harvest.much import START_WEEKS, crop_control, household, servings_of, with_supply
from gardenlib.panels.harvest.own_supply import own_supply
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec, note
from gardenlib.problems import InputProblem
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

MOST_KEPT = 26
MOST_ALIKE = 12
OLDEST = 100


def fold(session: Session) -> w.Widget:
    """Offer what keeping bridges, and the vegetables of a week."""
    title = Said("much.bridge_title")
    return more(session, title, 6, _KEEPING, _CUPS)


def _life(session: Session, crop_id: str) -> StorageLife | None:
    """Ask how long a crop keeps in the learner's place; None where nothing is printed for it there."""
    try:
        return storage_life(session.crop(crop_id), here_c(session))
    except InputProblem:
        return None


def _controls(session: Session) -> dict[str, w.Widget]:
    say, crop = session.voice.say, crop_control(session)
    life = _life(session, crop.value)
    return {
        "crop": crop,
        "weeks": c.whole_number(say("much.weeks"), 1, 40, START_WEEKS),
        "keeps": c.whole_number(say("much.keeps"), 0, MOST_KEPT, min(life.whole_weeks, MOST_KEPT) if life else 0),
    }


def _values(session: Session, values: Mapping[str, Any]) -> dict[str, Any]:
    return {**values, "servings": servings_of(session, values["crop"])}


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw what comes in, what the store gives, and what is eaten."""
    full = _values(session, values)
    supply = own_supply(session, household(session, full), full, values["keeps"])
    shown = with_supply(session, session.voice.say("much.keeps_finding", n=values["keeps"]), supply)
    if supply.found is None or not supply.found.bridged_weeks:
        return shown
    bridged = session.voice.say("much.bridged", n=supply.found.bridged_weeks)
    return charts.View(f"{shown.finding} {bridged}", shown.table, shown.chart, f"{shown.alt} {bridged}")


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    full, life = _values(session, values), _life(session, values["crop"])
    notes = own_supply(session, household(session, full), full, values["keeps"]).notes
    if life is None:
        return [Said("much.keeps_from"), *notes]
    days = session.voice.quantity(Quantity(life.days.low, "days"), 0)
    where = {"temp": Quantity(life.temp_c, "degC"), "span": session.voice.range(readable_days(life.days), 0)}
    source = session.voice.say(f"keep.source_{life.source}")
    told = {"crop": session.crop_name(life.crop), "source": source, "n": life.whole_weeks, "days": days, **where}
    return [Said("much.keeps_here", told), *notes]


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    full = _values(session, values)
    supply = own_supply(session, household(session, full), full, values["keeps"])
    if supply.found is None:
        return Answer(assumptions=(supply.without,))
    return replace(supply.found, assumptions=supply.found.assumptions + supply.taken)


_KEEPING = Spec("06.bridge", Said("much.bridge_title"), _controls, view, working=_working, notes=_notes)


# ---- the vegetables of a week ------------------------------------------------------------------------


def _rows() -> list[tuple[str, int, int]]:
    found = tables.table("myplate")
    return list(zip(found["group"], found["from_age"].astype(int), found["to_age"].astype(int), strict=True))


def _who(session: Session, group: str, low: int, high: int) -> str:
    key = "much.who_one" if low == high else "much.who_from" if high > OLDEST else "much.who"
    return session.voice.say(key, who=Said(f"much.group_{group}"), low=low, high=high)


def _cups_controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    names = [(_who(session, *row), f"{row[0]} {row[1]}") for row in _rows()]
    return {
        "who": c.choice(say("much.who_label"), names, "women 31"),
        "alike": c.whole_number(say("much.alike"), 1, MOST_ALIKE, 1),
    }


def _cups(session: Session, values: Mapping[str, Any]) -> WeeklyCups:
    group, age = values["who"].split()
    return weekly_cups([(group, int(age))] * values["alike"])


def _cups_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say = session.voice.say
    return note(say("much.cups_finding", n=values["alike"], cups=_cups(session, values).cups))


_CUPS = Spec(
    "06.cups",
    Said("much.cups_title"),
    _cups_controls,
    _cups_view,
    working=_cups,
    notes=lambda session, values: [Said("much.cups_whose")],
    intro=Said("much.cups_title"),
)
