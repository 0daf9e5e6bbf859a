"""Page 02, the fold on reading the laboratory's sheet: an invented one first, then the learner's own."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.form import Form
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.soil.sheet_form import act, fields
from gardenlib.soil import lab_rate_kg_m2
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

LINES = ("ph", "buffer", "phosphorus", "potassium", "lime")
PH, BUFFER, PHOSPHORUS, INDEX = 5.6, 6.6, 22, 45
RATES = {"us": (50, "lb_1000_sq_ft"), "metric": (2.5, "t_ha")}
MISREAD = {"us": ("lb_100_sq_ft", "lb_ac"), "metric": ("kg_m2", "g_m2")}
"""The invented sheet's rate by unit system, and the two units in which it is often misread: far too much, next to
nothing."""


def fold(session: Session) -> w.Widget:
    """Offer an invented sheet to read, and a form for the learner's own."""
    return more(session, Said("lab.title"), 8, _inside)


def _inside(session: Session) -> w.Widget:
    checks = [CheckBox(session, check) for check in (_WHICH_PH, _WHAT_RATE, _INDEX)]
    return w.VBox([Panel(session, _SPEC), *checks, Form(session, Said("lab.form.about"), fields, act)])


# ---- the invented sheet ----------------------------------------------------------------------------


def _rate(session: Session) -> str:
    """Write the invented sheet's lime rate as it stands there."""
    voice = session.voice
    number, unit = RATES[voice.units]
    return f"{voice.number(number)} {voice.say(f'lab.unit.{unit}')}"


def _values(session: Session) -> dict[str, str]:
    say, number = session.voice.say, session.voice.number
    return {
        "ph": number(PH),
        "buffer": number(BUFFER),
        "phosphorus": say("lab.phosphorus_value", x=PHOSPHORUS),
        "potassium": say("lab.potassium_value", x=INDEX),
        "lime": _rate(session),
    }


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    return {"line": c.choice(say("lab.point_at"), [(say(f"lab.at_{line}"), line) for line in LINES], LINES[0])}


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Point at one line of the sheet and say what it is."""
    say, at, stands = session.voice.say, values["line"], _values(session)
    names = {line: say(f"lab.{line}_name") for line in LINES}
    labels = {f"{line}_name": name for line, name in names.items()}
    labels |= {f"{line}_value": value for line, value in stands.items()}
    labels |= {f"at_{line}": "1" if line == at else "0" for line in LINES}
    drawn = charts.sketch("lab_sheet", lab=say("lab.name"), sample=say("lab.sample"), **labels)
    columns = [say("lab.column_line"), say("lab.column_value")]
    table = pd.DataFrame([(names[line], stands[line]) for line in LINES], columns=columns)
    return charts.View(say(f"lab.finding_{at}"), table, drawn, say("lab.alt", line=say(f"lab.at_{at}")))


_SPEC = Spec(
    "02.sheet",
    Said("lab.title"),
    _controls,
    view,
    guess=Guess(
        "02.sheet.guess",
        lambda session: Said("lab.question"),
        lambda session: [
            ("ph", Said("lab.option_ph")),
            ("buffer", Said("lab.option_buffer")),
            ("lime", Said("lab.option_lime")),
        ],
        lambda session: Said("lab.truth"),
    ),
    notes=lambda session, values: [Said("lab.invented")],
    caution=Said("lab.caution"),
)


# ---- the checks ------------------------------------------------------------------------------------


def _bare(words: str) -> Said:
    """Offer a number as it stands on the sheet."""
    return Said("lab.option", {"x": words})


def _ph_replies(session: Session) -> list[Reply]:
    number = session.voice.number
    return [
        Reply("buffer", _bare(number(BUFFER)), False, Said("lab.check1_buffer_reply")),
        Reply("ph", _bare(number(PH)), True, Said("lab.check1_ph_reply")),
        Reply("index", _bare(number(INDEX)), False, Said("lab.check1_index_reply")),
    ]


def _rate_replies(session: Session) -> list[Reply]:
    units = session.voice.units
    number, unit = RATES[units]
    much, little = MISREAD[units]
    replies = (("much", much), ("right", unit), ("little", little))
    return [
        Reply(
            name,
            _bare(session.voice.quantity(Quantity(lab_rate_kg_m2(number, taken_as), "kg_m2"), 3)),
            name == "right",
            Said(f"lab.check2_{name}_reply"),
        )
        for name, taken_as in replies
    ]


def _index_replies(session: Session) -> list[Reply]:
    return [
        Reply(name, Said(f"lab.check3_{name}"), name == "no", Said(f"lab.check3_{name}_reply"))
        for name in ("same", "no", "crop")
    ]


_WHICH_PH = Check("02.sheet.check1", lambda session: Said("lab.check1_question"), _ph_replies)
_WHAT_RATE = Check(
    "02.sheet.check2", lambda session: Said("lab.check2_question", {"rate": _rate(session)}), _rate_replies
)
_INDEX = Check("02.sheet.check3", lambda session: Said("lab.check3_question", {"x": INDEX}), _index_replies)
