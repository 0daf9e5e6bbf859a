"""Page 02, the fold on lowering pH: the fizz test first, and never an amount."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.soil import AcidAdvice, acid_advice
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

TRIED_PH = 7.8


def fold(session: Session) -> w.Widget:
    """Offer whether it makes sense to lower the pH."""
    return more(session, Said("acid.title"), 4, _SPEC, _CHECK)


def _controls(session: Session) -> dict[str, w.Widget]:
    say, soil = session.voice.say, session.plot.soil
    seen = [(say("acid.fizz_unknown"), ""), (say("acid.fizz_yes"), "yes"), (say("acid.fizz_no"), "no")]
    made: dict[str, w.Widget] = {"fizz": c.one_of(say("acid.fizz"), seen, soil.fizz)}
    if soil.water_ph is None or soil.ph_method != "water":
        made["ph"] = c.number(say("acid.ph"), 3, 10, TRIED_PH, 0.1)
    return made


def _advice(session: Session, values: Mapping[str, Any]) -> AcidAdvice:
    known = session.plot.soil.water_ph
    return acid_advice(values["ph"] if "ph" in values or known is None else known, values["fizz"])


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Say whether to think of sulphur; no amount is ever shown."""
    words = session.voice.say(f"acid.finding_{_advice(session, values).verdict}")
    return charts.View(words, None, None, words)


def _notes(session: Session, values: Mapping[str, Any]) -> Sequence[Said]:
    told = [Said("acid.unchecked_ph")] if "ph" in values else []
    return [*told, Said("acid.slow")] if _advice(session, values).verdict == "ask" else told


def _keep(session: Session, values: Mapping[str, Any]) -> None:
    session.save_fields("soil", fizz=values["fizz"])


_SPEC = Spec(
    "02.acid",
    Said("acid.title"),
    _controls,
    view,
    notes=_notes,
    intro=Said("acid.intro"),
    caution=Said("acid.caution"),
    keep=_keep,
)


def _replies(session: Session) -> list[Reply]:
    return [
        Reply("more", Said("acid.check1_more"), False, Said("acid.check1_more_reply")),
        Reply("vinegar", Said("acid.check1_vinegar"), False, Said("acid.check1_vinegar_reply")),
        Reply("leave", Said("acid.check1_leave"), True, Said("acid.check1_leave_reply")),
    ]


_CHECK = Check("02.acid.check1", lambda session: Said("acid.check1_question"), _replies)
