"""Page 03: what fits in a bed, an inch of water, the hose, the drip line, pots, and lines for the string."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from gardenlib.beds import bed_count, drip_minutes, has_spacing, pot_volume, slips, watering
from gardenlib.beds.can_and_hose import DRIP_SAID, depth_litres
from gardenlib.beds.distances import crop_spacing
from gardenlib.beds.foreseen import PATH_M, inch_slips
from gardenlib.beds.line_order import half, mean
from gardenlib.homework.bank.by_hand import (
    area_step,
    as_printed,
    in_class,
    sides,
    spacing_cm,
    told_apart,
    with_steps,
)
from gardenlib.homework.bank.choose import drawn_answer
from gardenlib.homework.skill import Skill, Slip, Task
from gardenlib.problems import InputProblem
from gardenlib.soil import bags_for
from gardenlib.units import LITRES_PER_GALLON, M_PER_FOOT, MM_PER_INCH, Quantity, in_system
from gardenlib.words import Said
from gardenlib.working import COMMON_PRACTICE, Answer, Step

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gardenlib.beds import BedCount
    from gardenlib.homework.ground import Ground
    from gardenlib.tables import Crop

CANS = {"us": (2.0, 2.5), "metric": (8.0, 10.0)}
BUCKETS = {"us": (2.0, 5.0), "metric": (10.0, 12.0)}
BUCKET_SECONDS = (30, 40, 60, 75, 120)
HOSE_WATER = {"us": (20.0, 30.0, 40.0, 60.0), "metric": (90.0, 120.0, 150.0, 180.0)}
WATER = {"us": (0.5, 1.0), "metric": (12.0, 25.0)}
DRIP_WIDTHS = {"us": (2.0, 2.5, 3.0), "metric": (0.6, 0.8, 1.0)}
DRAWN = 150
"""Plants that a learner can still draw into the plan."""
POT_SIZES = (3, 5, 7, 10)
POTS = (3, 4, 6, 8)
MIX_LITRES = {"us": (8 * LITRES_PER_GALLON, 16 * LITRES_PER_GALLON), "metric": (40.0, 50.0)}


# ---- plants in squares -----------------------------------------------------------------------------


def _fit(ground: Ground) -> Task:
    voice, (length_m, width_m) = ground.voice, sides(ground)
    spaced = [crop for crop in ground.crops if has_spacing(crop)]
    try:
        crop, (spacing, found) = drawn_answer(ground, "fit", spaced, lambda crop: _count(ground, crop, DRAWN))
    except InputProblem:
        crop, (spacing, found) = drawn_answer(ground, "fit", spaced, lambda crop: _count(ground, crop))
    out = slips(length_m, width_m, spacing / 100, system=voice.units)
    foreseen = (
        Slip("not_squared", out.not_squared, Said("fit.check_not_squared"), "03.count"),
        Slip("no_margin", out.no_margin, Said("fit.check_no_margin"), "03.count"),
        Slip("units_mixed", int(out.units_mixed) or None, Said(f"fit.check_units_{voice.units}"), "03.count"),
    )
    bed = {
        "crop": crop.name,
        "spacing": Quantity(spacing, "cm"),
        "margin": Quantity(spacing / 2, "cm"),
        "length": Quantity(length_m, "m"),
        "width": Quantity(width_m, "m"),
    }
    return Task(
        ask=Said("homework_beds.fit_ask", bed),
        answer=found,
        steps=found.steps,
        slips=told_apart(found.steps, foreseen, voice),
        drawing=lambda: _plan(ground, length_m, width_m, spacing / 100),
        alt=Said("homework_beds.fit_alt", {name: bed[name] for name in ("length", "width", "spacing")}),
    )


def _count(ground: Ground, crop: Crop, most: float = math.inf) -> tuple[float, BedCount] | None:
    """Count a crop at its closest; one row or less asks for too little, more than `most` plants for too much."""
    length_m, width_m = sides(ground)
    spacing = spacing_cm(crop_spacing(crop).pick("closest", "square")[0], ground.voice)
    found = bed_count(length_m, width_m, spacing / 100, pattern="square")
    return (spacing, found) if found.lines > 1 and found.lines < found.plants <= most else None


def _plan(ground: Ground, length_m: float, width_m: float, spacing_m: float) -> str:
    """Draw the bed to scale with its first plant; the reader draws the others."""
    import pandas as pd

    from gardenlib import charts
    from gardenlib.charts.bed_plan import bed_plan

    first = pd.DataFrame([{"x_m": spacing_m / 2, "y_m": spacing_m / 2, "spread_m": spacing_m, "letter": ""}])
    return charts.svg(bed_plan(length_m, width_m, first, voice=ground.voice))


# ---- an inch of water ------------------------------------------------------------------------------


def _inch(ground: Ground) -> Task:
    voice, (length_m, width_m) = ground.voice, sides(ground)
    out, area = inch_slips(length_m, width_m, system=voice.units), area_step(length_m, width_m)
    can = ground.draw("inch.can", CANS[voice.units]) * in_class(voice, LITRES_PER_GALLON, 1.0)
    found = watering(out.right, can_litres=can)
    litres, can_said = Quantity(out.right, "litres"), Quantity(can, "litres")
    steps = (
        area,
        Step(
            "homework_beds.inch",
            in_class(voice, "area * 0.623", "area * 25.4"),
            {"area": area.result},
            litres,
            COMMON_PRACTICE,
        ),
        *(step for step in found.steps if step.key == "water.cans"),
    )

    around = Said("homework_beds.slip_with_path", {"path": Quantity(PATH_M, "m")})
    length_alone = depth_litres(MM_PER_INCH, length_m * in_class(voice, M_PER_FOOT, 1.0))
    foreseen = (
        Slip("with_path", round(out.with_path / can, 1), around, "03.water"),
        Slip("units_mixed", round(out.units_mixed / can, 1), Said("homework_beds.slip_units_mixed"), "03.hose"),
        Slip("length_for_area", round(length_alone / can, 1), Said("homework_beds.slip_length_for_area"), "03.water"),
        Slip("with_path_water", Quantity(out.with_path, "litres"), around, "03.water", 1),
    )
    return Task(
        ask=Said(
            "homework_beds.inch_ask_us" if voice.units == "us" else "homework_beds.inch_ask_metric",
            {"can": can_said, "length": Quantity(length_m, "m"), "width": Quantity(width_m, "m")},
        ),
        answer=with_steps(found, steps),
        steps=steps,
        slips=told_apart(steps, foreseen, voice),
    )


# ---- the hose --------------------------------------------------------------------------------------


def _hose(ground: Ground) -> Task:
    voice = ground.voice
    bucket = ground.draw("hose.bucket", BUCKETS[voice.units]) * in_class(voice, LITRES_PER_GALLON, 1.0)
    seconds = ground.draw("hose.seconds", BUCKET_SECONDS)
    water = ground.draw("hose.water", HOSE_WATER[voice.units]) * in_class(voice, LITRES_PER_GALLON, 1.0)
    found = watering(water, bucket_litres=bucket, bucket_seconds=seconds)
    flow, minutes = (next(step for step in found.steps if step.key == key) for key in ("water.flow", "water.minutes"))
    runs = Quantity(found.hose_minutes, "minutes")
    minutes = replace(minutes, inputs={**minutes.inputs, "flow": flow.result}, result=runs)
    steps = (flow, minutes)
    filled = watering(water, bucket_litres=bucket, bucket_seconds=60)
    in_a_minute = Quantity(round(filled.hose_minutes, 1), "minutes")
    in_seconds = Quantity(round(found.hose_minutes * 60, 1), "minutes")
    turned = Quantity(round(found.litres_minute / water, 2), "minutes")
    foreseen = (
        Slip("seconds_forgotten", in_a_minute, Said("homework_beds.slip_seconds_forgotten"), "03.hose"),
        Slip("in_seconds", in_seconds, Said("homework_beds.slip_in_seconds"), "03.hose"),
        Slip("upside_down", turned, Said("homework_beds.slip_upside_down"), "03.hose"),
    )
    return Task(
        ask=Said(
            "homework_beds.hose_ask",
            {"bucket": Quantity(bucket, "litres"), "seconds": seconds, "water": Quantity(water, "litres")},
        ),
        answer=with_steps(found, steps),
        steps=steps,
        slips=told_apart(steps, foreseen, voice),
    )


# ---- the drip line ---------------------------------------------------------------------------------


def _drip(ground: Ground) -> Task:
    voice = ground.voice
    depth_mm = ground.draw("drip.depth", WATER[voice.units]) * in_class(voice, MM_PER_INCH, 1.0)
    width_m = ground.draw("drip.width", DRIP_WIDTHS[voice.units]) * in_class(voice, M_PER_FOOT, 1.0)
    an_hour, line_m = DRIP_SAID[voice.units]
    # As it is printed, so that the reader divides by the same number.
    an_hour = as_printed(an_hour, "litres", voice)
    minutes = drip_minutes(depth_mm, width_m, an_hour / line_m)
    line, flow = Quantity(line_m, "m"), Quantity(an_hour, "litres")
    width, depth = Quantity(width_m, "m"), Quantity(depth_mm, "mm")
    area_m2 = width_m * line_m
    water = Quantity(depth_litres(depth_mm, area_m2), "litres")
    steps = (
        Step(
            "homework_beds.strip",
            "line * width",
            {"line": line, "width": width},
            Quantity(area_m2, "m2"),
            COMMON_PRACTICE,
        ),
        Step(
            "homework_beds.strip_water",
            in_class(voice, "area * depth * 0.623", "area * depth"),
            {"area": Quantity(area_m2, "m2"), "depth": depth},
            water,
            "psu_drip",
        ),
        Step(
            "homework_beds.drip_minutes",
            "water / flow * 60",
            {"water": water, "flow": flow},
            Quantity(minutes, "minutes"),
            "psu_drip",
        ),
    )
    foreseen = (
        Slip("hours_kept", Quantity(minutes / 60, "minutes"), Said("homework_beds.slip_hours_kept"), "03.water"),
        Slip(
            "width_forgotten",
            Quantity(drip_minutes(depth_mm, in_class(voice, M_PER_FOOT, 1.0), an_hour / line_m), "minutes"),
            Said("homework_beds.slip_width_forgotten"),
            "03.water",
        ),
        Slip(
            "depth_forgotten",
            Quantity(drip_minutes(in_class(voice, MM_PER_INCH, 1.0), width_m, an_hour / line_m), "minutes"),
            Said("homework_beds.slip_depth_forgotten"),
            "03.water",
        ),
    )
    drip_ask = in_class(voice, "homework_beds.drip_ask_us", "homework_beds.drip_ask_metric")
    return Task(
        ask=Said(drip_ask, {"line": line, "flow": flow, "width": width, "depth": depth}),
        answer=Answer(steps=steps, sources=(COMMON_PRACTICE, "psu_drip")),
        steps=steps,
        slips=told_apart(steps, foreseen, voice),
    )


# ---- pots ------------------------------------------------------------------------------------------


def _pots(ground: Ground) -> Task:
    voice, size, pots = ground.voice, ground.draw("pots.size", POT_SIZES), ground.draw("pots.pots", POTS)
    held = as_printed(pot_volume(size).high, "litres", voice)
    bag = ground.draw("pots.bag", MIX_LITRES[voice.units])
    all_litres = pots * held

    def bags(litres: float) -> int:
        return bags_for(litres / 1000, bag)

    held_said, bag_said, all_said = (Quantity(litres, "litres") for litres in (held, bag, all_litres))
    steps = (
        Step("homework_beds.all_pots", "pots * pot", {"pots": pots, "pot": held_said}, all_said, "pot_maker_lists"),
        Step(
            "mixes.bags", "mix / bag, rounded up", {"mix": all_said, "bag": bag_said}, bags(all_litres), COMMON_PRACTICE
        ),
    )
    label = pots * size * LITRES_PER_GALLON
    foreseen = (
        Slip("label_taken", bags(label), Said("homework_beds.slip_label_taken"), "03.pots"),
        Slip("label_volume", Quantity(label, "litres"), Said("homework_beds.slip_label_taken"), "03.pots", 0),
        Slip("rounded_down", int(all_litres / bag), Said("homework_beds.slip_rounded_down"), "03.pots"),
        Slip("one_pot", bags(held), Said("homework_beds.slip_one_pot"), "03.pots"),
    )
    return Task(
        ask=Said("homework_beds.pots_ask", {"pots": pots, "size": size, "held": held_said, "bag": bag_said}),
        answer=Answer(steps=steps, sources=("pot_maker_lists", COMMON_PRACTICE)),
        steps=steps,
        slips=told_apart(steps, foreseen, voice),
    )


# ---- lines -----------------------------------------------------------------------------------------


def _lines(ground: Ground) -> Task:
    voice = ground.voice
    unit_cm = in_class(voice, MM_PER_INCH / 10, 1.0)
    apart = [(crop, _whole(ground, crop)) for crop in ground.crops if has_spacing(crop)]
    pairs = [(one, other) for one in apart for other in apart if one[1] > other[1]]
    if not pairs:
        raise InputProblem("homework_beds.no_pair")
    (one, wide), (other, narrow) = ground.draw("lines", pairs)

    def size(units: int) -> Quantity:
        return Quantity(units * unit_cm, "cm")

    edge, between = half(wide), mean(wide, narrow)
    steps = (
        Step("lines.edge", "spacing / 2, rounded up", {"spacing": size(wide)}, size(edge), COMMON_PRACTICE),
        Step(
            "lines.between",
            "(first + second) / 2, rounded up",
            {"first": size(wide), "second": size(narrow)},
            size(between),
            COMMON_PRACTICE,
        ),
        Step(
            "homework_beds.second_line",
            "edge + between",
            {"edge": size(edge), "between": size(between)},
            size(edge + between),
            COMMON_PRACTICE,
        ),
    )
    foreseen = (
        Slip("from_the_line", size(between), Said("homework_beds.slip_from_the_line"), "03.lines"),
        Slip("added", size(edge + wide + narrow), Said("homework_beds.slip_added"), "03.lines"),
        Slip("wider_taken", size(edge + wide), Said("homework_beds.slip_wider_taken"), "03.lines"),
        Slip("edge_full", size(wide + between), Said("homework_beds.slip_edge_full"), "03.lines"),
    )
    return Task(
        ask=Said(
            "homework_beds.lines_ask",
            {"first": one.name, "second": other.name, "wide": size(wide), "narrow": size(narrow)},
        ),
        answer=Answer(steps=steps, sources=(COMMON_PRACTICE,)),
        steps=steps,
        slips=told_apart(steps, foreseen, voice),
    )


def _whole(ground: Ground, crop: Crop) -> int:
    """Give a crop's closest distance in whole inches or centimetres, rounded away from crowding."""
    shown, _ = in_system(crop_spacing(crop).pick("closest", "square")[0] * 100, "cm", ground.voice.units)
    return math.ceil(shown - 1e-6)


SKILLS: Sequence[Skill] = (
    Skill("03.fit", "03_beds", Said("homework_beds.fit_title"), "03.count", _fit),
    Skill("03.inch", "03_beds", Said("homework_beds.inch_title"), "03.water", _inch),
    Skill("03.hose", "03_beds", Said("homework_beds.hose_title"), "03.hose", _hose),
    Skill("03.drip", "03_beds", Said("homework_beds.drip_title"), "03.water", _drip),
    Skill("03.pots", "03_beds", Said("homework_beds.pots_title"), "03.pots", _pots),
    Skill("03.lines", "03_beds", Said("homework_beds.lines_title"), "03.lines", _lines),
)
