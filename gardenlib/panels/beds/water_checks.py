"""The checks of the fold on water."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gardenlib.beds import water_need
from gardenlib.beds.foreseen import inch_slips
from gardenlib.panels.bed_of import bed_here
from gardenlib.panels.beds.hose import said_depth
from gardenlib.panels.check import Check, Reply
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

COOL_MM, HOT_MM = 3.0, 5.0


def _inch_replies(session: Session) -> list[Reply]:
    cool, hot = (water_need("broccoli", 1, et).use_mm_week or 0 for et in (COOL_MM, HOT_MM))
    depths = {"cool": cool, "hot": hot, "cool_et": COOL_MM, "hot_et": HOT_MM}
    said = {name: said_depth(session, depth_mm) for name, depth_mm in depths.items()}
    return [
        Reply("always", Said("water.check1_always"), False, Said("water.check1_always_reply")),
        Reply("depends", Said("water.check1_depends"), True, Said("water.check1_depends_reply", said)),
        Reply("never", Said("water.check1_never"), False, Said("water.check1_never_reply")),
    ]


def _plastic_replies(session: Session) -> list[Reply]:
    return [
        Reply("all", Said("water.check2_all"), False, Said("water.check2_all_reply")),
        Reply("half", Said("water.check2_half"), False, Said("water.check2_half_reply")),
        Reply("none", Said("water.check2_none"), True, Said("water.check2_none_reply")),
    ]


def _area_question(session: Session) -> Said:
    bed = bed_here(session)
    said = {"name": bed.name, "length": Quantity(bed.length_m, "m"), "width": Quantity(bed.width_m, "m")}
    return Said("water.check3_question", said)


def _area_replies(session: Session) -> list[Reply]:
    bed, voice = bed_here(session), session.voice
    found = inch_slips(bed.length_m, bed.width_m, system=voice.units)
    litres = (found.right, found.with_path, found.units_mixed)
    shown = [{"water": voice.quantity(Quantity(x, "litres"), 0)} for x in litres]
    return [
        Reply("plot", Said("water.check3_plot", shown[1]), False, Said("water.check3_plot_reply")),
        Reply("right", Said("water.check3_right", shown[0]), True, Said("water.check3_right_reply")),
        Reply("units", Said("water.check3_units", shown[2]), False, Said("water.check3_units_reply")),
    ]


CHECKS = (
    Check("03.water.check1", lambda session: Said("water.check1_question"), _inch_replies),
    Check("03.water.check2", lambda session: Said("water.check2_question"), _plastic_replies),
    Check("03.water.check3", _area_question, _area_replies),
)
