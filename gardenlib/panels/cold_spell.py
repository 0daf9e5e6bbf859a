"""Page 04, a fold: cold after setting out, and hardening off day by day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels import hardening
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec, note
from gardenlib.panels.sowing import dates_for, window
from gardenlib.sowing import ColdSpell, cold_spell_risk, days_of_weeks, kinds_of
from gardenlib.words import Said
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

STAND_IN, FAMILY = "cabbage_main", "Brassicaceae"
SHIFTS = (-2, -1, 0, 1, 2)
BESIDE = {
    "bolting.limit_unchecked",
    "bolting.stem",
    "bolting.stem_unknown",
    "bolting.as_seedling",
    "bolting.buttons",
    "bolting.counted_apart",
}


def fold(session: Session) -> w.Widget:
    """Offer how often cold comes after setting out, and a plan to harden off."""
    return more(session, Said("cold.title"), 6, _SPEC, _CHECK, hardening.SPEC, hardening.CHECK)


def _offered(session: Session) -> list[str]:
    """List the learner's crops of the cabbage family, then the kinds of cabbage."""
    own = [crop_id for crop_id in session.crop_ids if session.crop(crop_id).family == FAMILY]
    return list(dict.fromkeys([*own, *kinds_of(STAND_IN)]))


def _first_day(session: Session, crop_id: str) -> date | None:
    out = window(dates_for(session, crop_id))
    return None if out is None else out[0]


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    ids = _offered(session)
    return {
        "crop": c.choice(say("cold.crop"), [(session.crop_name(i), i) for i in ids], _asked(session)),
        "shift": c.whole_number(say("cold.shift"), SHIFTS[0], SHIFTS[-1], 0),
    }


def _spells(session: Session, crop_id: str, shifts: Sequence[int]) -> list[ColdSpell] | Said:
    """Count the cold springs for days so many weeks from the first day, or say what is lacking."""
    station, first = session.place.station, _first_day(session, crop_id)
    if station is None or first is None:
        return Said("cold.no_day", {"crop": session.crop(crop_id).name}) if station else Said("cold.needs_station")
    crop = session.crop(crop_id)
    found = [cold_spell_risk(crop, station.daily, first + timedelta(days=days_of_weeks(shift))) for shift in shifts]
    return next((spell.reason for spell in found if spell.reason is not None), found)


def _spell(session: Session, crop_id: str, shift: int) -> ColdSpell | Said:
    found = _spells(session, crop_id, (shift,))
    return found if isinstance(found, Said) else found[0]


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show in how many springs in ten a cold spell follows each day of setting out."""
    say, voice = session.voice.say, session.voice
    crop_id = values["crop"]
    spells = _spells(session, crop_id, SHIFTS)
    if isinstance(spells, Said):
        return note(say(spells))
    chosen = spells[SHIFTS.index(values["shift"])]
    rows = [
        {
            say("cold.column_day"): voice.date(spell.set_out, "MMMd"),
            say("cold.column_springs"): spell.springs_in_ten,
        }
        for spell in spells
    ]
    name = session.crop_name(crop_id)
    finding = say(
        "cold.finding",
        crop=name,
        day=voice.date(chosen.set_out, "MMMd"),
        n=chosen.springs_in_ten,
        days=chosen.days,
        weeks=chosen.weeks,
    )
    return charts.View(finding, pd.DataFrame(rows), None, say("cold.alt", crop=name))


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    found = _spell(session, values["crop"], values["shift"])
    if isinstance(found, Said):
        return []
    told = [said for said in found.assumptions if said.key in BESIDE]
    if found.stage == "grown":
        told.append(Said("cold.rule"))
    return [*told, Said("cold.warm")] if session.place.night_offset_c else told


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    found = _spell(session, values["crop"], values["shift"])
    return Answer(assumptions=(found,)) if isinstance(found, Said) else found


def _asked(session: Session) -> str:
    """Take the first crop whose cold springs can be counted, so that the guess has an answer."""
    ids = _offered(session)
    return next((crop_id for crop_id in ids if isinstance(_spell(session, crop_id, 0), ColdSpell)), ids[0])


def _question(session: Session) -> Said:
    crop_id = _asked(session)
    first = _first_day(session, crop_id)
    if first is None:
        return Said("cold.question_plain")
    return Said("cold.question", {"crop": session.crop(crop_id).name, "day": first})


def _truth(session: Session) -> Said:
    found = _spell(session, _asked(session), 0)
    return found if isinstance(found, Said) else Said("cold.truth", {"n": found.springs_in_ten})


_SPEC = Spec(
    "04.cold",
    Said("cold.title"),
    _controls,
    view,
    guess=Guess(
        "04.cold.guess",
        _question,
        lambda session: [
            ("few", Said("cold.option_few")),
            ("some", Said("cold.option_some")),
            ("most", Said("cold.option_most")),
        ],
        _truth,
    ),
    working=_working,
    notes=_notes,
)

# ---- the check --------------------------------------------------------------------------------

_CHECK = Check(
    "04.cold.check1",
    lambda session: Said("cold.check1_question"),
    lambda session: [
        Reply("small", Said("cold.check1_small"), False, Said("cold.check1_small_reply")),
        Reply("big", Said("cold.check1_big"), True, Said("cold.check1_big_reply")),
        Reply("same", Said("cold.check1_same"), False, Said("cold.check1_same_reply")),
    ],
)
