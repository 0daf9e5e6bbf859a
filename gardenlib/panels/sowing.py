"""Page 04, the first panel: one crop's dates on the learner's own season."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any, Literal

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.places import MIDDLE, PlanDates, season_curves
from gardenlib.sowing import SowingDates, days_of_weeks, sowing_dates, week_of, window_by_source
from gardenlib.words import Said, Voice

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

FREEZE_F = 32
# What a reader must know beside the dates; the other assumptions stand in the working.
BESIDE_THE_DATES = {
    "sowing.quick_kind",
    "sowing.moved",
    "sowing.cold_unknown",
    "sowing.wait_or_cover",
    "sowing.single_day",
    "sowing.days_basis_not_stated",
    "sowing.days_unchecked",
    "sowing.weeks_indoor_unchecked",
    "sowing.heat_unchecked",
}
EVENTS = ("sow_indoors", "harden_off", "direct_sow", "set_out", "harvest")
EVENT_WORDS = {
    "sow_indoors": Said("calendar.event_sow_indoors"),
    "harden_off": Said("calendar.event_harden_off"),
    "direct_sow": Said("calendar.event_direct_sow"),
    "set_out": Said("calendar.event_set_out"),
    "harvest": Said("calendar.event_harvest"),
}


def panel(session: Session) -> Panel:
    """Show when to sow, set out and pick one crop."""
    return Panel(session, SPEC).show()


def check(session: Session) -> CheckBox:
    """Ask to count back to the day of sowing indoors."""
    return CheckBox(session, _CHECK).show()


def books(session: Session) -> w.Widget:
    """Offer what each published guide says."""
    return more(session, Said("calendar.books_title"), 3, _BOOKS)


def asked(session: Session) -> dict[str, Any]:
    """Gather what the learner's place and class say to every question about dates."""
    return {
        "warmth": session.place.warmth,
        "garden_opens": session.opens,
        "garden_closes": session.closes,
        "region": session.klass.region,
    }


def dates_for(session: Session, crop_id: str, **how: Any) -> SowingDates:
    """Work out one crop's dates for the learner's place and season.

    Parameters
    ----------
    session : Session
        The page's session.
    crop_id : str
        The crop.
    **how
        ``season``, ``risk`` and ``started``, as `sowing.sowing_dates` takes them.

    Returns
    -------
    SowingDates
        The answer with its working.
    """
    return sowing_dates(
        session.crop(crop_id),
        session.freezes,
        year=session.year,
        **asked(session),
        **{"season": seasons(session)[0], **how},
    )


def seasons(session: Session) -> list[Literal["spring", "cool"]]:
    """List the seasons that can be planned, the one that matters first: where it never freezes heat sets them."""
    if session.place.warmth is None:
        return ["spring"]
    never = session.freezes.state("spring", FREEZE_F) == "never"
    return ["cool", "spring"] if never else ["spring", "cool"]


def window(dates: SowingDates) -> tuple[date, date] | None:
    """Give the window in which the crop goes into the bed, as plants or as seed."""
    return dates.set_out or dates.direct_sow


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    ids = session.crops_own_first
    names = {"spring": say("calendar.season_spring"), "cool": say("calendar.season_cool")}
    offered = seasons(session)
    started = [(say("calendar.started_own"), "own"), (say("calendar.started_bought"), "bought")]
    return {
        "crop": c.choice(say("calendar.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "season": c.choice(say("calendar.season"), [(names[season], season) for season in offered], offered[0]),
        "started": c.choice(say("calendar.started"), started, "own"),
    }


def _dates(session: Session, values: Mapping[str, Any]) -> SowingDates:
    return dates_for(session, values["crop"], season=values["season"], started=values["started"])


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw one crop's dates on the season."""
    say, voice = session.voice.say, session.voice
    dates = _dates(session, values)
    name = session.crop_name(values["crop"])
    finding = _finding(dates, name, voice)
    rows = [
        {
            say("calendar.column_what"): say(EVENT_WORDS[event]),
            say("calendar.column_first"): day_words(event, span[0], voice),
            say("calendar.column_last"): day_words(event, span[1], voice),
        }
        for event, span in spans(dates)
    ]
    chart = season_chart(session, {name: dates})
    table = pd.DataFrame(rows) if rows else None
    return charts.View(finding, table, charts.svg(chart), say("calendar.alt", crop=name, words=finding))


def spans(dates: SowingDates) -> list[tuple[str, tuple[date, date]]]:
    """List the events that have dates, in the order of the season."""
    return [(event, getattr(dates, event)) for event in EVENTS if getattr(dates, event) is not None]


def day_words(event: str, day: date, voice: Voice) -> str:
    """Say a day, or for the harvest the week it lies in: no book knows it better."""
    if event == "harvest":
        return voice.say("calendar.week_of", day=voice.date(week_of(day), "MMMd"))
    return voice.date(day, "MMMd")


def season_chart(session: Session, plans: Mapping[str, SowingDates]) -> Any:
    """Draw the plans, by name, as lines on the season."""
    lines = [
        {"label": name, "event": event, "start": span[0], "end": span[1]}
        for name, dates in plans.items()
        for event, span in spans(dates)
    ]
    return charts.sowings(
        season_curves(session.freezes, FREEZE_F, session.year),
        pd.DataFrame(lines, columns=["label", "event", "start", "end"]),
        season=session.season,
        voice=session.voice,
        note=session.voice.say("risk.no_curve"),
    )


def _finding(dates: SowingDates, name: str, voice: Voice) -> str:
    out = window(dates)
    if out is None:
        if dates.short_by_days:
            return voice.say("calendar.finding_none", crop=name, n=dates.short_by_days)
        return voice.say(dates.reason or Said("calendar.finding_none_plain", {"crop": name}))
    key = "calendar.finding_out" if dates.set_out else "calendar.finding_sow"
    return voice.say(key, crop=name, start=voice.date(out[0], "MMMd"), end=voice.date(out[1], "MMMd"))


# ---- the guess --------------------------------------------------------------------------------


def _first_transplanted(session: Session) -> str:
    for crop_id in session.crop_ids:
        if dates_for(session, crop_id).set_out is not None:
            return crop_id
    return session.crop_ids[0]


def _guess_question(session: Session) -> Said:
    crop = session.crop_name(_first_transplanted(session))
    middle = PlanDates(session.freezes, session.year).date("spring", FREEZE_F, MIDDLE)
    if middle is None:
        return Said("calendar.question_plain", {"crop": crop})
    return Said("calendar.question", {"crop": crop, "day": middle})


def _guess_options(session: Session) -> list[tuple[str, Said]]:
    if PlanDates(session.freezes, session.year).date("spring", FREEZE_F, MIDDLE) is None:
        return [
            ("winter", Said("calendar.option_winter")),
            ("spring", Said("calendar.option_spring")),
            ("fall", Said("calendar.option_fall")),
        ]
    return [
        ("before", Said("calendar.option_before")),
        ("near", Said("calendar.option_near")),
        ("after", Said("calendar.option_after")),
    ]


def _guess_truth(session: Session) -> Said:
    crop_id = _first_transplanted(session)
    dates = dates_for(session, crop_id)
    out = window(dates)
    if out is None and session.place.warmth is not None:
        out = window(dates_for(session, crop_id, season="cool"))
    return Said("calendar.truth_none") if out is None else Said("calendar.truth", {"day": out[0]})


SPEC = Spec(
    "04.crop",
    Said("calendar.title"),
    _controls,
    view,
    guess=Guess("04.crop.guess", _guess_question, _guess_options, _guess_truth),
    working=_dates,
    notes=lambda session, values: [
        said for said in _dates(session, values).assumptions if said.key in BESIDE_THE_DATES
    ],
)


# ---- why do books differ? -----------------------------------------------------------------------


def _books_controls(session: Session) -> dict[str, w.Widget]:
    return {
        "crop": c.choice(
            session.voice.say("calendar.crop"),
            [(session.crop_name(i), i) for i in session.crop_ids],
            session.crop_ids[0],
        )
    }


def _books_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say = session.voice.say
    table = window_by_source(session.crop(values["crop"]), session.freezes, year=session.year).table
    found = table[(table["source"] != "ours") & table["opens"].notna()]
    status = {
        "published": say("calendar.status_published"),
        "memory": say("calendar.status_memory"),
        "common_practice": say("calendar.status_common_practice"),
    }
    rows = [
        {
            say("calendar.column_source"): row.citation,
            say("calendar.column_window"): say("calendar.span", start=row.opens, end=row.closes),
            say("calendar.column_status"): status[str(row.status)],
        }
        for row in found.itertuples()
    ]
    name = session.crop_name(values["crop"])
    starts = found["opens"].nunique()
    finding = say("calendar.books_finding", n=len(found), crop=name, n_windows=starts)
    return charts.View(finding, pd.DataFrame(rows) if rows else None, None, say("calendar.books_alt", crop=name))


_BOOKS = Spec("04.books", Said("calendar.books_title"), _books_controls, _books_view)


# ---- the check ------------------------------------------------------------------------------------


def _indoor_case(session: Session) -> tuple[int, date]:
    """Take the set-out day of the first transplanted crop, and weeks whose day stands in no table above."""
    crop_id = _first_transplanted(session)
    indoors = session.crop(crop_id).weeks_indoor
    out = window(dates_for(session, crop_id)) or session.season
    if indoors is None:
        return 6, out[0]
    low, high = round(indoors.typical.low), round(indoors.typical.high)
    return high - 1 if high - 1 > low else high + 1, out[0]


def _check_question(session: Session) -> Said:
    weeks, out = _indoor_case(session)
    return Said("calendar.check_question", {"weeks": weeks, "out": out})


def _check_replies(session: Session) -> list[Reply]:
    weeks, out = _indoor_case(session)
    days = days_of_weeks(weeks)
    cases = [
        (out - timedelta(4 * days), "months", Said("calendar.check_months")),
        (out - timedelta(days), "right", Said("calendar.check_right")),
        (out + timedelta(days), "forward", Said("calendar.check_forward")),
    ]
    return [Reply(key, Said("calendar.day", {"day": day}), key == "right", reply) for day, key, reply in cases]


_CHECK = Check("04.indoors.check", _check_question, _check_replies)
