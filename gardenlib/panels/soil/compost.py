"""Page 02, the fold on compost and manure: volume, loads and limits; the last day for raw manure."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import bed_here, stands_in
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.panels.soil.compost_manure import MANURE, WAIT
from gardenlib.panels.soil.loads import bag_size, level_control, levels_here, vessel_options
from gardenlib.soil import (
    CompostForBed,
    bags_for,
    compost_for_bed,
    phosphorus_found,
)
from gardenlib.units import MM_PER_INCH, Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "02.compost"
DEPTHS_M = {
    "us": tuple(inches * MM_PER_INCH / 1000 for inches in (0.25, 0.5, 1, 2, 4)),
    "metric": (0.005, 0.01, 0.025, 0.05, 0.1),
}
USUAL_DEPTH = 1
WITHOUT_VOLUME = ("wait", "none")


def fold(session: Session) -> w.Widget:
    """Offer compost for this bed and the last day for raw manure."""
    return more(session, Said("compost.title"), 6, _COMPOST, MANURE, WAIT)


# ---- compost ---------------------------------------------------------------------------------------


def _controls(session: Session) -> dict[str, w.Widget]:
    voice, units = session.voice, session.voice.units
    depths = [(voice.quantity(Quantity(depth * 100, "cm"), 2), depth) for depth in DEPTHS_M[units]]
    vessels = vessel_options(session)
    return {
        f"depth_{units}": c.choice(voice.say("compost.depth"), depths, DEPTHS_M[units][USUAL_DEPTH]),
        f"vessel_{units}": c.choice(voice.say("compost.vessel"), vessels, vessels[0][1]),
        **level_control(session, Said("compost.phosphorus")),
    }


def _compost(session: Session, values: Mapping[str, Any]) -> CompostForBed:
    phosphorus = levels_here(session, values)["phosphorus"]
    return compost_for_bed(bed_here(session).area_m2, values[f"depth_{session.voice.units}"], phosphorus=phosphorus)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show whether compost should go on, how much the depth takes, and what it may feed."""
    voice, say = session.voice, session.voice.say
    found = _compost(session, values)
    loads = bags_for(found.volume_m3, values[f"vessel_{voice.units}"])
    finding = _finding(session, found, Said("compost.count", {"n": loads}))
    if found.verdict in WITHOUT_VOLUME:
        return charts.View(finding, None, None, finding)
    rows = [
        (say("compost.row_volume"), bag_size(session, found.volume_m3, 2)),
        (say("compost.row_loads"), str(loads)),
        (say("compost.row_nitrogen"), voice.range(found.n_kg, 2)),
        (say("compost.row_need"), voice.quantity(Quantity(found.mixed_need_kg, "kg"), 2)),
    ]
    names = [say("compost.column_what"), say("compost.column_much")]
    return charts.View(finding, pd.DataFrame(rows, columns=names), None, say("compost.alt"))


def _finding(session: Session, found: CompostForBed, count: Said) -> str:
    say, bed = session.voice.say, bed_here(session)
    year, most = (Quantity(depth * 100, "cm") for depth in (found.year_m, found.at_once_m))
    if found.verdict == "over_year":
        return say("compost.finding_over_year", most=year)
    if found.verdict == "too_deep":
        return say("compost.finding_too_deep", most=most, year=year)
    volume = bag_size(session, found.volume_m3, 2)
    return say(f"compost.finding_{found.verdict}", volume=volume, bed=bed.name, count=count)


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    """Tell why, what to do in its place, and that the nitrogen is a wide guess."""
    found, seen = _compost(session, values), phosphorus_found()
    limit = session.voice.number(seen.very_high_ppm, 0)
    low, high = (session.voice.number(ppm, 0) for ppm in (seen.found_ppm.low, seen.found_ppm.high))
    told = [Said("compost.why", {"gardens": seen.gardens, "low": low, "high": high, "limit": limit})]
    left_out = found.verdict in WITHOUT_VOLUME
    told.append(Said("compost.mulch" if left_out else "compost.wide"))
    told += stands_in(session)
    # Where no nitrogen is shown, nothing is said of how it was reckoned.
    return [*told, *(said for said in found.assumptions if not (left_out and said.key == "compost.weight_unchecked"))]


def _truth(session: Session) -> Said:
    found = phosphorus_found()
    return Said("compost.truth", {"over": found.over, "gardens": found.gardens})


_COMPOST = Spec(
    ID,
    Said("compost.panel_title"),
    _controls,
    view,
    guess=Guess(
        "02.compost.guess",
        lambda session: Said("compost.question", {"gardens": phosphorus_found().gardens}),
        lambda session: [
            ("few", Said("compost.option_few")),
            ("half", Said("compost.option_half")),
            ("all", Said("compost.option_all")),
        ],
        _truth,
    ),
    intro=Said("compost.panel_title"),
    caution=Said("compost.caution"),
    working=_compost,
    notes=_notes,
)
