"""What the lime panel knows: how far the sheet goes, the bed, and the lime for both."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any, Literal

import ipywidgets as w

from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import bed_in_use, stands_in
from gardenlib.problems import InputProblem
from gardenlib.soil import bed_target_ph, lime_for_bed, lime_method, lime_need, lime_rate
from gardenlib.soil.lime_days import later
from gardenlib.soil.lime_limits import limit
from gardenlib.units import M_PER_FOOT, in_system
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session
    from gardenlib.soil import LimeForBed, LimeNeed, LimeRate

State = Literal["sheet", "texture", "no_method", "no_ph", "other_ph", "alkaline", "open", "open_with_ph"]
USUAL_BED_M2 = 10.0
M2 = {"us": M_PER_FOOT**2, "metric": 1.0}
"""Square metres in what the class types."""


def target_of(session: Session) -> float:
    """Give the pH to aim at: for clubroot with a lab's sheet its own, else that for the crops of the page."""
    return limit("clubroot_ph").low if against_clubroot(session) else bed_target_ph(session.crop_ids)


def has_clubroot(session: Session) -> bool:
    """Tell whether the extension office or a lab has named clubroot in the bed in use."""
    bed = bed_in_use(session)
    return bed is not None and bed.has_clubroot


def against_clubroot(session: Session) -> bool:
    """Tell whether to aim at the pH against clubroot, which takes a diagnosis and a lab's sheet."""
    return has_clubroot(session) and state_of(session) == "sheet"


def state_of(session: Session) -> State:
    """Tell how far the sheet goes; a weight is given only for the first two."""
    soil = session.plot.soil
    if soil.water_ph is not None and soil.ph_method != "water":
        return "other_ph"
    if soil.water_ph is not None and soil.water_ph >= limit("no_lime_ph").low:
        return "alkaline"
    in_hand = soil.sheet == "in_hand"
    if in_hand and lime_method(soil.buffer, soil.lab_lime_kg_m2) is not None and soil.water_ph is not None:
        return "sheet"
    if session.klass.lime_from_texture and soil.texture and soil.water_ph is not None:
        return "texture"
    if in_hand:
        return "no_ph" if soil.water_ph is None else "no_method"
    return "open" if soil.water_ph is None else "open_with_ph"


def bed_controls(session: Session) -> dict[str, w.Widget]:
    """Ask for the bag, the bed and the first planting."""
    say, units = session.voice.say, session.voice.units
    area, _ = in_system(_bed_m2(session), "m2", units)
    days = [later(session.today.replace(day=1), months) for months in range(1, 14)]
    return {
        "cce": c.whole_number(say("lime.cce"), 1, 200, 90),
        f"area_{units}": c.number(say(f"lime.area_{units}"), 1, 5000, round(area, 1)),
        "plant_on": c.choice(
            say("lime.planting"),
            [(session.voice.date(day, "yMMMd"), day.isoformat()) for day in days],
            days[6].isoformat(),
        ),
    }


def need_here(session: Session, values: Mapping[str, Any]) -> LimeNeed:
    """Tell none, little or much by the pH of the sheet, or by the one that is tried."""
    soil = session.plot.soil
    if state_of(session) == "other_ph":
        raise InputProblem("lime.not_in_water", method=soil.ph_method)
    return lime_need(values["ph"] if soil.water_ph is None else soil.water_ph, target_of(session))


def _bed_m2(session: Session) -> float:
    """Take the bed in use, else a usual one."""
    bed = bed_in_use(session)
    return USUAL_BED_M2 if bed is None else bed.area_m2


def other_bed(session: Session) -> list[Said]:
    """Say so where the size of the class's bed, or a usual one, was filled in."""
    return [Said("lime.no_bed")] if bed_in_use(session) is None else stands_in(session)


def rate_here(session: Session) -> LimeRate:
    """Work out the rate from what stands in the plot file."""
    soil = session.plot.soil
    if soil.water_ph is None:
        raise InputProblem("lime.first_ph")
    known: dict[str, Any] = {
        "water_ph": soil.water_ph,
        "target_ph": target_of(session),
        "ph_method": soil.ph_method,
        "clubroot_diagnosed": against_clubroot(session),
    }
    method = lime_method(soil.buffer, soil.lab_lime_kg_m2) if state_of(session) == "sheet" else "texture_usda"
    if method == "lab_rate":
        return lime_rate("lab_rate", lab_rate=soil.lab_lime_kg_m2, **known)
    if method == "texture_usda" or method is None:
        return lime_rate("texture_usda", texture=soil.texture, **known)
    return lime_rate(method, buffer_ph=soil.buffer_ph, acidity_meq_100g=soil.acidity_meq_100g, **known)


def lime_here(session: Session, values: Mapping[str, Any]) -> LimeForBed:
    """Work out the doses for the bag and the bed that were chosen."""
    units = session.voice.units
    return lime_for_bed(
        rate_here(session),
        values[f"area_{units}"] * M2[units],
        cce_fraction=values["cce"] / 100,
        plant_on=date.fromisoformat(values["plant_on"]),
        not_before=session.today,
    )
