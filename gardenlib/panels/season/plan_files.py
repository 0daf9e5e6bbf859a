"""The plan to take along: a page to print and a calendar file."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib import charts
from gardenlib.panels.form import Form
from gardenlib.panels.panel import note
from gardenlib.panels.paper import paper_sheet
from gardenlib.panels.season.plan_here import bed_printed, plan_here, told_here
from gardenlib.plot.disk import put
from gardenlib.season import calendar_events
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

FILE = "my_plan"
# What a printed page says of the plan; the rest stands on the page of the workbook.
PRINTED = ("plan.from_first_day", "plan.picked_on", "plan.pest_days", "plan.no_pest_days")


def take_along(session: Session) -> None:
    """Offer the plan for the garden and for the calendar."""
    box = w.VBox([paper_sheet(session, Said("plan.print"), FILE, _pdf), _calendar(session)])
    charts.show(box, note(session.voice.say("plan.take_along")), session.voice)


def _pdf(session: Session, large: bool) -> bytes:
    from gardenlib.sheets import season_plan_data, sheet_pdf

    plan, voice = plan_here(session), session.voice
    told = [*told_here(session), *(said for said in plan.assumptions if said.key in PRINTED)]
    data = season_plan_data(plan, voice, place=session.site_name, told=told, bed=bed_printed(session))
    return sheet_pdf("season_plan", data, voice=voice, large=large, invented=session.klass.invented)


def _calendar(session: Session) -> Form:
    return Form(session, Said("plan.calendar_about"), lambda _: {}, _write, Said("plan.calendar_make"))


def _write(session: Session, values: Mapping[str, Any]) -> Said:
    """Write the calendar file into the learner's folder, whole or not at all."""
    plan, target = plan_here(session), session.folder / f"{FILE}.ics"
    put(
        target,
        calendar_events(
            plan,
            plot_id=session.path.stem,
            day=session.today,
            revision=session.plot.revision,
            voice=session.voice,
        ),
    )
    folder = str(session.folder.resolve())
    return Said("plan.calendar_saved", {"file": target.name, "folder": folder, "n": len(plan.tasks)})
