"""Page 07, the fold on the plot log: write it down, and see it beside the plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, note
from gardenlib.panels.paper import paper_sheet
from gardenlib.panels.season.log_families import families_form
from gardenlib.panels.season.log_lines import crop_named, line_form, log_season, planting_names
from gardenlib.panels.season.log_real import AMOUNTS, REAL
from gardenlib.season import lines_of, measure_of
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session
    from gardenlib.plot import LogEntry

FILE = "garden_log"
NEWEST = 10


def fold(session: Session) -> w.Widget:
    """Offer the plot log: a line a visit, planned against real, what was picked, and the bed's past."""
    return more(session, Said("log.title"), 6, _inside)


def _inside(session: Session) -> w.Widget:
    real, amounts, last = Panel(session, REAL), Panel(session, AMOUNTS), w.HTML()

    def draw() -> None:
        last.value = charts.html(last_view(session), session.voice)

    session.watch(on_plot=draw, on_saved=draw)
    session.watch(on_saved=real.build)
    session.watch(on_saved=amounts.redraw)
    draw()
    paper = paper_sheet(session, Said("log.print"), FILE, _pdf)
    heads = [
        c.text(session.voice.say(key), "head") for key in ("log.last_title", "log.real_title", "log.amounts_title")
    ]
    return w.VBox(
        [line_form(session), heads[0], last, heads[1], real, heads[2], amounts, families_form(session), paper]
    )


# ---- the last lines --------------------------------------------------------------------------------


def last_view(session: Session) -> charts.View:
    """List the newest lines of the season that is logged."""
    say = session.voice.say
    lines = lines_of(session.plot.log, *log_season(session), session.today)
    if not lines:
        return note(say("log.last_none"))
    names = planting_names(session)
    columns = [say(f"log.column_{name}") for name in ("day", "plant", "did", "much", "note")]
    rows = [_row(session, line, names) for line in reversed(lines[-NEWEST:])]
    finding = say("log.last_finding", n=len(lines))
    return charts.View(finding, pd.DataFrame(rows, columns=columns), None, finding)


def _row(session: Session, line: LogEntry, names: dict[str, str]) -> tuple[str, str, str, str, str]:
    voice, none = session.voice, session.voice.say("log.none")
    plant = names.get(line.planting or "") or crop_named(session, line.crop) or none
    did = none if line.did is None else voice.say(f"log.did_{line.did}")
    return voice.date(line.day, "MMMd"), plant, did, _much(session, line), line.text or none


def _much(session: Session, line: LogEntry) -> str:
    voice, measure = session.voice, line.did and measure_of(line.did)
    if line.tmin_c is not None:
        return voice.quantity(Quantity(line.tmin_c, "degC"))
    value = getattr(line, measure) if measure else None
    if value is None or measure is None:
        return voice.say("log.none")
    units = {"amount_kg": "kg", "plants": "plants", "hours": "hours"}
    return voice.quantity(Quantity(value, units[measure]))


# ---- the page for the pocket -----------------------------------------------------------------------


def _pdf(session: Session, large: bool) -> bytes:
    from gardenlib.sheets import pocket_log_data, sheet_pdf

    names = dict.fromkeys([*planting_names(session).values()])
    data = pocket_log_data(list(names), session.voice, large=large)
    return sheet_pdf("log", data, voice=session.voice, large=large, invented=session.klass.invented)
