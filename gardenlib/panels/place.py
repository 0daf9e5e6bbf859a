"""Page 01, the first panel: where the learner's freeze dates come from."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.places import MIDDLE, PlanDates, freeze_working, ways
from gardenlib.site import FreezeDates
from gardenlib.units import Quantity
from gardenlib.words import Said, Voice

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

FREEZE_F = 32
WAYS = {"class": Said("place.way_class"), "typed": Said("place.way_typed"), "file": Said("place.way_file")}


def panel(session: Session) -> Panel:
    """Choose where the dates come from, and see them side by side."""
    shown = Panel(session, SPEC).show()
    session.watch(on_change=lambda: _follow(session, shown))
    return shown


def _follow(session: Session, shown: Panel) -> None:
    """Offer dates that were typed or read from a file since, and show them as chosen."""
    if not shown.controls:
        return
    offered = [way for _, way in shown.controls["way"].options]
    if offered != ways(session.plot.site) or shown.controls["way"].value != session.way:
        shown.rebuild()


def check_zone(session: Session) -> CheckBox:
    """Ask what a zone tells."""
    return CheckBox(session, _CHECK_ZONE).show()


def results(session: Session) -> list[tuple[str, str]]:
    """List what this page settled."""
    say, voice = session.voice.say, session.voice
    dates = PlanDates(session.freezes, session.year)
    return [
        (say("place.result_place"), session.site_name),
        (say("place.column_last"), dates.words("spring", FREEZE_F, MIDDLE, voice)),
        (say("place.result_last_safe"), dates.words("spring", FREEZE_F, 0.1, voice)),
        (say("place.column_first"), dates.words("fall", FREEZE_F, MIDDLE, voice)),
    ]


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    return {
        "site": c.choice(say("place.site"), [(name, name) for name in session.klass.sites], session.site_name),
        "way": c.choice(say("place.way"), [(say(WAYS[way]), way) for way in ways(session.plot.site)], session.way),
    }


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Set the dates from every source side by side."""
    voice, place = session.voice, session.place
    offset = Quantity(place.night_offset_c, "degC_difference")
    sources = [(freezes, Said("place.at_station", {"source": freezes.comes_from})) for freezes in place.at_station]
    if place.night_offset_c:
        sources += [
            (freezes, Said("place.for_plot", {"source": freezes.comes_from, "offset": offset}))
            for freezes in place.all_sources
            if freezes.kind != "typed"
        ]
    rows = [_row(freezes, session.year, voice, voice.say(name)) for freezes, name in sources]
    return charts.View(_finding(session), pd.DataFrame(rows), None, voice.say("place.alt"))


def _row(freezes: FreezeDates, year: int, voice: Voice, name: str) -> dict[str, str]:
    dates = PlanDates(freezes, year)
    return {
        voice.say("place.column_from"): name,
        voice.say("place.column_last"): dates.words("spring", FREEZE_F, MIDDLE, voice),
        voice.say("place.column_first"): dates.words("fall", FREEZE_F, MIDDLE, voice),
    }


def _finding(session: Session) -> str:
    say, freezes = session.voice.say, session.freezes
    state = freezes.state("spring", FREEZE_F)
    if state == "every_month":
        return say("place.finding_every_month")
    if state == "too_few_years":
        return say("place.finding_few")
    dates = PlanDates(freezes, session.year)
    spring, fall = dates.date("spring", FREEZE_F, MIDDLE), dates.date("fall", FREEZE_F, MIDDLE)
    if spring is None:
        return say("place.finding_never")
    if fall is None:
        return say("place.finding", spring=spring)
    return say("place.finding_both", spring=spring, fall=fall)


def _keep(session: Session, values: Mapping[str, Any]) -> None:
    session.save_fields("site", name=values["site"], way=values["way"])


# ---- the guess: by the end of which month? --------------------------------------------------


def _middle(session: Session) -> date | None:
    return PlanDates(session.freezes, session.year).date("spring", FREEZE_F, MIDDLE)


GUESS = "01.place.guess"
NEVER = [("never", Said("place.month_never"))]


def _months(session: Session) -> list[tuple[str, Said]]:
    """Offer three months in a row; which of them holds differs from place to place. A guess once kept has its name."""
    if session.guess(GUESS) is not None:
        return [_month(session, date(session.year, number, 1)) for number in range(1, 13)] + NEVER
    middle = _middle(session) or date(session.year, 2 if session.latitude >= 0 else 8, 1)
    first = pd.Period(middle, "M") - middle.day % 3
    months = [(first + i).to_timestamp().date() for i in range(3)]
    named = [_month(session, month) for month in months]
    return named if _middle(session) else named[:2] + NEVER


def _month(session: Session, month: date) -> tuple[str, Said]:
    return str(month.month), Said("place.month", {"month": session.voice.date(month, "MMMM")})


def _month_truth(session: Session) -> Said:
    middle = _middle(session)
    if middle is not None:
        return Said("place.month_truth", {"day": middle})
    known = session.freezes.state("spring", FREEZE_F) in {"dates", "never"}
    return Said("place.month_truth_never" if known else "place.month_truth_unknown")


SPEC = Spec(
    "01.place",
    Said("place.title"),
    _controls,
    view,
    guess=Guess(GUESS, lambda session: Said("place.month_question"), _months, _month_truth),
    working=lambda session, values: freeze_working(session, FREEZE_F, MIDDLE),
    notes=lambda session, values: session.place.missing,
    keep=_keep,
)

_CHECK_ZONE = Check(
    "01.zone.check",
    lambda session: Said("zone.check_question"),
    lambda session: [
        Reply("sow", Said("zone.check_sow"), False, Said("zone.check_sow_reply")),
        Reply("winter", Said("zone.check_winter"), True, Said("zone.check_winter_reply")),
        Reply("heat", Said("zone.check_heat"), False, Said("zone.check_heat_reply")),
    ],
)
