"""What the folds on feeding, compost and mixes share: levels on the sheet, and bags and buckets to choose from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib.panels import controls as c
from gardenlib.soil.feeding import LEVELS
from gardenlib.units import LITRES_PER_GALLON, M_PER_FOOT, Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

UNTESTED = "untested"
CU_FT_LITRES = 1000 * M_PER_FOOT**3
BAGS = {"us": (CU_FT_LITRES, 2 * CU_FT_LITRES), "metric": (25.0, 50.0, 100.0)}
BUCKET = {"us": 5 * LITRES_PER_GALLON, "metric": 10.0}


def level_control(session: Session, label: Said) -> dict[str, w.Widget]:
    """Ask for the phosphorus on the sheet where the plot file has none."""
    if session.plot.soil.phosphorus:
        return {}
    say = session.voice.say
    levels = [(say(f"feeding.level_{level}"), level) for level in (UNTESTED, *(x for x in LEVELS if x != UNTESTED))]
    return {"phosphorus": c.choice(say(label), levels, UNTESTED)}


def levels_here(session: Session, values: Mapping[str, Any]) -> dict[str, str]:
    """Take the levels of the plot file, else what was chosen, else untested."""
    soil = session.plot.soil
    return {
        "phosphorus": soil.phosphorus or values.get("phosphorus", UNTESTED),
        "potassium": soil.potassium or UNTESTED,
    }


def bag_size(session: Session, litres: float) -> str:
    """Write what a bag holds as it stands on bags: cubic feet or litres."""
    us = session.voice.units == "us"
    return session.voice.quantity(Quantity(litres / 1000, "m3") if us else Quantity(litres, "litres"))


def bag_options(session: Session) -> list[tuple[str, float]]:
    """List the bags by what they hold."""
    say = session.voice.say
    return [(say("compost.vessel_bag", size=bag_size(session, bag)), bag) for bag in BAGS[session.voice.units]]


def vessel_options(session: Session) -> list[tuple[str, float]]:
    """List the bags and a bucket by what they hold, litres."""
    bucket = BUCKET[session.voice.units]
    size = Quantity(bucket, "litres")
    return [*bag_options(session), (session.voice.say("compost.vessel_bucket", size=size), bucket)]
