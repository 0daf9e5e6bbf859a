"""Page 02: does the bed need lime, and with a laboratory's sheet how much of this bag."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts.lime_line import lime_line
from gardenlib.panels import controls as c
from gardenlib.panels.check import CheckBox
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.soil.lime_bed import (
    State,
    against_clubroot,
    bed_controls,
    lime_here,
    need_here,
    state_of,
    target_of,
)
from gardenlib.panels.soil.lime_checks import BAG, STEPS
from gardenlib.panels.soil.lime_notes import CAUTION, EXAMPLE, caution, notes
from gardenlib.soil import lime_need, lime_spread
from gardenlib.units import Quantity, Range
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session
    from gardenlib.soil import LimeForBed
    from gardenlib.working import Answer

GUESS = "02.lime.guess"
TRIED_PH = 6.0
SMALL_KG = 1.0


def panel(session: Session) -> Panel:
    """Show none, little or much; with a sheet in hand, how much of this bag on this bed."""
    return _LimePanel(session, SPEC).show()


def check(session: Session) -> CheckBox:
    """Ask for the lime of one bed from one bag."""
    return CheckBox(session, BAG).show()


def check2(session: Session) -> CheckBox:
    """Ask what one step of pH means."""
    return CheckBox(session, STEPS).show()


class _LimePanel(Panel):
    """A panel that is made anew when the sheet changes what can be said."""

    _state: tuple[State, bool] | None = None

    def build(self) -> None:
        """Make the parts for what is known of the soil."""
        self._state = self._known()
        self.spec = replace(self.spec, caution=caution(self.session))
        super().build()

    def redraw(self) -> None:
        """Draw again, or make the panel anew where other controls are needed."""
        if self._state == self._known():
            super().redraw()
        else:
            self.rebuild()

    def _known(self) -> tuple[State, bool]:
        return state_of(self.session), against_clubroot(self.session)


# ---- what is asked and drawn ------------------------------------------------------------------------


def _controls(session: Session) -> dict[str, w.Widget]:
    state = state_of(session)
    if state in {"sheet", "texture"}:
        return bed_controls(session)
    if session.plot.soil.water_ph is None:
        return {"ph": c.number(session.voice.say("lime.try_ph"), 3, 10, TRIED_PH, 0.1)}
    return {}


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show the doses for this bed where the sheet allows it, else none, little or much."""
    if state_of(session) in {"sheet", "texture"}:
        bed = lime_here(session, values)
        if bed.applications:
            return _doses(session, bed)
        need = need_here(session, values)
        if need.need != "none":
            words = session.voice.say("lime.finding_sheet_none", ph=need.water_ph, target=need.target_ph)
            return charts.View(words, None, None, words)
    return _line(session, values)


def _line(session: Session, values: Mapping[str, Any]) -> charts.View:
    say, need = session.voice.say, need_here(session, values)
    said = {"ph": need.water_ph, "target": need.target_ph, "need": say(f"lime.{need.need}")}
    if need.alkaline:
        finding = say("lime.finding_alkaline", **said)
    elif need.need == "none":
        finding = say("lime.finding_none", **said)
    else:
        finding = say("lime.finding_open", **said)
    drawn = lime_line(
        need.water_ph,
        need.target_ph,
        need.little_from,
        zones=(say("lime.much"), say("lime.little"), say("lime.none")),
        labels=(say("lime.ruler_here", **said), say("lime.ruler_target", **said), say("lime.ruler_axis")),
    )
    table = None if need.need == "none" else _side_by_side(session)
    return charts.View(finding, table, charts.svg(drawn), say("lime.alt_ruler", **said))


def _side_by_side(session: Session) -> pd.DataFrame:
    say = session.voice.say
    rows = [
        (
            say(f"lime.way_{rate.method}"),
            say("lime.row_least") if rate.times_least == 1 else say("lime.row_times", x=rate.times_least),
        )
        for rate in lime_spread(**EXAMPLE).rates
    ]
    return pd.DataFrame(rows, columns=[say("lime.column_way"), say("lime.column_times")])


def _doses(session: Session, bed: LimeForBed) -> charts.View:
    voice, say = session.voice, session.voice.say
    places = 2 if bed.high_kg < SMALL_KG else 1
    weights = [voice.range(Range(dose.low_kg, dose.high_kg, "kg"), places) for dose in bed.applications]
    said = {"area": Quantity(bed.area_m2, "m2"), "weight": voice.range(Range(bed.low_kg, bed.high_kg, "kg"), places)}
    if bed.checked:
        finding = say("lime.finding_dose", n=len(weights), **said)
    else:
        finding = say(
            "lime.finding_texture", first=voice.quantity(Quantity(bed.applications[0].high_kg, "kg"), places), **said
        )
    rows = [
        (str(dose.number), "" if dose.on is None else voice.date(dose.on, "yMMMd"), weight)
        for dose, weight in zip(bed.applications, weights, strict=True)
    ]
    table = pd.DataFrame(rows, columns=[say(f"lime.column_{name}") for name in ("dose", "when", "weight")])
    return charts.View(finding, table, None, say("lime.alt_dose"))


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    if state_of(session) in {"sheet", "texture"}:
        return lime_here(session, values)
    return need_here(session, values)


# ---- the guess ------------------------------------------------------------------------------------------


def _truth(session: Session) -> Said:
    soil = session.plot.soil
    if soil.water_ph is None or soil.ph_method != "water":
        return Said("lime.truth_unknown")
    need = lime_need(soil.water_ph, target_of(session))
    return Said(f"lime.truth_{need.need}", {"ph": need.water_ph, "target": need.target_ph})


SPEC = Spec(
    "02.lime",
    Said("lime.title"),
    _controls,
    view,
    guess=Guess(
        GUESS,
        lambda session: Said("lime.question"),
        lambda session: [(need, Said(f"lime.{need}")) for need in ("none", "little", "much")],
        _truth,
    ),
    working=_working,
    notes=notes,
    caution=CAUTION,
)
