"""Page 02, the fold on taking a soil sample."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts.hand_drawn import sketch
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.paper import paper_sheet
from gardenlib.soil import SamplingPlan, sampling_plan
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "02.sample"
FILE = "soil_sample"
ONE_BED_M2 = 12.0
"""Where nobody has given the size of a bed; only the share of each place leans on it."""


def fold(session: Session) -> w.Widget:
    """Offer how to take a sample, with the page for the garden."""
    return more(session, Said("sample.title"), 6, _inside)


def _inside(session: Session) -> w.Widget:
    panel = Panel(session, _SPEC)
    caution = w.HTML()

    def warn() -> None:
        lead = panel.controls["lead"].value if panel.controls else session.kept(ID).get("lead", False)
        caution.value = c.html(session.voice.say("sample.caution_lead" if lead else "sample.caution"), "caution")

    session.watch(on_plot=warn, on_saved=warn)
    warn()
    cut = w.HTML(charts.html(_slice_view(session), session.voice))
    paper = paper_sheet(session, Said("sample.print"), FILE, _pdf)
    return w.VBox([caution, panel, cut, CheckBox(session, _GROUNDS), CheckBox(session, _DRYING), paper])


# ---- the plan --------------------------------------------------------------------------------------


def _area_m2(session: Session) -> float:
    """Give the ground of the learner's beds, else that of the class's bed, else one bed."""
    sides = [(bed.length_m, bed.width_m) for bed in session.plot.beds]
    class_bed = session.klass.plots.get(session.klass.class_bed)
    if not any(length and width for length, width in sides) and class_bed is not None:
        sides = [(class_bed.length_m, class_bed.width_m)]
    return sum(length * width for length, width in sides if length and width) or ONE_BED_M2


def _plan(session: Session, values: Mapping[str, Any]) -> SamplingPlan:
    return sampling_plan(_area_m2(session), new_ground=values["new"], lead_asked=values["lead"])


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    new = [(say("sample.new_no"), False), (say("sample.new_yes"), True)]
    lead = [(say("sample.lead_no"), False), (say("sample.lead_yes"), True)]
    return {
        "new": c.one_of(say("sample.new"), new, False),
        "lead": c.one_of(say("sample.lead"), lead, False),
    }


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show where to dig, how deep, and what to ask for."""
    from gardenlib.sheets import sampling_sketches

    voice, plan = session.voice, _plan(session, values)
    say, depth = voice.say, voice.range(plan.depth, 0)
    finding = say("sample.finding", n=plan.samples, places=plan.places, depth=depth)
    share = Quantity(plan.share_m2, "m2")
    rows = [
        (say("sample.row_places"), say("sample.row_places_is", places=plan.places, share=share)),
        (say("sample.row_depth"), depth),
        (say("sample.row_amount"), voice.value(plan.amount)),
        (say("sample.row_when"), say("sample.row_when_is", span=plan.before_planting)),
        (say("sample.row_after"), say("sample.row_after_is", span=plan.after_lime)),
        (say("sample.row_tests"), ", ".join(say(f"sample.test.{test}") for test in plan.tests)),
    ]
    table = pd.DataFrame(rows, columns=[say("sample.column_what"), say("sample.column_how")])
    if plan.samples == 1:
        return charts.View(finding, table, sketch("soil_zigzag_one"), say("sample.alt_one"))
    return charts.View(finding, table, sampling_sketches(plan, voice)[0], say("sample.alt"))


def _slice_view(session: Session) -> charts.View:
    from gardenlib.sheets import sampling_sketches

    say, plan = session.voice.say, sampling_plan(_area_m2(session))
    drawn = sampling_sketches(plan, session.voice)[1]
    return charts.View(say("sample.slice_finding"), None, drawn, say("sample.slice_alt"))


def _notes(session: Session, values: Mapping[str, Any]) -> Sequence[Said]:
    klass = session.klass
    lab = Said("sample.own_lab", {"lab": klass.lab_name, "form": klass.lab_form or "-"})
    area = Said("sample.note_area", {"area": Quantity(_area_m2(session), "m2")})
    return [*_plan(session, values).rules, area, lab if klass.lab_name else Said("sample.no_lab")]


def _pdf(session: Session, large: bool) -> bytes:
    from gardenlib.sheets import sheet_pdf, soil_sample_data

    values = {"new": False, "lead": False, **session.kept(ID)}
    klass, voice = session.klass, session.voice
    data = soil_sample_data(_plan(session, values), voice, lab_name=klass.lab_name, lab_form=klass.lab_form)
    return sheet_pdf("soil_sample", data, voice=voice, large=large, invented=klass.invented)


_SPEC = Spec(
    ID,
    Said("sample.title"),
    _controls,
    view,
    guess=Guess(
        "02.sample.guess",
        lambda session: Said("sample.question"),
        lambda session: [
            ("one", Said("sample.option_one")),
            ("four", Said("sample.option_four")),
            ("many", Said("sample.option_many")),
        ],
        lambda session: Said("sample.truth", {"places": sampling_plan(_area_m2(session)).places}),
    ),
    working=_plan,
    notes=_notes,
    intro=Said("sample.intro"),
)


# ---- the checks ------------------------------------------------------------------------------------


def _replies(check: str, options: Sequence[str], holds: str) -> list[Reply]:
    return [
        Reply(name, Said(f"sample.{check}_{name}"), name == holds, Said(f"sample.{check}_{name}_reply"))
        for name in options
    ]


_GROUNDS = Check(
    "02.sample.check1",
    lambda session: Said("sample.check1_question"),
    lambda session: _replies("check1", ("one", "two", "many"), "two"),
)
_DRYING = Check(
    "02.sample.check2",
    lambda session: Said("sample.check2_question"),
    lambda session: _replies("check2", ("oven", "air", "bag"), "air"),
)
