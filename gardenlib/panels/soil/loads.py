"""What the folds on feeding, compost and mixes share: levels on the sheet, and bags and buckets to choose from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib.panels import controls as c
from gardenlib.soil.feeding import LEVELS
from gardenlib.soil.mixes import LITRES_M3
from gardenlib.units import LITRES_PER_GALLON, M_PER_FOOT, Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

UNTESTED = "untested"
ASKED = ("02.feeding", "02.compost")
CU_FT_LITRES = LITRES_M3 * M_PER_FOOT**3
BAGS = {"us": (CU_FT_LITRES, 2 * CU_FT_LITRES), "metric": (25.0, 50.0, 100.0)}
BUCKET = {"us": 5 * LITRES_PER_GALLON, "metric": 10.0}


def level_control(session: Session, label: Said) -> dict[str, w.Widget]:
    """Ask for the phosphorus on the sheet where the plot file has none."""
    if session.plot.soil.phosphorus:
        return {}
    say = session.voice.say
    levels = [(say(f"feeding.level_{level}"), level) for level in (UNTESTED, *(x for x in LEVELS if x != UNTESTED))]
    # What was chosen in the one fold stands in the other.
    chosen = [session.kept(panel).get("phosphorus") for panel in ASKED]
    usual = next((level for level in chosen if level in LEVELS and level != UNTESTED), UNTESTED)
    return {"phosphorus": c.choice(say(label), levels, usual)}


def levels_here(session: Session, values: Mapping[str, Any]) -> dict[str, str]:
    """Take the levels of the plot file, else what was chosen, else untested."""
    soil = session.plot.soil
    return {
        "phosphorus": soil.phosphorus or values.get("phosphorus", UNTESTED),
        "potassium": soil.potassium or UNTESTED,
    }


def bag_size(session: Session, volume_m3: float, places: int = 1) -> str:
    """Write a volume as it stands on bags: cubic feet or litres."""
    us = session.voice.units == "us"
    volume = Quantity(volume_m3, "m3") if us else Quantity(volume_m3 * LITRES_M3, "litres")
    return session.voice.quantity(volume, places if us else 0)


def bag_options(session: Session) -> list[tuple[str, float]]:
    """List the bags by what they hold, litres."""
    say, bags = session.voice.say, BAGS[session.voice.units]
    return [(say("compost.vessel_bag", size=bag_size(session, bag / LITRES_M3)), bag) for bag in bags]


def vessel_options(session: Session) -> list[tuple[str, float]]:
    """List the bags and a bucket by what they hold, litres."""
    bucket = BUCKET[session.voice.units]
    size = Quantity(bucket, "litres")
    return [*bag_options(session), (session.voice.say("compost.vessel_bucket", size=size), bucket)]
