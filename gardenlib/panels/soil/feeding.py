"""Page 02, the fold on feeding: a bag for this bed, feeding again, and what a liquid feed can do."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import bed_here, stands_in
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.panels.soil.feeding_again import AGAIN, LIQUID
from gardenlib.panels.soil.feeding_checks import LABEL, PERCENT, THOUSAND, bag_of, round_kg
from gardenlib.panels.soil.loads import level_control, levels_here
from gardenlib.soil import FeedingForBed, feeding_for_bed, label_numbers
from gardenlib.soil.feeding import CROP_CLASSES
from gardenlib.soil.products import NUTRIENTS
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "02.feeding"


def fold(session: Session) -> w.Widget:
    """Offer a bag for this bed, feeding again, and a liquid feed against the need."""
    return more(session, Said("feeding.title"), 8, _BAG, PERCENT, AGAIN, THOUSAND, LIQUID)


def _class_of(session: Session) -> str:
    """Choose the class of the learner's only crop; else a mixed bed."""
    ids = session.crop_ids
    found = {next((name for name in CROP_CLASSES[1:] if crop.startswith(name)), CROP_CLASSES[0]) for crop in ids}
    return found.pop() if len(found) == 1 else CROP_CLASSES[0]


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    classes = [(say(f"feeding.class_{name}"), name) for name in CROP_CLASSES]
    return {
        "crop_class": c.choice(say("feeding.crop_class"), classes, _class_of(session)),
        **level_control(session, Said("feeding.phosphorus")),
        "label": c.line(say("feeding.label"), LABEL, LABEL),
    }


def _fed(session: Session, values: Mapping[str, Any]) -> FeedingForBed:
    label = label_numbers(values["label"])
    return feeding_for_bed(
        values["crop_class"], bed_here(session).area_m2, label_pct=label, **levels_here(session, values)
    )


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show what to weigh out, beside what the bed needs and what the bag brings."""
    voice, say = session.voice, session.voice.say
    fed, bed = _fed(session, values), bed_here(session)
    finding = say(
        "feeding.finding",
        bed=bed.name,
        area=Quantity(bed.area_m2, "m2"),
        weight=voice.range(fed.weight, 2),
        label=values["label"].strip(),
    )
    rows = []
    for nutrient in NUTRIENTS:
        need = voice.range(fed.need[nutrient], 2) if nutrient in fed.need else _unknown(session, values)
        rows.append((say(f"feeding.row_{nutrient}"), need, voice.range(fed.supplied[nutrient], 2)))
    names = [say("feeding.column_what"), say("feeding.column_need"), say("feeding.column_brings")]
    return charts.View(finding, pd.DataFrame(rows, columns=names), None, say("feeding.alt"))


def _unknown(session: Session, values: Mapping[str, Any]) -> str:
    tested = set(levels_here(session, values).values()) != {"untested"}
    asks_lab = tested and values["crop_class"] == "mixed"
    return session.voice.say("feeding.not_asked" if asks_lab else "feeding.not_known")


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    """Tell what sets the weight, what is short, what comes along, and what to leave off."""
    voice, fed = session.voice, _fed(session, values)
    told = [fed.no_compost] if fed.no_compost else []
    if fed.binding and len(fed.need) > 1:
        told.append(Said("feeding.binding", {"nutrient": Said(f"feeding.row_{fed.binding}")}))
    for key, span in fed.short.items():
        told.append(
            Said("feeding.still_short", {"nutrient": Said(f"feeding.row_{key}"), "weight": voice.range(span, 2)})
        )
    if fed.unasked_phosphorus:
        told.append(fed.unasked_phosphorus)
    told += stands_in(session)
    return [*told, *fed.assumptions]


def _guessed(session: Session) -> dict[str, Any]:
    return {"need": round_kg(session, 1), "label": LABEL}


def _options(session: Session) -> list[tuple[str, Said]]:
    offered = {"one": 1, "ten": 10, "thirty": 30}
    return [(name, Said("feeding.amount", {"amount": round_kg(session, kg)})) for name, kg in offered.items()]


def _truth(session: Session) -> Said:
    return Said("feeding.truth", {"weight": bag_of(round_kg(session, 1)), "n": round(label_numbers(LABEL)[0])})


_BAG = Spec(
    ID,
    Said("feeding.panel_title"),
    _controls,
    view,
    guess=Guess(
        "02.feeding.guess",
        lambda session: Said("feeding.question", _guessed(session)),
        _options,
        _truth,
    ),
    intro=Said("feeding.panel_title"),
    caution=Said("feeding.caution"),
    working=_fed,
    notes=_notes,
)
