"""Page 00: what we eat, and the units and language that the pages use."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Panel, Spec
from gardenlib.sowing import cold_limit_f
from gardenlib.units import Quantity, f_to_c
from gardenlib.words import Said, languages

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

SLOTS = 6
FEWEST = 3
LIGHT_FREEZE = ("hardy", "half-hardy")
STANDS = {
    "hardy": Said("hardiness.hardy"),
    "half-hardy": Said("hardiness.half_hardy"),
    "tender": Said("hardiness.tender"),
    "very tender": Said("hardiness.very_tender"),
}


def what_we_eat(session: Session) -> Panel:
    """Ask who eats what."""
    return Panel(session, _EAT).show()


def cold(session: Session) -> Panel:
    """Show how much cold these crops stand, after a guess."""
    return Panel(session, COLD).show()


def settings(session: Session) -> Panel:
    """Ask for units and language."""
    return Panel(session, _SETTINGS).show()


def check(session: Session) -> CheckBox:
    """Ask which kind of crop goes out before the last freeze."""
    return CheckBox(session, _CHECK).show()


def results(session: Session) -> list[tuple[str, str]]:
    """List what this page settled."""
    say = session.voice.say
    crops = [session.crop(crop_id) for crop_id in session.crop_ids]
    return [
        (say("start.result_people"), str(session.people)),
        (say("start.result_crops"), ", ".join(session.crop_name(crop.id) for crop in crops)),
        (say("start.result_cold"), str(_standing(session))),
    ]


# ---- what we eat ---------------------------------------------------------------------------


def _eat_controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    own = session.plot.household.eat
    known = sorted((session.crop_name(crop_id), crop_id) for crop_id in session.all_crop_ids)
    made: dict[str, w.Widget] = {"people": c.whole_number(say("start.people"), 1, 50, session.people)}
    for i in range(SLOTS):
        eaten = own[i] if i < len(own) else None
        options = [(say("start.none"), ""), *known]
        made[f"crop_{i}"] = c.choice(say("start.crop_n", n=i + 1), options, eaten.crop if eaten else "")
        made[f"times_{i}"] = c.whole_number(say("start.times_n"), 1, 21, round(eaten.times_a_week) if eaten else 1)
    return made


def _eat_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    chosen = _chosen(values)
    say = session.voice.say
    finding = say("start.eat_finding", n=len(chosen), people=values["people"])
    if len(chosen) < FEWEST:
        finding = say("start.too_few")
    rows = [
        {
            say("start.column_crop"): session.crop_name(item["crop"]),
            say("start.column_times"): str(item["times_a_week"]),
        }
        for item in chosen
    ]
    return charts.View(finding, pd.DataFrame(rows) if rows else None, None, finding)


def _chosen(values: Mapping[str, Any]) -> list[dict[str, Any]]:
    picked = {values[f"crop_{i}"]: values[f"times_{i}"] for i in range(SLOTS) if values[f"crop_{i}"]}
    return [{"crop": crop, "times_a_week": times} for crop, times in picked.items()]


def _eat_keep(session: Session, values: Mapping[str, Any]) -> None:
    session.save_fields("household", people=values["people"], eat=_chosen(values))


_EAT = Spec("00.eat", Said("start.title"), _eat_controls, _eat_view, keep=_eat_keep)


# ---- how much cold they stand ---------------------------------------------------------------


def _standing(session: Session) -> int:
    return sum(session.crop(crop_id).hardiness in LIGHT_FREEZE for crop_id in session.crop_ids)


def _cold_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say = session.voice.say
    crops = [session.crop(crop_id) for crop_id in session.crop_ids]
    rows = [
        {
            say("start.column_crop"): session.crop_name(crop.id),
            say("start.column_hardiness"): say(STANDS[crop.hardiness]),
            say("start.column_cold"): session.voice.quantity(Quantity(f_to_c(float(cold_limit_f(crop))), "degC")),
        }
        for crop in crops
    ]
    finding = say("start.cold_finding", n=len(crops), standing=_standing(session))
    return charts.View(finding, pd.DataFrame(rows), None, say("start.cold_alt"))


def _cold_truth(session: Session) -> Said:
    return Said("start.cold_truth", {"standing": _standing(session), "n": len(session.crop_ids)})


COLD = Spec(
    "00.cold",
    Said("start.cold_title"),
    lambda session: {},
    _cold_view,
    guess=Guess(
        id="00.cold.guess",
        question=lambda session: Said("start.cold_question", {"n": len(session.crop_ids)}),
        options=lambda session: [
            ("none", Said("start.cold_none")),
            ("some", Said("start.cold_some")),
            ("most", Said("start.cold_most")),
        ],
        truth=_cold_truth,
    ),
)


# ---- units and language ---------------------------------------------------------------------


def _settings_controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    names = [(session.language_name(language), language) for language in languages()]
    units = [(say("start.units_us"), "us"), (say("start.units_metric"), "metric")]
    return {
        "units": c.choice(say("start.units"), units, session.voice.units),
        "language": c.choice(say("start.language"), names, session.voice.language),
    }


def _settings_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    warm = session.voice.quantity(Quantity(f_to_c(68.0), "degC"))
    sentence = session.voice.say("start.settings_finding", warm=warm)
    return charts.View(sentence, None, None, sentence)


def _settings_keep(session: Session, values: Mapping[str, Any]) -> None:
    session.save_fields("household", units=values["units"], language=values["language"])


_SETTINGS = Spec("00.settings", Said("start.settings"), _settings_controls, _settings_view, keep=_settings_keep)

_CHECK = Check(
    "00.check",
    lambda session: Said("start.check_question"),
    lambda session: [
        Reply("hardy", Said("start.check_hardy"), True, Said("start.check_hardy_reply")),
        Reply("tender", Said("start.check_tender"), False, Said("start.check_tender_reply")),
        Reply("any", Said("start.check_any"), False, Said("start.check_any_reply")),
    ],
)
