"""Which crops stand in the learner's bed in lines, how many, and which lines are kept."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from gardenlib import beds
from gardenlib.beds import LinesAnswer, has_spacing
from gardenlib.beds.stature import practice_m, usual_count
from gardenlib.panels.bed_of import bed_here, family_name
from gardenlib.panels.own_plantings import own_plantings, planted_plot
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.beds.line_input import Planting
    from gardenlib.panels.session import Session

KEPT = "03.lines.kept"
WINDS = (
    Said("lines.north"),
    Said("lines.northeast"),
    Said("lines.east"),
    Said("lines.southeast"),
    Said("lines.south"),
    Said("lines.southwest"),
    Said("lines.west"),
    Said("lines.northwest"),
)


def crop_ids(session: Session) -> list[str]:
    """List the crops to set out: what is eaten and has a distance, but for what grows in another bed."""
    planted = planted_plot(session)
    here = next((bed.id for bed in planted.beds if bed.length_m and bed.width_m), None)
    away = {planting.crop for planting in planted.plantings if planting.bed not in {None, here}}
    away -= {planting.crop for planting in planted.plantings if planting.bed in {None, here}}
    ids = [crop_id for crop_id in dict.fromkeys(session.crop_ids) if has_spacing(session.crop(crop_id))]
    return [crop_id for crop_id in ids if crop_id not in away] or ids


def plants_wanted(session: Session, crop_id: str) -> int:
    """Give the plants of a crop that were saved or the class planned, or a first number for the household."""
    saved = next((p.plants for p in own_plantings(session) if p.crop == crop_id and p.plants), None)
    return saved or usual_count(session.crop(crop_id), session.people)


def answer(session: Session, values: Mapping[str, Any]) -> LinesAnswer:
    """Set out the bed for what is saved and chosen."""
    bed, own = bed_here(session), own_bed(session)
    wanted = tuple(beds.planting(session.crop(i), plants_wanted(session, i)) for i in crop_ids(session))
    known = {planting[0] for planting in wanted}
    return _set_out(
        (bed.length_m, bed.width_m),
        wanted,
        latitude=session.latitude,
        bearing_deg=own["bearing_deg"] or 0.0,
        reach_m=practice_m(f"reach_{own['reach'] or 'both'}"),
        reach_from="one" if own["reach"] == "one" else "both",
        kept=tuple((crop, at_m) for crop, at_m in session.kept(KEPT).items() if at_m and crop in known),
        which=values["which"],
        unit="in" if session.voice.units == "us" else "cm",
    )


@lru_cache(maxsize=8)
def _set_out(sides: tuple[float, float], wanted: tuple[Planting, ...], **how: Any) -> LinesAnswer:
    """Set out a bed once: picture, notes and working all ask for the same one."""
    return beds.lines(*sides, wanted, **how)


def sides_of(session: Session, found: LinesAnswer) -> tuple[Said, Said]:
    """Name the edge and the end that are measured from."""
    if own_bed(session)["bearing_deg"] is None:
        return Said("lines.some_edge"), Said("lines.some_end")
    edge, end = (WINDS[round(deg / 45) % 8] for deg in (found.edge_deg, found.end_deg))
    return edge, end


def told_of(session: Session, found: LinesAnswer) -> list[Said]:
    """Note the families of what stands in the bed, and the lines that nobody reaches from its edge."""
    say, crops = session.voice.say, dict[str, list[str]]()
    for part in {part.crop: part for line in found.lines for part in line.parts}.values():
        crops.setdefault(part.family, []).append(session.crop_name(part.crop))
    listed = [
        say("lines.family", family=family_name(session, family), crops=", ".join(names))
        for family, names in crops.items()
    ]
    told = [Said("lines.families", {"list": "; ".join(listed)})] if listed else []
    far = [str(number) for number, line in enumerate(found.lines, 1) if not line.in_reach]
    return [*told, Said("lines.far", {"n": len(far), "list": ", ".join(far)})] if far else told


def own_bed(session: Session) -> dict[str, Any]:
    """Give where the learner's bed runs to and how it is reached, where that is known."""
    found = next((bed for bed in session.plot.beds if bed.length_m and bed.width_m), None)
    return {"bearing_deg": found and found.bearing_deg, "reach": found.reach if found else ""}
