"""Page 02, the form that takes the learner's own laboratory sheet into the plot file."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib.charts.triangle import OUTLINES
from gardenlib.panels import controls as c
from gardenlib.panels.form import Fields
from gardenlib.panels.soil.names import known_name
from gardenlib.problems import InputProblem
from gardenlib.soil import LAB_RATE_UNITS, lab_number, lab_rate_kg_m2
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

METHODS = ("water", "kcl", "other")
BUFFERS = ("sikora", "smp", "mehlich_nc", "mehlich_pa", "other", "none")
LEVELS = ("low", "medium", "high", "very_high")
NUTRIENTS = ("phosphorus", "potassium", "magnesium")
MOST_ACIDITY = 100.0
MOST_RATE = 1_000_000.0


def fields(session: Session) -> Fields:
    """Make the fields of the form, with what the plot file knows already."""
    say, soil = session.voice.say, session.plot.soil
    methods = [(say(f"lab.form.method_{name}"), name) for name in METHODS]
    buffers = [(say("lab.form.buffer_empty"), ""), *((say(f"lab.form.buffer_{name}"), name) for name in BUFFERS)]
    units = [(say(f"lab.unit.{unit}"), unit) for unit in LAB_RATE_UNITS]
    levels = [(say("lab.form.level_empty"), ""), *((say(f"lab.form.level_{name}"), name) for name in LEVELS)]
    textures = [(say("lab.form.texture_empty"), ""), *((known_name(name, session.voice), name) for name in OUTLINES)]
    own_texture = soil.texture if soil.texture_from == "lab" and soil.texture in OUTLINES else ""
    first_unit = "lb_1000_sq_ft" if session.voice.units == "us" else "t_ha"
    own_unit = first_unit if soil.lab_lime_kg_m2 is None else "kg_m2"  # what is kept is kept in kg per square metre
    made: Fields = {
        "sampled": w.DatePicker(description=say("lab.form.sampled"), value=soil.sampled),
        "water_ph": c.line(say("lab.form.ph"), _shown(soil.water_ph)),
        "ph_method": c.choice(say("lab.form.method"), methods, soil.ph_method),
        "buffer": c.choice(say("lab.form.buffer"), buffers, soil.buffer),
        "buffer_ph": c.line(say("lab.form.buffer_ph"), _shown(soil.buffer_ph)),
        "acidity": c.line(say("lab.form.acidity"), _shown(soil.acidity_meq_100g)),
        "lime": c.line(say("lab.form.lime"), _shown(soil.lab_lime_kg_m2)),
        "lime_unit": c.choice(say("lab.form.lime_unit"), units, own_unit),
    }
    made |= {name: c.choice(say(f"lab.form.{name}"), levels, getattr(soil, name)) for name in NUTRIENTS}
    return {**made, "texture": c.choice(say("lab.form.texture"), textures, own_texture)}


def act(session: Session, values: Mapping[str, Any]) -> Said:
    """Save the sheet, whole or not at all, and say what was read."""
    ph = lab_number(values["water_ph"], Said("lab.form.ph"), "water_ph")
    buffer_ph = lab_number(values["buffer_ph"], Said("lab.form.buffer_ph"), "buffer_ph")
    acidity = lab_number(values["acidity"], Said("lab.form.acidity"), "amount", MOST_ACIDITY)
    rate = lab_number(values["lime"], Said("lab.form.lime"), "amount", MOST_RATE)
    if ph is None:
        raise InputProblem("lab.no_ph")
    if buffer_ph is not None and values["buffer"] in {"", "none"}:
        raise InputProblem("lab.which_buffer", value=buffer_ph)
    day = values["sampled"]
    if day is not None and day > session.today:
        raise InputProblem("lab.later", day=session.voice.date(day, "yMMMMd"))
    lime = None if rate is None else lab_rate_kg_m2(rate, values["lime_unit"])
    texture = {"texture": values["texture"], "texture_from": "lab"} if values["texture"] else {}
    session.save_fields(
        "soil",
        sheet="in_hand",
        sampled=None if day is None else day.isoformat(),
        ph_method=values["ph_method"],
        water_ph=ph,
        buffer=values["buffer"],
        buffer_ph=buffer_ph,
        acidity_meq_100g=acidity,
        lab_lime_kg_m2=lime,
        **{name: values[name] for name in NUTRIENTS},
        **texture,
    )
    if values["ph_method"] != "water":
        return Said("lab.form.saved_not_water")
    if lime is not None:
        return Said("lab.form.saved_lime", {"ph": ph, "rate": Quantity(lime, "kg_m2")})
    return Said("lab.form.saved", {"ph": ph})


def _shown(number: float | None) -> str:
    return "" if number is None else f"{number:g}"
