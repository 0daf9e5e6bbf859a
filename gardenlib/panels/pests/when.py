"""Page 05, the first panel: in which weeks to look for a pest."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib import charts
from gardenlib.class_folder import month_day
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Panel, Spec, note
from gardenlib.panels.pests.weeks_beside import plantings_beside, weeks_table
from gardenlib.pests import EventWeeks, Forecast, attacks, forecast, pest_names
from gardenlib.words import Said, Voice
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "05.when"
STAND_IN = "imported_cabbageworm"
# A day's low and high, the threshold, and the degree days: right, by the high alone, and without the threshold.
CASES = {"us": (40, 70, 50, 5, 20, 55), "metric": (6, 20, 10, 3, 10, 13)}
UNITS = {"us": "degF", "metric": "degC"}


def panel(session: Session) -> Panel:
    """Show the weeks in which a pest's events come."""
    return Panel(session, SPEC).show()


def check(session: Session) -> CheckBox:
    """Ask how many degree days one day gives."""
    return CheckBox(session, _CHECK).show()


def first_weeks(session: Session, pest: str, seen: date | None = None) -> Forecast | Said:
    """Ask for a pest's weeks at the learner's place, or say what is lacking."""
    laid, warmth = session.laid_out, session.place.warmth
    if laid is None or warmth is None:
        return Said("pests.needs_station")
    return forecast(pest, laid, session.year, latitude=session.latitude, typical=warmth, seen=seen)


def _offered(session: Session) -> list[str]:
    """List the pests that go for the learner's crops, then the others."""
    own = [pest for pest in pest_names() if any(attacks(pest, session.crop(i)) for i in session.crop_ids)]
    return list(dict.fromkeys([*own, *pest_names()]))


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    pests = [(say(f"pest.{pest}"), pest) for pest in _offered(session)]
    return {
        "pest": c.choice(say("pests.which"), pests, pests[0][1]),
        "seen": c.line(say("pests.seen"), "", say("pests.seen_hint")),
    }


def _seen(session: Session, values: Mapping[str, Any]) -> date | None:
    text = values["seen"].strip()
    if not text:
        return None
    return session.day_in_season(month_day(text, what=session.voice.say("pests.seen")))


def _found(session: Session, values: Mapping[str, Any]) -> Forecast | Said:
    return first_weeks(session, values["pest"], _seen(session, values))


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw the weeks of past seasons, this year's, and the learner's plantings."""
    say, voice, found = session.voice.say, session.voice, _found(session, values)
    pest = say(f"pest.{values['pest']}")
    if isinstance(found, Said):
        return note(say(found))
    first = found.first
    if first is None or first.early is None:
        return note(say("pests.finding_seen" if found.needs_seen else "pests.finding_none", pest=pest))
    events = [
        charts.Flight(say(f"pest_event.{week.event.event}"), week.early, week.middle, week.late, week.reached)
        for week in sorted(found.events, key=lambda week: week.early or date.max)
    ]
    stands = plantings_beside(session, values["pest"])
    drawn = charts.flights(events, stands, season=session.season, voice=voice, today=session.today)
    alt = say("pests.alt", n=len(events), pest=pest)
    return charts.View(_finding(found, first, pest, voice), weeks_table(found, voice), charts.svg(drawn), alt)


def _finding(found: Forecast, first: EventWeeks, pest: str, voice: Voice) -> str:
    """Say from when to look and, with a record of this year, whether it has come."""
    early, middle, until = (day and voice.date(day, "MMMd") for day in (first.early, first.middle, found.until))
    said = {"pest": pest, "event": voice.say(f"pest_event.{first.event.event}"), "early": early}
    parts = [voice.say("pests.finding" if middle else "pests.finding_seldom", **said, middle=middle)]
    if first.reached is not None:
        parts.append(voice.say("pests.reached", day=voice.date(first.reached, "MMMd"), until=until))
    elif until is not None:
        parts.append(voice.say("pests.not_reached", until=until))
    return " ".join(parts)


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    found = _found(session, values)
    if isinstance(found, Said):
        return []
    told = [said for said in found.assumptions if said.key.startswith(("pests.planning", "pests.assumed", "pests.six"))]
    reasons = dict.fromkeys(reason for event in found.not_counted for reason in event.assumed)
    if found.events:
        now = any(week.reached for week in found.events)
        told.insert(0, Said("pests.legend_now" if now else "pests.legend"))
    if found.needs_seen and found.events:
        told.append(Said("pests.type_seen"))
    return [*told, *(Said(f"pests.not_counted_{reason}") for reason in reasons)]


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    found = _found(session, values)
    return Answer(assumptions=(found,)) if isinstance(found, Said) else found


def _truth(session: Session) -> Said:
    found = first_weeks(session, STAND_IN)
    if isinstance(found, Said):
        return found
    first = found.first
    if first is None or first.early is None or first.middle is None:
        return Said("pests.truth_never")
    said = {"early": first.early, "middle": first.middle}
    freeze = session.place.freezes and session.place.freezes.date("spring", 32, 0.5, year=session.year)
    return Said("pests.truth", {**said, "freeze": freeze}) if freeze else Said("pests.truth_plain", said)


SPEC = Spec(
    ID,
    Said("pests.title"),
    _controls,
    view,
    guess=Guess(
        "05.when.guess",
        lambda session: Said("pests.question"),
        lambda session: [
            ("before", Said("pests.option_before")),
            ("near", Said("pests.option_near")),
            ("after", Said("pests.option_after")),
        ],
        _truth,
    ),
    working=_working,
    notes=_notes,
)


# ---- the check -------------------------------------------------------------------------------------


def _replies(session: Session) -> list[Reply]:
    _, _, lower, right, by_high, no_threshold = CASES[session.voice.units]
    above = {"above": session.voice.say(f"unit.{UNITS[session.voice.units]}", x=lower)}
    return [
        Reply("high", Said("pests.check1_days", {"n": by_high}), False, Said("pests.check1_high_reply", above)),
        Reply("right", Said("pests.check1_days", {"n": right}), True, Said("pests.check1_right_reply", above)),
        Reply("none", Said("pests.check1_days", {"n": no_threshold}), False, Said("pests.check1_none_reply", above)),
    ]


def _question(session: Session) -> Said:
    low, high, lower, *_ = CASES[session.voice.units]
    names = zip(("low", "high", "above"), (low, high, lower), strict=True)
    unit = UNITS[session.voice.units]
    return Said("pests.check1_question", {name: session.voice.say(f"unit.{unit}", x=value) for name, value in names})


_CHECK = Check("05.when.check1", _question, _replies)
