"""Page 02: the check questions on lime."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gardenlib.panels.check import Check, Reply
from gardenlib.panels.soil.lime_bed import M2
from gardenlib.soil import lab_rate_kg_m2, lime_for_bed, lime_rate
from gardenlib.units import Quantity, Range
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

RATE = {"us": Quantity(80, "lb_1000_sq_ft"), "metric": Quantity(0.4, "kg_m2")}
BED = {"us": 100, "metric": 10}
LIKELY_SLIP = {"us": 1000, "metric": 1}
"""The area of the lab's rate taken for that of the bed."""
CCE = 0.8


def _lime(units: str, area: float, cce: float) -> Range:
    lab_rate = lab_rate_kg_m2(RATE[units].value, RATE[units].unit)
    rate = lime_rate("lab_rate", water_ph=5.6, target_ph=6.5, lab_rate=lab_rate)
    bed = lime_for_bed(rate, area * M2[units], cce_fraction=cce)
    return Range(bed.low_kg, bed.high_kg, "kg")


def _bag_question(session: Session) -> Said:
    units = session.voice.units
    return Said("lime.check1_question", {"rate": RATE[units], "area": Quantity(BED[units] * M2[units], "m2")})


def _bag_replies(session: Session) -> list[Reply]:
    units = session.voice.units
    weights = {
        "area": _lime(units, LIKELY_SLIP[units], CCE),
        "bag": _lime(units, BED[units], 1.0),
        "right": _lime(units, BED[units], CCE),
    }
    said = {name: Said("lime.check1_weight", {"weight": weight}) for name, weight in weights.items()}
    return [
        Reply("buffer", Said("lime.check1_none"), False, Said("lime.check1_none_reply")),
        Reply("bag", said["bag"], False, Said("lime.check1_bag_reply")),
        Reply("right", said["right"], True, Said("lime.check1_right_reply")),
        Reply("area", said["area"], False, Said(f"lime.check1_area_reply_{units}")),
    ]


BAG = Check("02.lime.check1", _bag_question, _bag_replies)


def _steps_replies(session: Session) -> list[Reply]:
    return [
        Reply("little", Said("lime.check2_little"), False, Said("lime.check2_little_reply")),
        Reply("one", Said("lime.check2_one"), False, Said("lime.check2_one_reply")),
        Reply("ten", Said("lime.check2_ten"), True, Said("lime.check2_ten_reply")),
    ]


STEPS = Check("02.lime.check2", lambda session: Said("lime.check2_question"), _steps_replies)
