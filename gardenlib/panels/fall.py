"""Page 04, a fold: the last day to sow for fall, and what can still be sown today."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts.season import Mark
from gardenlib.panels import controls as c
from gardenlib.panels.check import CheckBox
from gardenlib.panels.fall_today import AVERAGE, CHECK_BACK, CHECK_DAYS, EARLY, FREEZE_F, STILL, coming_freeze
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.places import season_curves
from gardenlib.problems import InputProblem
from gardenlib.sowing import LatestSowing, latest_sowing, next_fall
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

GUESS_CROP = "kale"
WEEKS_APART = 6
BESIDE_THE_DATES = {
    "fall.average_freeze",
    "fall.slow_kinds",
    "fall.quick_kinds",
    "fall.picking",
    "fall.picking_unchecked",
    "fall.no_picking",
    "fall.ten_hours",
    "sowing.days_basis_not_stated",
    "sowing.days_unchecked",
    "sowing.weeks_indoor_unchecked",
}


def fold(session: Session) -> w.Widget:
    """Offer the fall crops."""
    return more(session, Said("fall.title"), 12, lambda _: w.VBox(_parts(session)))


def _parts(session: Session) -> list[w.Widget]:
    panels = [Panel(session, _SPEC), CheckBox(session, CHECK_DAYS), Panel(session, STILL)]
    return [*panels, CheckBox(session, CHECK_BACK)]


def _answer(session: Session, values: Mapping[str, Any], rule: Any = "safe") -> LatestSowing:
    return latest_sowing(
        session.crop(values["crop"]),
        coming_freeze(session, values["falls"]),
        rule,
        started=values["started"],
        latitude=session.latitude,
    )


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    ids = list(dict.fromkeys([GUESS_CROP, *session.crop_ids, *session.all_crop_ids]))
    started = [(say(f"fall.started_{way}"), way) for way in ("own", "bought", "seed")]
    falls = [(say("fall.falls_average"), AVERAGE)]
    if session.freezes.knows("fall", FREEZE_F, EARLY):
        falls.append((say("fall.falls_early"), EARLY))
    return {
        "crop": c.choice(say("fall.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "started": c.choice(say("fall.started"), started, "own"),
        "falls": c.choice(say("fall.falls"), falls, AVERAGE),
    }


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw the safe day, the last day and the first freeze on the season."""
    say, voice = session.voice.say, session.voice
    safe, latest = _answer(session, values), _answer(session, values, "latest")
    freeze = coming_freeze(session, values["falls"])
    key = "fall.finding_set_out" if values["started"] == "bought" and safe.set_out else "fall.finding_sow"
    name = session.crop_name(values["crop"])
    days = {"safe": voice.date(safe.date, "MMMd"), "latest": voice.date(latest.date, "MMMd")}
    finding = say(key, crop=name, **days)
    answers = {"fall.row_safe": safe, "fall.row_latest": latest}
    if values["falls"] == AVERAGE and session.freezes.knows("fall", FREEZE_F, EARLY):
        answers["fall.row_early"] = _answer(session, {**values, "falls": EARLY})
    rows = [
        {
            say("fall.column_rule"): say(row),
            say("fall.column_sow"): "-" if key == "fall.finding_set_out" else voice.date(answer.date, "MMMd"),
            say("fall.column_set_out"): "-" if answer.set_out is None else voice.date(answer.set_out, "MMMd"),
            say("fall.column_harvest"): voice.date(answer.first_harvest, "MMMd"),
        }
        for row, answer in answers.items()
    ]
    year = next_fall(session.freezes, session.today)
    marks = [
        Mark(safe.date, say("fall.mark_safe"), "choice"),
        Mark(latest.date, say("fall.mark_latest"), "choice"),
        *([Mark(freeze, say("fall.mark_freeze"), "cold")] if freeze is not None else []),
    ]
    chart = charts.freeze_season(
        season_curves(session.freezes, FREEZE_F, year),
        season=_season(session, year),
        voice=voice,
        marks=marks,
        note=say("fall.no_curve"),
    )
    return charts.View(finding, pd.DataFrame(rows), charts.svg(chart), say("fall.alt", crop=name, words=finding))


def _season(session: Session, year: int) -> tuple[date, date]:
    first, last = session.season
    later = year - session.year
    return first.replace(year=first.year + later), last.replace(year=last.year + later)


# ---- the guess ---------------------------------------------------------------------------------


def _weeks(session: Session) -> int | None:
    try:
        found = latest_sowing(GUESS_CROP, coming_freeze(session), "safe", started="seed")
    except InputProblem:
        return None
    return found.weeks_before


def _options(session: Session) -> list[tuple[str, Said]]:
    right = _weeks(session) or 15
    few = max(right - 2 * WEEKS_APART, 1)
    return [
        (value, Said("fall.option_weeks", {"n": n}))
        for value, n in (("few", few), ("some", right - WEEKS_APART), ("many", right))
    ]


def _truth(session: Session) -> Said:
    weeks = _weeks(session)
    return Said("fall.truth_none") if weeks is None else Said("fall.truth", {"n": weeks})


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    told: list[Said] = []
    for rule in ("safe", "latest"):
        said = _answer(session, values, rule).assumptions
        told += [one for one in said if one.key in BESIDE_THE_DATES and one not in told]
    return told


_SPEC = Spec(
    "04.fall",
    Said("fall.title"),
    _controls,
    view,
    guess=Guess(
        "04.fall.guess",
        lambda session: Said("fall.question", {"crop": session.crop_name(GUESS_CROP)}),
        _options,
        _truth,
    ),
    working=_answer,
    notes=_notes,
)
