"""Page 03, the fold in which plants are counted and a line is kept, by numbers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib import beds
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import bed_here
from gardenlib.panels.beds import line_bed as page
from gardenlib.panels.form import Fields, Form
from gardenlib.panels.more import more
from gardenlib.units import in_system
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def fold(session: Session) -> w.Widget:
    """Offer to change how many plants are wanted, or to keep a line where it is."""
    return more(session, Said("lines.set_title"), 3, lambda _: Form(session, Said("lines.set_about"), _fields, _save))


def _fields(session: Session) -> Fields:
    say, ids = session.voice.say, page.crop_ids(session)
    fields: Fields = {
        "crop": c.choice(say("lines.set_crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "plants": c.whole_number(say("lines.set_plants"), 1, 1000, 1),
        "keep": c.number(say(f"lines.set_keep_{session.voice.units}"), 0, 500, 0, 1),
    }

    def fill(_: object = None) -> None:
        crop = fields["crop"].value
        fields["plants"].value = page.plants_wanted(session, crop)
        at_cm = (session.kept(page.KEPT).get(crop) or 0.0) * 100
        fields["keep"].value = round(in_system(at_cm, "cm", session.voice.units)[0], 1)

    fields["crop"].observe(fill, "value")
    fill()
    return fields


def _save(session: Session, values: Mapping[str, Any]) -> Said:
    crop, plants = values["crop"], int(values["plants"])
    per_cm, _ = in_system(1.0, "cm", session.voice.units)
    _try(session, crop, values["keep"] / per_cm / 100)
    session.keep(page.KEPT, {**session.kept(page.KEPT), crop: values["keep"] / per_cm / 100})
    session.save("plantings", _with(session, crop, plants))
    return Said("lines.set_saved", {"n": plants, "crop": session.crop_name(crop)})


def _try(session: Session, crop: str, at_m: float) -> None:
    """Refuse a line without room before anything is saved."""
    bed = bed_here(session)
    kept = [item for item in {**session.kept(page.KEPT), crop: at_m}.items() if item[1]]
    wanted = [beds.planting(session.crop(i), 1) for i in page.crop_ids(session)]
    kept = [item for item in kept if item[0] in {planting[0] for planting in wanted}]
    beds.lines(bed.length_m, bed.width_m, wanted, latitude=session.latitude, kept=kept)


def _with(session: Session, crop: str, plants: int) -> list[dict[str, Any]]:
    """Give the plantings with this number of plants of a crop; all their other fields stay."""
    found = [planting.model_dump(mode="json") for planting in session.plot.plantings]
    mine = next((planting for planting in found if planting["crop"] == crop), None)
    if mine is None:
        taken = {planting["id"] for planting in found}
        number = next(n for n in range(1, len(found) + 2) if f"planting-{n}" not in taken)
        return [*found, {"id": f"planting-{number}", "crop": crop, "plants": plants}]
    mine["plants"] = plants
    return found
