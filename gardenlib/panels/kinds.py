"""Page 04, a fold: which kind of one vegetable still fits the season."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.panels.places import season_curves
from gardenlib.panels.sowing import FREEZE_F, asked, dates_for, day_words, seasons, window
from gardenlib.sowing import Kinds, compare_kinds, days_of_weeks, kinds_of
from gardenlib.units import Quantity, Range
from gardenlib.words import Said, Voice

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

STAND_IN = "cabbage_main"
USUAL_ROOM_DAYS, USUAL_DAYS, USUAL_WEEKS = 70, 65, 6
SPARE_DAYS = 10
DAYS_WORDS = {
    "plants": "kinds_page.days_plants",
    "seed": "kinds_page.days_seed",
    "not_stated": "kinds_page.days_not_stated",
}
ROOM_WORDS = {
    "heat": "kinds_page.room_heat",
    "freeze": "kinds_page.room_freeze",
    "closing": "kinds_page.room_closing",
}


def fold(session: Session) -> w.Widget:
    """Offer the kinds of one vegetable side by side."""
    return more(session, Said("kinds_page.title"), 5, _SPEC, _CHECK1, _CHECK2)


def _first_with_kinds(session: Session) -> str:
    """Give the learner's first crop that has other kinds of the same name."""
    for crop_id in session.crop_ids:
        kinds = kinds_of(session.crop(crop_id))
        if len(kinds) > 1 and kinds[1].split("_")[0] == crop_id.split("_")[0]:
            return crop_id
    return STAND_IN


def _kinds(session: Session, crop_id: str, **packet: Any) -> Kinds:
    crop = session.crop(crop_id)
    return compare_kinds(
        [session.crop(kind) for kind in kinds_of(crop)],
        session.freezes,
        year=session.year,
        today=session.today,
        season=seasons(session)[0],
        **asked(session),
        **packet,
    )


def _answer(session: Session, values: Mapping[str, Any]) -> Kinds:
    typed = values["packet"].strip()
    packet = {"packet_days": typed, "packet_from": values["packet_from"]} if typed else {}
    return _kinds(session, values["crop"], **packet)


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    first = _first_with_kinds(session)
    ids = [kind for crop_id in (first, *session.crop_ids, STAND_IN) for kind in kinds_of(session.crop(crop_id))]
    options = [(session.crop_name(kind), kind) for kind in dict.fromkeys(ids)]
    counted = [(say("kinds_page.from_plants"), "plants"), (say("kinds_page.from_seed"), "seed")]
    return {
        "crop": c.choice(say("kinds_page.crop"), options, first),
        "packet": c.line(say("kinds_page.packet"), hint=say("kinds_page.packet_hint")),
        "packet_from": c.choice(say("kinds_page.packet_from"), counted, "plants"),
    }


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show each kind's days, space and dates."""
    say, voice = session.voice.say, session.voice
    table = _answer(session, values).table
    finding = say(_finding(session, table))
    kinds: list[Any] = list(table.itertuples())
    rows = [
        {
            say("kinds_page.column_kind"): session.crop_name(row.crop),
            say("kinds_page.column_days"): _days(row, voice),
            say("kinds_page.column_out"): _window(row, voice),
            say("kinds_page.column_harvest"): _harvest(row, voice),
            say("kinds_page.column_room"): _room(row, voice),
            say("kinds_page.column_space"): _space(row, voice),
            say("kinds_page.column_pick"): _pick(row, voice),
            say("kinds_page.column_keeps", temp=Quantity(0.0, "degC")): _keeps(row, voice),
        }
        for row in kinds
    ]
    lines = [
        {"label": session.crop_name(row.crop), "event": event, "start": start, "end": end}
        for row in kinds
        for event, start, end in (
            (row.event, row.opens, row.closes),
            ("harvest", row.harvest_first, row.harvest_last),
        )
        if row.fits and pd.notna(start)
    ]
    chart = charts.sowings(
        season_curves(session.freezes, FREEZE_F, session.year),
        pd.DataFrame(lines, columns=["label", "event", "start", "end"]),
        season=session.season,
        voice=voice,
        note=say("risk.no_curve"),
    )
    return charts.View(finding, pd.DataFrame(rows), charts.svg(chart), say("kinds_page.alt", words=finding))


def _finding(session: Session, table: pd.DataFrame) -> Said:
    fits, others = (
        ", ".join(session.crop_name(crop) for crop in table.loc[table["fits"] == held, "crop"])
        for held in (True, False)
    )
    if not others:
        return Said("kinds_page.finding_all", {"names": fits})
    if not fits:
        return Said("kinds_page.finding_none", {"names": others})
    return Said("kinds_page.finding_some", {"fits": fits, "others": others})


def _marked(figure: str, unchecked: bool, voice: Voice) -> str:
    return voice.say("kinds_page.unchecked", figure=figure) if unchecked else figure


def _days(row: Any, voice: Voice) -> str:
    if row.counted_from is None or pd.isna(row.days_low):
        return voice.say("kinds_page.unknown")
    days = Range(float(row.days_low), float(row.days_high), "days")
    return _marked(voice.say(DAYS_WORDS[row.counted_from], days=days), row.unchecked, voice)


def _space(row: Any, voice: Voice) -> str:
    if pd.isna(row.spacing_low_m):
        return voice.say("kinds_page.unknown")
    space = Range(float(row.spacing_low_m) * 1000, float(row.spacing_high_m) * 1000, "mm")
    return _marked(voice.range(space, 0), row.spacing_unchecked, voice)


def _keeps(row: Any, voice: Voice) -> str:
    return voice.say("kinds_page.unknown") if row.keeps is None else voice.range(row.keeps)


def _pick(row: Any, voice: Voice) -> str:
    if pd.isna(row.pick_weeks):
        return voice.say("kinds_page.unknown")
    return voice.quantity(Quantity(float(row.pick_weeks), "weeks"))


def _window(row: Any, voice: Voice) -> str:
    if pd.isna(row.opens):
        return voice.say("calendar.nothing")
    span = voice.say("calendar.span", start=voice.date(row.opens, "MMMd"), end=voice.date(row.closes, "MMMd"))
    quick = row.fits and row.reason is not None
    return voice.say("kinds_page.quick", window=span) if quick else span


def _harvest(row: Any, voice: Voice) -> str:
    if pd.isna(row.harvest_first):
        return voice.say("calendar.nothing")
    first = day_words("harvest", row.harvest_first, voice)
    last = day_words("harvest", row.harvest_last, voice)
    return first if first == last else voice.say("calendar.span", start=first, end=last)


def _room(row: Any, voice: Voice) -> str:
    if pd.isna(row.room_days):
        return voice.say("kinds_page.unknown")
    return voice.say(ROOM_WORDS[row.ends_by], days=Quantity(float(row.room_days), "days"))


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    found = _answer(session, values)
    why = [reason for reason in found.table["reason"] if reason is not None]
    return [*why, *(said for said in found.assumptions if said.key.startswith("kinds."))]


# ---- the guess and the checks --------------------------------------------------------------------


def _question(session: Session) -> Said:
    kinds = kinds_of(session.crop(_first_with_kinds(session)))
    return Said("kinds_page.question", {"names": ", ".join(session.crop_name(kind) for kind in kinds)})


_SPEC = Spec(
    "04.kinds",
    Said("kinds_page.title"),
    _controls,
    view,
    guess=Guess(
        "04.kinds.guess",
        _question,
        lambda session: [
            ("all", Said("kinds_page.option_all")),
            ("some", Said("kinds_page.option_some")),
            ("none", Said("kinds_page.option_none")),
        ],
        lambda session: _finding(session, _kinds(session, _first_with_kinds(session)).table),
    ),
    working=_answer,
    notes=_notes,
)


def _plants_case(session: Session) -> tuple[int, int, date]:
    """Take days from plants, weeks indoors and a day of setting out from the learner's own crop where it has them."""
    crop = session.crop(_first_with_kinds(session))
    days, weeks = crop.days_from_transplant, crop.weeks_indoor
    out = window(dates_for(session, crop.id)) or session.season
    return (
        round(days.typical.low) if days else USUAL_DAYS,
        round(weeks.typical.high) if weeks else USUAL_WEEKS,
        out[0],
    )


def _check1_replies(session: Session) -> list[Reply]:
    days, weeks, out = _plants_case(session)
    cases = [
        (days - days_of_weeks(weeks), "seed", Said("kinds_page.check1_seed")),
        (days, "right", Said("kinds_page.check1_right")),
        (days + days_of_weeks(weeks), "twice", Said("kinds_page.check1_twice")),
    ]
    return [
        Reply(key, Said("calendar.day", {"day": out + timedelta(days=n)}), key == "right", reply)
        for n, key, reply in cases
    ]


def _check1_question(session: Session) -> Said:
    days, _, out = _plants_case(session)
    return Said("kinds_page.check1_question", {"days": days, "out": out})


def _room_days(session: Session) -> int | None:
    """Give the days that the season leaves the learner's own kind, where there are enough for the question."""
    room = _kinds(session, _first_with_kinds(session)).table["room_days"].iloc[0]
    return None if pd.isna(room) or room <= 2 * SPARE_DAYS else int(room)


def _check2_question(session: Session) -> Said:
    room = _room_days(session)
    if room is None:
        return Said("kinds_page.check2_question_plain", {"room": USUAL_ROOM_DAYS})
    return Said("kinds_page.check2_question", {"room": room})


def _check2_replies(session: Session) -> list[Reply]:
    room = _room_days(session) or USUAL_ROOM_DAYS
    short, long = room - SPARE_DAYS, room + SPARE_DAYS
    option, seed = "kinds_page.check2_option", "kinds_page.check2_seed_option"
    return [
        Reply("short", Said(option, {"days": short}), True, Said("kinds_page.check2_right")),
        Reply("long", Said(option, {"days": long}), False, Said("kinds_page.check2_long")),
        Reply("seed", Said(seed, {"days": long + SPARE_DAYS}), False, Said("kinds_page.check2_seed")),
    ]


_CHECK1 = Check("04.kinds.check1", _check1_question, _check1_replies)
_CHECK2 = Check("04.kinds.check2", _check2_question, _check2_replies)
