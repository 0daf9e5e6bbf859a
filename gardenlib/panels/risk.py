"""Page 01, the second panel: the risk of a cold night on the learner's own season."""

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
from gardenlib.panels.places import MIDDLE, PlanDates, freeze_working, season_curves
from gardenlib.units import Quantity, f_to_c
from gardenlib.words import Said, Voice
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

SPRINGS_SHOWN = (1, 2, 5, 8, 9)
ASKED = (8, 5, 2)
"""Bad springs out of 10 whose dates the check offers; the last holds, and is not the one that stands in the panel."""
SPREAD_KEYS = ("climate.freeze.no_spread",)


def panel(session: Session) -> Panel:
    """Show how the risk of a cold night falls in spring and rises in fall."""
    return Panel(session, SPEC).show()


def check(session: Session) -> CheckBox:
    """Ask for the date that a chosen risk gives."""
    return CheckBox(session, _CHECK).show()


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    known = session.freezes.thresholds_f
    nights = [
        (36, Said("risk.temp_36", {"t": _temp(36)})),
        (32, Said("risk.temp_32", {"t": _temp(32)})),
        (28, Said("risk.temp_28", {"t": _temp(28)})),
        (24, Said("risk.temp_24", {"t": _temp(24)})),
    ]
    return {
        "threshold_f": c.choice(say("risk.temp"), [(say(words), f) for f, words in nights if f in known], 32),
        "springs": c.whole_number(say("risk.springs"), 1, 9, 1),
    }


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw the season with the chosen risk read off it."""
    freezes, voice = session.freezes, session.voice
    threshold_f, risk = values["threshold_f"], values["springs"] / 10
    dates = PlanDates(freezes, session.year)
    spring, fall = dates.date("spring", threshold_f, risk), dates.date("fall", threshold_f, risk)
    finding = _finding(dates, threshold_f, values["springs"], voice)
    named = ((spring, voice.say("risk.mark_spring")), (fall, voice.say("risk.mark_fall")))
    marks = [charts.Mark(day, label) for day, label in named if day is not None]
    curves = season_curves(freezes, threshold_f, session.year)
    chart = charts.freeze_season(
        curves,
        season=session.season,
        voice=voice,
        marks=marks,
        risk=None if curves.empty else risk,
        opens=session.opens,
        closes=session.closes,
        dots=freezes.single_dates(threshold_f, year=session.year),
        note=voice.say("risk.no_curve"),
    )
    if curves.empty:
        alt = voice.say("risk.alt_none")
    else:
        alt = voice.say("risk.alt", temp=_temp(threshold_f), spring=_day(spring, voice), fall=_day(fall, voice))
    return charts.View(finding, _table(dates, threshold_f, voice), charts.svg(chart), alt)


def _finding(dates: PlanDates, threshold_f: int, springs: int, voice: Voice) -> str:
    freezes, spring = dates.freezes, dates.date("spring", threshold_f, springs / 10)
    state = freezes.state("spring", threshold_f)
    if state == "too_few_years":
        return voice.say("risk.finding_dots")
    if state == "every_month":
        return voice.say("place.finding_every_month")
    if not freezes.knows("spring", threshold_f, springs / 10):
        middle = dates.date("spring", threshold_f, MIDDLE)
        return voice.say("risk.finding_typed", day=middle) if middle else voice.say("place.month_truth_unknown")
    if spring is None:
        return voice.say("risk.finding_no_freeze", temp=_temp(threshold_f))
    return voice.say("risk.finding", n=springs, temp=_temp(threshold_f), day=spring)


def _table(dates: PlanDates, threshold_f: int, voice: Voice) -> pd.DataFrame:
    rows = [
        {
            voice.say("risk.column_years"): str(n),
            voice.say("risk.column_last"): dates.words("spring", threshold_f, n / 10, voice),
            voice.say("risk.column_first"): dates.words("fall", threshold_f, n / 10, voice),
        }
        for n in SPRINGS_SHOWN
    ]
    return pd.DataFrame(rows)


def _temp(threshold_f: int) -> Quantity:
    return Quantity(f_to_c(float(threshold_f)), "degC")


def _day(day: date | None, voice: Voice) -> str:
    return voice.say("place.no_date") if day is None else voice.date(day)


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    return freeze_working(session, values["threshold_f"], values["springs"] / 10)


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    """Repeat what was taken for granted where the dates give no spread."""
    freezes = session.freezes
    known = freezes.knows("spring", values["threshold_f"], values["springs"] / 10)
    return [] if known else [said for said in freezes.assumptions if said.key in SPREAD_KEYS]


SPEC = Spec(
    id="01.risk",
    title=Said("risk.title"),
    controls=_controls,
    view=view,
    working=_working,
    notes=_notes,
    guess=Guess(
        id="01.risk.guess",
        question=lambda session: Said("risk.question"),
        options=lambda session: [(str(n), Said("risk.option", {"n": n})) for n in (1, 5, 9)],
        truth=lambda session: Said("risk.truth"),
    ),
)


def _check_question(session: Session) -> Said:
    kind = _kind(session)
    if kind == "never":
        return Said("risk.check_never_question")
    return Said("risk.check_question", {"temp": _temp(32)}) if kind == "spread" else Said("risk.check_typed_question")


def _kind(session: Session) -> str:
    freezes = session.freezes
    if freezes.state("spring", 32) == "never":
        return "never"
    days = [PlanDates(freezes, session.year).date("spring", 32, n / 10) for n in ASKED]
    return "spread" if None not in days and len(set(days)) == len(days) else "typed"


def _replies(session: Session) -> list[Reply]:
    kind = _kind(session)
    if kind == "never":
        return [
            Reply("heat", Said("risk.check_never_heat"), True, Said("risk.check_never_heat_reply")),
            Reply("freeze", Said("risk.check_never_freeze"), False, Said("risk.check_never_freeze_reply")),
            Reply("zone", Said("risk.check_never_zone"), False, Said("risk.check_never_zone_reply")),
        ]
    if kind == "typed":
        return [
            Reply("half", Said("risk.check_typed_half"), True, Said("risk.check_typed_half_reply")),
            Reply("rare", Said("risk.check_typed_rare"), False, Said("risk.check_typed_rare_reply")),
            Reply("none", Said("risk.check_typed_none"), False, Said("risk.check_typed_none_reply")),
        ]
    dates = PlanDates(session.freezes, session.year)
    return [
        Reply(str(n), Said("risk.option_date", {"day": dates.date("spring", 32, n / 10)}), n == ASKED[-1], reply)
        for n, reply in zip(
            ASKED,
            (Said("risk.check_early"), Said("risk.check_middle"), Said("risk.check_right", {"temp": _temp(36)})),
            strict=True,
        )
    ]


_CHECK = Check("01.risk.check", _check_question, _replies)
