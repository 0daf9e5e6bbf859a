"""Page 02, the fold on filling a raised bed: volume, parts and bags."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import bed_here, stands_in
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.panels.soil.loads import BAGS, bag_options, bag_size
from gardenlib.soil import BedMix, bed_mix
from gardenlib.soil.mixes import LITRES_M3
from gardenlib.units import M_PER_FOOT, MM_PER_INCH, Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "02.mixes"
DEPTHS_M = {
    "us": tuple(inches * MM_PER_INCH / 1000 for inches in (6, 8, 10, 12, 18, 24)),
    "metric": (0.15, 0.2, 0.25, 0.3, 0.45, 0.6),
}
USUAL_M = {units: depths[3] for units, depths in DEPTHS_M.items()}
SAME_M = 0.002
"""Depths that are closer than this read the same."""
GUESSED = {"us": (8 * M_PER_FOOT, 4 * M_PER_FOOT, M_PER_FOOT), "metric": (2.0, 1.0, 0.3)}
CHECKED = {"us": (8 * M_PER_FOOT, 4 * M_PER_FOOT, M_PER_FOOT / 2), "metric": (2.0, 1.0, 0.2)}
SMALL_IN_ONE = {"us": 12, "metric": 100}
"""Inches in a foot, centimetres in a metre: how far off the depth is in the wrong unit."""


def fold(session: Session) -> w.Widget:
    """Offer what fills a raised bed."""
    return more(session, Said("mixes.title"), 5, _FILL, _UNIT)


def _own_depth(session: Session) -> float | None:
    """Take the depth of the learner's first measured bed."""
    return next((bed.depth_m for bed in session.plot.beds if bed.length_m and bed.width_m), None)


def _controls(session: Session) -> dict[str, w.Widget]:
    voice, units = session.voice, session.voice.units
    offered, own = DEPTHS_M[units], _own_depth(session)
    if own is not None:
        offered = tuple(sorted({own, *(depth for depth in offered if abs(depth - own) > SAME_M)}))
    depths = [(voice.quantity(Quantity(depth * 100, "cm"), 1), depth) for depth in offered]
    bags = bag_options(session)
    return {
        f"depth_{units}": c.choice(voice.say("mixes.depth"), depths, USUAL_M[units] if own is None else own),
        f"bag_{units}": c.choice(voice.say("mixes.vessel"), bags, bags[0][1]),
    }


def _mix(session: Session, values: Mapping[str, Any]) -> BedMix:
    bed, units = bed_here(session), session.voice.units
    return bed_mix(bed.length_m, bed.width_m, values[f"depth_{units}"], bag_litres=values[f"bag_{units}"])


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show the space in the bed, its two parts and the bags."""
    voice, say, mix = session.voice, session.voice.say, _mix(session, values)
    depth = voice.quantity(Quantity(values[f"depth_{voice.units}"] * 100, "cm"), 1)
    volume = voice.quantity(Quantity(mix.volume_m3, "m3"), 2)
    finding = say("mixes.finding", bed=bed_here(session).name, depth=depth, volume=volume, n=mix.bags)
    rows = [
        (say("mixes.row_volume"), volume),
        (say("mixes.row_compost"), voice.range(mix.compost_m3, 2)),
        (say("mixes.row_soil"), voice.range(mix.soil_m3, 2)),
        (say("mixes.row_settling"), voice.range(mix.with_settling_m3, 2)),
        (say("mixes.row_bags"), str(mix.bags)),
    ]
    table = pd.DataFrame(rows, columns=[say("mixes.column_what"), say("mixes.column_much")])
    return charts.View(finding, table, None, say("mixes.alt"))


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    return [Said("mixes.parts"), *stands_in(session), *_mix(session, values).assumptions]


# ---- the guess and the check -----------------------------------------------------------------------


def _sides(session: Session, sides: tuple[float, float, float]) -> dict[str, str]:
    length, width, depth = sides
    quantity = session.voice.quantity
    return {
        "length": quantity(Quantity(length, "m")),
        "width": quantity(Quantity(width, "m")),
        "depth": quantity(Quantity(depth * 100, "cm"), 0),
    }


def _guessed(session: Session) -> BedMix:
    units = session.voice.units
    return bed_mix(*GUESSED[units], bag_litres=BAGS[units][0])


def _question(session: Session) -> Said:
    units = session.voice.units
    bag = bag_size(session, BAGS[units][0] / LITRES_M3)
    return Said("mixes.question", {**_sides(session, GUESSED[units]), "bag": bag})


def _options(session: Session) -> list[tuple[str, Said]]:
    bags = _guessed(session).bags
    offered = {"few": bags // 4, "half": bags // 2, "all": bags}
    return [(name, Said("mixes.option", {"n": n})) for name, n in offered.items()]


def _truth(session: Session) -> Said:
    mix = _guessed(session)
    return Said("mixes.truth", {"n": mix.bags, "volume": Quantity(mix.volume_m3, "m3")})


_FILL = Spec(
    ID,
    Said("mixes.panel_title"),
    _controls,
    view,
    guess=Guess("02.mixes.guess", _question, _options, _truth),
    intro=Said("mixes.panel_title"),
    caution=Said("mixes.caution"),
    working=_mix,
    notes=_notes,
)


def _replies(session: Session) -> list[Reply]:
    units = session.voice.units
    length, width, depth = CHECKED[units]
    right = bed_mix(length, width, depth).volume_m3
    one = M_PER_FOOT if units == "us" else 1.0
    volumes = {"right": right, "unit": right * SMALL_IN_ONE[units], "flat": bed_mix(length, width, one).volume_m3}
    words = {name: Said("mixes.check_volume", {"volume": Quantity(x, "m3")}) for name, x in volumes.items()}
    return [
        Reply("unit", words["unit"], False, Said("mixes.check_unit_reply")),
        Reply("right", words["right"], True, Said("mixes.check_right_reply")),
        Reply("flat", words["flat"], False, Said("mixes.check_flat_reply")),
    ]


_UNIT = Check(
    "02.mixes.check1",
    lambda session: Said("mixes.check_question", _sides(session, CHECKED[session.voice.units])),
    _replies,
)
