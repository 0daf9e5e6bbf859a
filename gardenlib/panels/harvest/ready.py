"""Page 06, a fold: in which weeks a planting is ready, and the signs to see and feel."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.class_folder import month_day
from gardenlib.harvest import ReadyWeeks, planted_how, weeks_ready
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.harvest.ready_signs import SIGNS
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec, note
from gardenlib.panels.sowing import dates_for
from gardenlib.problems import InputProblem
from gardenlib.site.freeze import MIN_SEASONS
from gardenlib.sowing import week_of
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "06.ready"
BESIDE = ("ready.", "sowing.days")


def fold(session: Session) -> w.Widget:
    """Offer the weeks in which a planting is ready, the signs, and the second cut."""
    return more(session, Said("ready.title"), 7, _WEEKS, SIGNS, _FIRM, _SECOND)


# ---- the weeks -------------------------------------------------------------------------------------


def _has_days(session: Session, crop_id: str) -> bool:
    try:
        planted_how(session.crop(crop_id))
    except InputProblem:
        return False
    return True


def _offered(session: Session) -> list[str]:
    """List the crops with published days, the learner's own first."""
    every = session.crops_own_first
    return [crop_id for crop_id in every if _has_days(session, crop_id)]


def _controls(session: Session) -> dict[str, w.Widget]:
    say, ids = session.voice.say, _offered(session)
    return {
        "crop": c.choice(say("ready.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "planted": c.line(say("ready.planted"), "", say("ready.planted_hint")),
    }


def _usual_day(session: Session, crop_id: str) -> date:
    """Give the first day of the crop's window; where it has none, of the garden's or the growing year."""
    days = getattr(dates_for(session, crop_id), planted_how(session.crop(crop_id)))
    return days[0] if days else session.opens or session.season[0]


def _found(session: Session, values: Mapping[str, Any]) -> ReadyWeeks:
    typed = str(values["planted"]).strip()
    if typed:
        day = session.day_in_season(month_day(typed, what=session.voice.say("ready.planted")))
    else:
        day = _usual_day(session, values["crop"])
    own = next((dates for dates in session.place.at_station if dates.kind == "station"), None)
    return weeks_ready(
        session.crop(values["crop"]),
        day,
        station=session.place.station,
        latitude=session.latitude,
        warmth=session.place.warmth,
        freezes=own,
    )


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw the stretch in the bed, and the days on which it was first ready."""
    say, voice, found = session.voice.say, session.voice, _found(session, values)
    crop = session.crop_name(values["crop"])
    finding = _finding(session, found, crop)
    if found.early is None:
        return note(finding)
    ready = charts.Flight(say("ready.flight"), found.early, found.middle, found.late)
    stands = charts.Planting(crop, found.planted_on, found.middle or found.late or found.early)
    # From the month of planting on, and past the end of the year where the crop is ready only then.
    season = (found.planted_on.replace(day=1), max(session.season[1], found.late or found.early))
    drawn = charts.flights([ready], [stands], season=season, voice=voice, today=session.today)
    seasons = [("ready.early", found.early), ("ready.middle", found.middle), ("ready.late", found.late)]
    if found.by == "days":
        seasons = seasons[::2]
    rows = [(say(key), _week(session, day)) for key, day in seasons]
    table = pd.DataFrame(rows, columns=[say("ready.column_when"), say("ready.column_week")])
    return charts.View(finding, table, charts.svg(drawn), say("ready.alt", crop=crop, words=finding))


def _week(session: Session, day: date | None) -> str:
    say = session.voice.say
    return (
        say("ready.not_before") if day is None else say("ready.week_of", day=session.voice.date(week_of(day), "MMMd"))
    )


def _finding(session: Session, found: ReadyWeeks, crop: str) -> str:
    say, voice = session.voice.say, session.voice
    said = {"day": voice.date(found.planted_on, "MMMd"), "crop": crop}
    early, middle, late = (day and voice.date(day, "MMMd") for day in (found.early, found.middle, found.late))
    if found.by == "days":
        key = "ready.finding_day" if early == late else "ready.finding_days"
        return say(key, early=early, late=late, **said)
    if early is None:
        return say("ready.finding_never", n=found.not_ripe, seasons=found.seasons, **said)
    if late is None or middle is None:
        return say("ready.finding_open", early=early, n=found.not_ripe, seasons=found.seasons, **said)
    return say("ready.finding_warmth", early=early, middle=middle, late=late, **said)


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    found = _found(session, values)
    told = [said for said in found.assumptions if said.key.startswith(BESIDE)]
    if found.by == "warmth":
        few = Said("ready.few_seasons", {"n": found.seasons})
        told.append(few if found.seasons < MIN_SEASONS else Said("ready.most_seasons"))
    if found.frost_on is not None:
        told.append(Said("ready.frost_first", {"day": found.frost_on}))
    return [*told, Said("ready.kind_matters")]


def _first(session: Session) -> ReadyWeeks:
    return _found(session, {"crop": _offered(session)[0], "planted": ""})


def _question(session: Session) -> Said:
    crop = session.crop_name(_offered(session)[0])
    return Said("ready.question", {"crop": crop, "day": _first(session).planted_on})


def _truth(session: Session) -> Said:
    spread = _first(session).spread_days
    return Said("ready.truth_open") if spread is None else Said("ready.truth", {"n": spread})


_WEEKS = Spec(
    ID,
    Said("ready.title"),
    _controls,
    view,
    guess=Guess(
        "06.ready.guess",
        _question,
        lambda session: [
            ("3", Said("ready.option_few")),
            ("10", Said("ready.option_some")),
            ("30", Said("ready.option_many")),
        ],
        _truth,
    ),
    working=_found,
    notes=_notes,
)

# ---- the checks ------------------------------------------------------------------------------------

_FIRM = Check(
    "06.ready.check1",
    lambda session: Said("ready.check1_question"),
    lambda session: [
        Reply("cut", Said("ready.check1_cut"), False, Said("ready.check1_cut_reply")),
        Reply("wait", Said("ready.check1_wait"), True, Said("ready.check1_wait_reply")),
        Reply("old", Said("ready.check1_old"), False, Said("ready.check1_old_reply")),
    ],
)
_SECOND = Check(
    "06.ready.check2",
    lambda session: Said("ready.check2_question"),
    lambda session: [
        Reply("twist", Said("ready.check2_twist"), False, Said("ready.check2_twist_reply")),
        Reply("low", Said("ready.check2_low"), False, Said("ready.check2_low_reply")),
        Reply("high", Said("ready.check2_high"), True, Said("ready.check2_high_reply")),
    ],
)
