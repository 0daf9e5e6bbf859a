"""Page 03, the fold on what to get for the bed in lines."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import beds, charts
from gardenlib.beds import ToGet
from gardenlib.panels import controls as c
from gardenlib.panels.beds.line_bed import answer
from gardenlib.panels.beds.lines import ID
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.units import MM_PER_INCH, Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

DEPTHS_CM = {"us": (MM_PER_INCH / 5, 3 * MM_PER_INCH / 10, 4 * MM_PER_INCH / 10), "metric": (5.0, 8.0, 10.0)}


def fold(session: Session) -> w.Widget:
    """Offer what to get for the bed in lines."""
    return more(session, Said("lines.get_title"), 3, _SPEC)


def _controls(session: Session) -> dict[str, w.Widget]:
    depths = DEPTHS_CM[session.voice.units]
    options = [(session.voice.quantity(Quantity(depth, "cm")), place) for place, depth in enumerate(depths)]
    return {"depth": c.choice(session.voice.say("lines.get_mulch"), options, 0)}


def _answer(session: Session, values: Mapping[str, Any]) -> ToGet:
    chosen = {"which": "closest", **session.kept(ID)}
    depth_cm = DEPTHS_CM[session.voice.units][values["depth"]]
    return beds.to_get(answer(session, chosen), mulch_depth_m=depth_cm / 100)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """List the quantities."""
    say, voice, found = session.voice.say, session.voice, _answer(session, values)
    bed = answer(session, {"which": "closest", **session.kept(ID)})
    mulch, drip = Quantity(found.mulch_m3, "m3"), Quantity(found.drip_m, "m")
    rows = [
        (say("lines.get_plants", n=plants, crop=session.crop_name(crop)), _seeds(session, found.seeds[crop]))
        for crop, plants in found.plants.items()
    ]
    rows += [(say("lines.get_row_mulch"), voice.quantity(mulch, 2)), (say("lines.get_row_drip"), voice.quantity(drip))]
    if found.stakes:
        rows.append((say("lines.get_row_stakes"), str(found.stakes)))
    if found.trellis_m:
        rows.append((say("lines.get_row_trellis"), voice.quantity(Quantity(found.trellis_m, "m"))))
    table = pd.DataFrame(rows, columns=[say("lines.get_column_what"), say("lines.get_column_much")])
    on = Said("lines.on", {"n": len(bed.lines)})
    finding = say(
        "lines.get_finding", n=bed.placed, lines=on, mulch=voice.quantity(mulch, 2), drip=voice.quantity(drip)
    )
    return charts.View(finding, table, None, finding)


def _seeds(session: Session, seeds: int | None) -> str:
    return session.voice.say("lines.get_no_seeds") if seeds is None else session.voice.say("lines.get_seeds", n=seeds)


_SPEC = Spec(
    "03.to_get",
    Said("lines.get_title"),
    _controls,
    view,
    working=_answer,
    notes=lambda session, values: [Said("lines.get_seeds_note"), Said("lines.get_practice")],
)
