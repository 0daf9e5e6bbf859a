"""Page 02: a jar's percents and class, lime, fertilizer and what it brings, compost."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from gardenlib.homework.bank.by_hand import area_step, in_class, sides, sources_of, told_apart, with_steps
from gardenlib.homework.skill import Skill, Slip, Task
from gardenlib.soil import (
    bags_for,
    compost_for_bed,
    feeding_need,
    fertilizer_for_bed,
    jar_percents,
    jar_texture,
    lab_rate_kg_m2,
    label_numbers,
    lime_for_bed,
    lime_rate,
    texture_class,
)
from gardenlib.tables.loader import rows
from gardenlib.units import KG_PER_POUND, M_PER_FOOT, MM_PER_INCH, Quantity
from gardenlib.words import Said
from gardenlib.working import COMMON_PRACTICE, Answer, Step

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gardenlib.homework.ground import Ground

JARS = ((60, 25, 15), (65, 20, 15), (40, 40, 20), (45, 35, 20), (25, 55, 20), (20, 60, 20), (35, 30, 35), (30, 40, 30))
"""Sand, silt and clay, percent, each well inside one of four classes."""
JAR_MM = {"us": 4 * MM_PER_INCH, "metric": 100.0}
LAB_RATES = {"us": (20, 25, 30, 40), "metric": (100, 120, 150, 200)}
CCES = (80, 90)
LABELS = ("10-10-10", "5-10-10", "5-5-5", "8-8-8", "10-5-10")
BROUGHT = ("5-10-10", "10-5-10", "10-6-4", "5-10-5")
SPREAD = {"us": (10, 20, 40), "metric": (0.5, 1, 2, 2.5)}
DEPTHS = {"us": (0.5, 1.0), "metric": (1.0, 2.0, 2.5)}
BAGS = {"us": (1.0, 1.5, 2.0), "metric": (20.0, 40.0, 50.0)}
CU_FT_LITRES = 1000 * M_PER_FOOT**3


# ---- a jar -----------------------------------------------------------------------------------------


def _jar(ground: Ground) -> Task:
    sand, silt, clay = ground.draw("jar", JARS)
    unit_mm = JAR_MM[ground.voice.units] / 100
    marks = (sand * unit_mm, (sand + silt) * unit_mm, (sand + silt + clay) * unit_mm)
    found = jar_texture(marks, given="marks")
    steps = tuple(step for step in found.steps if not step.key.startswith("texture.to_100"))
    steps = (*steps[:-1], replace(steps[-1], expression="class whose rule fits all three"))
    as_layers = jar_texture(marks, given="layers")
    _, wrong_silt, wrong_clay = jar_percents(marks, given="layers")
    slips = (
        Slip("marks_as_layers", as_layers.texture, Said("homework_soil.slip_marks"), "02.jar"),
        Slip("swapped", texture_class(sand, clay, silt), Said("homework_soil.slip_swapped"), "02.jar"),
        Slip("upside_down", texture_class(clay, silt, sand), Said("homework_soil.slip_upside_down"), "02.jar"),
        Slip("silt_mark", Quantity(wrong_silt, "percent"), Said("homework_soil.slip_marks"), "02.jar", 3),
        Slip("clay_mark", Quantity(wrong_clay, "percent"), Said("homework_soil.slip_marks"), "02.jar", 4),
    )
    names = ("sand", "silt", "clay")
    return Task(
        ask=Said(
            "homework_soil.jar_ask", {name: Quantity(mark, "mm") for name, mark in zip(names, marks, strict=True)}
        ),
        answer=with_steps(found, steps),
        steps=steps,
        slips=told_apart(steps, slips, ground.voice),
    )


# ---- weights -------------------------------------------------------------------------------------


class _Scale(NamedTuple):
    """How a class weighs what it spreads: its unit, the unit of a rate, and how a rate is taken for a bed."""

    unit: str
    rate_unit: str
    expression: str

    def weight(self, kg: float) -> Quantity:
        """Write a weight, pounds from kilograms or grams."""
        return Quantity(kg, "kg") if self.unit == "kg" else Quantity(kg * 1000, "g")


def _scale(ground: Ground) -> _Scale:
    return in_class(
        ground.voice,
        _Scale("kg", "lb_1000_sq_ft", "rate * area / 1000"),
        _Scale("g", "g_m2", "rate * area"),
    )


# ---- lime ------------------------------------------------------------------------------------------


def _lime(ground: Ground) -> Task:
    voice, (length_m, width_m), scale = ground.voice, sides(ground), _scale(ground)
    area_m2 = length_m * width_m
    number, cce = ground.draw("lime.rate", LAB_RATES[voice.units]), ground.draw("lime.cce", CCES)
    asked = in_class(voice, lab_rate_kg_m2(float(number), "lb_1000_sq_ft"), number / 1000)
    lab = lime_rate("lab_rate", water_ph=5.6, target_ph=6.5, lab_rate=asked)

    def bag(area: float, share: float) -> Quantity:
        return scale.weight(lime_for_bed(lab, area, cce_fraction=share).high_kg)

    found = lime_for_bed(lab, area_m2, cce_fraction=cce / 100)
    rate = Quantity(number, scale.rate_unit)
    area, of_bag = area_step(length_m, width_m), Quantity(number / cce * 100, scale.rate_unit)
    steps = (
        area,
        Step(
            "lime.bag",
            "rate / CCE * 100",
            {"rate": rate, "CCE": Quantity(cce, "percent")},
            of_bag,
            "psu_home_garden",
        ),
        Step(
            "homework_soil.for_bed",
            scale.expression,
            {"rate": of_bag, "area": area.result},
            bag(area_m2, cce / 100),
            COMMON_PRACTICE,
        ),
    )
    weaker, pure = number * cce / 100, bag(area_m2, 1.0)
    slips = (
        Slip("bag_taken_as_pure", pure, Said("homework_soil.slip_bag_pure"), "02.lime"),
        Slip("times_cce", replace(pure, value=pure.value * cce / 100), Said("homework_soil.slip_times_cce"), "02.lime"),
        Slip("times_cce_rate", Quantity(weaker, scale.rate_unit), Said("homework_soil.slip_times_cce"), "02.lime", 1),
        Slip(
            "length_for_area",
            bag(length_m * in_class(voice, M_PER_FOOT, 1.0), cce / 100),
            Said("homework_soil.slip_length_for_area"),
            "02.lime",
        ),
        Slip("per_hundred", in_class(voice, bag(area_m2 * 10, cce / 100), None), _per_hundred(), "02.lime"),
    )
    return Task(
        caution=Said("homework_soil.lime_caution"),
        ask=Said("homework_soil.lime_ask", {"rate": rate, "cce": cce, **_bed(length_m, width_m)}),
        # What a class without a laboratory goes by is not asked about.
        answer=replace(found, steps=steps, sources=sources_of(steps)),
        steps=steps,
        slips=told_apart(steps, slips, voice),
    )


def _per_hundred() -> Said:
    return Said("homework_soil.slip_per_hundred")


def _bed(length_m: float, width_m: float) -> dict[str, Quantity]:
    return {"length": Quantity(length_m, "m"), "width": Quantity(width_m, "m")}


# ---- fertilizer ------------------------------------------------------------------------------------


def _bag(ground: Ground) -> Task:
    voice, (length_m, width_m), scale = ground.voice, sides(ground), _scale(ground)
    area = area_step(length_m, width_m)
    area_m2, n_kg_m2 = length_m * width_m, feeding_need("mixed").n_kg_m2.high
    printed = next(row for row in rows("feeding_rates") if row["crop_class"] == "mixed")
    # In grams the rate is read as printed: 12 g on a square metre for 2.5 pounds on 1,000 square feet.
    rate = in_class(voice, Quantity(printed["n_high"], scale.rate_unit), Quantity(round(n_kg_m2 * 1000), "g_m2"))
    rate_kg_m2 = in_class(voice, n_kg_m2, rate.value / 1000)
    label = ground.draw("bag.label", LABELS)
    percents = label_numbers(label)

    def weight(area: float, percent: float) -> float:
        return fertilizer_for_bed(rate_kg_m2, 0, 0, area, label_pct=(percent, 0, 0)).product_kg

    found = fertilizer_for_bed(rate_kg_m2, 0, 0, area_m2, label_pct=percents)
    of_bag = Quantity(rate.value / percents[0] * 100, scale.rate_unit)
    steps = (
        area,
        Step(
            "homework_soil.of_bag",
            "rate / percent * 100",
            {"rate": rate, "percent": Quantity(percents[0], "percent")},
            of_bag,
            "nc_state_lawn_environment",
        ),
        Step(
            "homework_soil.for_bed",
            scale.expression,
            {"rate": of_bag, "area": area.result},
            scale.weight(found.product_kg),
            COMMON_PRACTICE,
        ),
    )
    nitrogen = scale.weight(found.supplied["n"])
    nitrogen_reply = Said("homework_soil.slip_nitrogen_for_bag", {"n": percents[0]})
    slips = (
        Slip("nitrogen_for_bag", nitrogen, nitrogen_reply, "02.feeding"),
        Slip(
            "per_hundred",
            scale.weight(weight(area_m2 * 10, percents[0])) if voice.units == "us" else None,
            _per_hundred(),
            "02.feeding",
        ),
        Slip(
            "other_number",
            scale.weight(weight(area_m2, percents[1])),
            Said("homework_soil.slip_other_number"),
            "02.feeding",
        ),
        Slip(
            "length_for_area",
            scale.weight(weight(length_m * in_class(voice, M_PER_FOOT, 1.0), percents[0])),
            Said("homework_soil.slip_length_for_area"),
            "02.feeding",
        ),
    )
    return Task(
        caution=Said("homework_soil.feeding_caution"),
        ask=Said("homework_soil.bag_ask", {"rate": rate, "label": label, **_bed(length_m, width_m)}),
        answer=with_steps(found, steps),
        steps=steps,
        slips=told_apart(steps, slips, voice),
    )


def _brings(ground: Ground) -> Task:
    scale, label = _scale(ground), ground.draw("brings.label", BROUGHT)
    percents = label_numbers(label)
    bag_kg = ground.draw("brings.bag", SPREAD[ground.voice.units]) * in_class(ground.voice, KG_PER_POUND, 1.0)
    area_m2 = 100.0
    found = fertilizer_for_bed(bag_kg * percents[0] / 100 / area_m2, 0, 0, area_m2, label_pct=percents)
    bag = scale.weight(found.product_kg)
    keys = {"n": "homework_soil.brings_n", "p2o5": "homework_soil.brings_p", "k2o": "homework_soil.brings_k"}
    steps = tuple(
        Step(
            keys[nutrient],
            "bag * percent / 100",
            {"bag": bag, "percent": Quantity(percent, "percent")},
            scale.weight(found.supplied[nutrient]),
            "nc_state_lawn_environment",
        )
        for nutrient, percent in zip(("n", "k2o", "p2o5"), (percents[0], percents[2], percents[1]), strict=True)
    )
    slips = (
        Slip("first_number", steps[0].result, Said("homework_soil.slip_first_number"), "02.feeding"),
        Slip("third_number", steps[1].result, Said("homework_soil.slip_third_number"), "02.feeding"),
        Slip("all_of_it", bag, Said("homework_soil.slip_all_of_it"), "02.feeding"),
        Slip(
            "percent_as_weight",
            Quantity(percents[1] * in_class(ground.voice, KG_PER_POUND, 1.0), scale.unit),
            Said("homework_soil.slip_percent_as_weight"),
            "02.feeding",
        ),
    )
    return Task(
        caution=Said("homework_soil.feeding_caution"),
        ask=Said("homework_soil.brings_ask", {"bag": bag, "label": label}),
        answer=with_steps(found, steps),
        steps=steps,
        slips=told_apart(steps, slips, ground.voice),
    )


# ---- compost ---------------------------------------------------------------------------------------


def _compost(ground: Ground) -> Task:
    voice, (length_m, width_m) = ground.voice, sides(ground)
    area_m2 = length_m * width_m
    depth_m = ground.draw("compost.depth", DEPTHS[voice.units]) * in_class(voice, MM_PER_INCH / 1000, 0.01)
    found = compost_for_bed(area_m2, depth_m)
    area, unit = area_step(length_m, width_m), in_class(voice, "m3", "litres")

    def volume(m3: float) -> Quantity:
        return Quantity(in_class(voice, m3, m3 * 1000), unit)

    bag_litres = _bag_litres(ground, found.volume_m3)
    bag, given = volume(bag_litres / 1000), {"area": area.result, "depth": Quantity(depth_m * 100, "cm")}
    steps = (
        area,
        Step(
            "compost.volume",
            in_class(voice, "area * depth / 12", "area * depth * 10"),
            given,
            volume(found.volume_m3),
            COMMON_PRACTICE,
        ),
        Step(
            "mixes.bags",
            "volume / bag, rounded up",
            {"volume": volume(found.volume_m3), "bag": bag},
            bags_for(found.volume_m3, bag_litres),
            COMMON_PRACTICE,
        ),
    )
    forgotten = found.volume_m3 * in_class(voice, 12, 0.1)
    depth_reply = Said(in_class(voice, "homework_soil.slip_depth_us", "homework_soil.slip_depth_metric"))
    along = compost_for_bed(length_m * in_class(voice, M_PER_FOOT, 1.0), depth_m).volume_m3
    slips = (
        Slip("depth_unit", bags_for(forgotten, bag_litres), depth_reply, "02.compost"),
        Slip(
            "length_for_area",
            bags_for(along, bag_litres),
            Said("homework_soil.slip_length_for_area"),
            "02.compost",
        ),
        Slip("rounded_down", int(found.volume_m3 * 1000 / bag_litres), Said("homework_soil.slip_down"), "02.compost"),
        Slip("depth_unit_volume", volume(forgotten), depth_reply, "02.compost", 1),
    )
    ask = in_class(voice, "homework_soil.compost_ask_us", "homework_soil.compost_ask_metric")
    return Task(
        caution=Said("homework_soil.compost_caution"),
        ask=Said(ask, {"depth": given["depth"], "bag": bag, **_bed(length_m, width_m)}),
        answer=Answer(steps=steps, sources=(COMMON_PRACTICE,)),
        steps=steps,
        slips=told_apart(steps, slips, voice),
    )


def _bag_litres(ground: Ground, volume_m3: float) -> float:
    """Draw a bag; where rounding on the way could turn the count, another is taken."""
    bags = [size * in_class(ground.voice, CU_FT_LITRES, 1.0) for size in BAGS[ground.voice.units]]
    clear = [bag for bag in bags if bags_for(volume_m3 * 0.98, bag) == bags_for(volume_m3 * 1.02, bag)]
    return ground.draw("compost.bag", clear or bags)


SKILLS: Sequence[Skill] = (
    Skill("02.jar", "02_soil", Said("homework_soil.jar_title"), "02.jar", _jar),
    Skill("02.lime", "02_soil", Said("homework_soil.lime_title"), "02.lime", _lime),
    Skill("02.bag", "02_soil", Said("homework_soil.bag_title"), "02.feeding", _bag),
    Skill("02.brings", "02_soil", Said("homework_soil.brings_title"), "02.feeding", _brings),
    Skill("02.compost", "02_soil", Said("homework_soil.compost_title"), "02.compost", _compost),
)
