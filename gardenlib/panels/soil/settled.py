"""Page 02, its end: what was settled about the soil."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from gardenlib.panels.soil import lime
from gardenlib.panels.soil.lime_bed import bed_controls, lime_here, need_here, state_of
from gardenlib.panels.soil.names import known_name
from gardenlib.problems import InputProblem
from gardenlib.units import Range

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def results(session: Session) -> list[tuple[str, str]]:
    """List the soil's texture, the sheet, its pH and what the bed gets of lime."""
    say, soil = session.voice.say, session.plot.soil
    nothing = say("settled.nothing")
    ph = nothing if soil.water_ph is None else say("settled.ph", ph=soil.water_ph, how=say(f"settled.{soil.ph_method}"))
    return [
        (say("settled.texture"), known_name(soil.texture, session.voice) if soil.texture else nothing),
        (say("settled.sheet"), say("settled.sheet_in_hand") if soil.sheet == "in_hand" else say("settled.sheet_none")),
        (say("settled.soil_ph"), ph),
        (say("settled.lime"), _lime(session)),
    ]


def _lime(session: Session) -> str:
    say, soil = session.voice.say, session.plot.soil
    # A figure from the texture alone is unchecked, so it is not carried to where nothing says so.
    if state_of(session) == "sheet":
        first = {name: control.value for name, control in bed_controls(session).items()}
        try:
            bed = lime_here(session, {**first, **session.kept(lime.SPEC.id)})
        except InputProblem:
            return say("settled.lime_ask")
        if not bed.applications:
            return say("lime.none")
        weight = session.voice.range(Range(bed.low_kg, bed.high_kg, "kg"), 1)
        return say("settled.lime_doses", weight=weight, n=len(bed.applications))
    if soil.water_ph is None or state_of(session) in {"texture", "other_ph"}:
        return say("settled.lime_open")
    values: dict[str, Any] = {"ph": soil.water_ph}
    return say(f"lime.{need_here(session, values).need}")
