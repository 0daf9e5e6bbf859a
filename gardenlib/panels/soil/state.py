"""Page 02: whether there is a laboratory's sheet, and what the page does next."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.panel import Panel, Spec, note
from gardenlib.panels.soil.lime_bed import state_of
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def panel(session: Session) -> Panel:
    """Ask whether there is a sheet; the answer follows when the sheet is typed in."""
    made = Panel(session, _SPEC)

    def follow() -> None:
        known, control = session.plot.soil.sheet, made.controls["sheet"]
        if known and control.value != known:
            control.value = known

    session.watch(on_change=follow)
    return made.show()


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    options = [(say("soil_state.none"), "none"), (say("soil_state.in_hand"), "in_hand")]
    return {"sheet": c.one_of(say("soil_state.question"), options, session.plot.soil.sheet or None)}


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Say what the page does next; a high pH comes before all else."""
    soil = session.plot.soil
    if state_of(session) == "alkaline":
        return note(session.voice.say("soil_state.no_lime", ph=soil.water_ph))
    if values["sheet"] == "in_hand" and soil.water_ph is not None and soil.ph_method == "water":
        return note(session.voice.say("soil_state.in_hand_known", ph=soil.water_ph))
    rough = session.klass.lime_from_texture
    key = {
        "none": "soil_state.none_texture" if rough else "soil_state.none_next",
        "in_hand": "soil_state.in_hand_next",
    }.get(values["sheet"], "soil_state.choose")
    return note(session.voice.say(key))


def _keep(session: Session, values: Mapping[str, Any]) -> None:
    if values["sheet"] and values["sheet"] != session.plot.soil.sheet:
        session.save_fields("soil", sheet=values["sheet"])


_SPEC = Spec("02.state", Said("soil_state.title"), _controls, view, keep=_keep)
