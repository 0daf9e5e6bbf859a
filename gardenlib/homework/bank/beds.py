"""Page 03: what fits in a bed."""

from __future__ import annotations

from gardenlib.beds import bed_count, has_spacing, slips
from gardenlib.beds.distances import crop_spacing
from gardenlib.homework.ground import Ground
from gardenlib.homework.skill import Skill, Slip, Task
from gardenlib.problems import InputProblem
from gardenlib.units import Quantity
from gardenlib.words import Said


def _fit(ground: Ground) -> Task:
    crops = [crop for crop in ground.crops if has_spacing(crop)]
    if not crops or ground.bed.length_m is None or ground.bed.width_m is None:
        raise InputProblem("homework.no_bed")
    crop = ground.draw("fit", crops)
    spacing_m, _ = crop_spacing(crop).pick("closest", "square")
    length_m, width_m = ground.bed.length_m, ground.bed.width_m
    found = bed_count(length_m, width_m, spacing_m, pattern="square")
    out = slips(length_m, width_m, spacing_m, system=ground.voice.units)
    return Task(
        ask=Said(
            "homework.fit.ask",
            {
                "crop": crop.name,
                "spacing": Quantity(spacing_m * 100, "cm"),
                "length": Quantity(length_m, "m"),
                "width": Quantity(width_m, "m"),
            },
        ),
        answer=found,
        steps=found.steps,
        slips=(
            Slip("not_squared", out.not_squared, Said("fit.check_not_squared"), "03.count"),
            Slip("no_margin", out.no_margin, Said("fit.check_no_margin"), "03.count"),
        ),
    )


SKILLS = (Skill("03.fit", "03_beds", Said("homework.fit.title"), "03.count", _fit),)
