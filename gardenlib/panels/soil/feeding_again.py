"""Inside the fold on feeding: feeding again in the season, and a liquid feed against the need."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts, tables
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import bed_here
from gardenlib.panels.panel import Spec
from gardenlib.panels.sowing import dates_for, window
from gardenlib.problems import InputProblem
from gardenlib.soil import (
    LiquidFeed,
    SideDress,
    feeding_need,
    fertilizer_for_bed,
    label_numbers,
    liquid_feed,
    side_dress,
)
from gardenlib.units import LITRES_PER_GALLON, Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from datetime import date

    from gardenlib.panels.session import Session

AGAIN_LABEL, LIQUID_LABEL = "21-0-0", "5-1-1"
CANS = {"us": tuple(n * LITRES_PER_GALLON for n in (1, 2, 3)), "metric": (5.0, 9.0, 12.0)}


# ---- feeding again ---------------------------------------------------------------------------------


def _crop_first(session: Session) -> list[str]:
    """List the learner's crops that feed heavily, then the learner's others, then all."""
    mine = sorted(session.crop_ids, key=lambda crop: side_dress(crop, 1.0).feeds != "heavy")
    return list(dict.fromkeys([*mine, *session.all_crop_ids]))


def _again_controls(session: Session) -> dict[str, w.Widget]:
    say, ids = session.voice.say, _crop_first(session)
    return {
        "crop": c.choice(say("feeding.side_crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "label": c.line(say("feeding.side_label"), AGAIN_LABEL, AGAIN_LABEL),
    }


def _planted(session: Session, crop: str) -> date | None:
    """Take the first day for the bed from the learner's own dates; None where the place has none."""
    try:
        span = window(dates_for(session, crop))
    except InputProblem:
        return None
    return None if span is None else span[0]


def _again(session: Session, values: Mapping[str, Any]) -> SideDress:
    return side_dress(values["crop"], bed_here(session).area_m2, planted_on=_planted(session, values["crop"]))


def again_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show how much of the bag feeds the crop again, and when each source does it."""
    voice, say, again = session.voice, session.voice.say, _again(session, values)
    crop, label = session.crop_name(values["crop"]), label_numbers(values["label"])
    if again.n_kg_m2 is None:
        finding = say("feeding.side_light" if again.feeds == "light" else "feeding.side_unlisted", crop=crop)
        return charts.View(finding, None, None, finding)
    bag = fertilizer_for_bed(again.n_kg_m2, 0, 0, bed_here(session).area_m2, label_pct=label)
    weight = voice.quantity(Quantity(bag.product_kg, "kg"), 2)
    finding = say("feeding.side_finding", crop=crop, weight=weight, label=values["label"].strip())
    rows = []
    for time in again.times:
        days = say("feeding.side_no_date")
        if time.days is not None:
            first, last = (voice.date(day, "MMMd") for day in time.days)
            days = first if first == last else say("feeding.side_span", start=first, end=last)
        rows.append((tables.source(time.source).citation, voice.value(time.weeks), days))
    if not rows:
        who = tables.source(again.sources[0]).citation
        rows = [(who, say("feeding.side_middle"), "")]
    names = [say("feeding.side_column_who"), say("feeding.side_column_weeks"), say("feeding.side_column_days")]
    return charts.View(finding, pd.DataFrame(rows, columns=names), None, say("feeding.side_alt"))


def _again_notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    again, planted = _again(session, values), _planted(session, values["crop"])
    counted = [Said("feeding.from_first_day", {"day": planted})] if planted is not None and again.times else []
    return [*counted, *again.assumptions]


AGAIN = Spec(
    "02.feeding.side",
    Said("feeding.side_title"),
    _again_controls,
    again_view,
    intro=Said("feeding.side_title"),
    caution=Said("feeding.caution"),
    working=_again,
    notes=_again_notes,
)


# ---- a liquid feed ---------------------------------------------------------------------------------


def _liquid_controls(session: Session) -> dict[str, w.Widget]:
    voice, cans = session.voice, CANS[session.voice.units]
    sizes = [(voice.value(Quantity(can, "litres")), can) for can in cans]
    return {
        "label": c.line(voice.say("feeding.liquid_label"), LIQUID_LABEL, LIQUID_LABEL),
        f"can_{voice.units}": c.choice(voice.say("feeding.liquid_can"), sizes, cans[1]),
    }


def _liquid(session: Session, values: Mapping[str, Any]) -> LiquidFeed:
    return liquid_feed(
        feeding_need("mixed").n_kg_m2.high,
        bed_here(session).area_m2,
        n_pct=label_numbers(values["label"])[0],
        can_litres=values[f"can_{session.voice.units}"],
    )


def liquid_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show how many cans of liquid feed would bring what the bed needs."""
    voice, say, feed = session.voice, session.voice.say, _liquid(session, values)
    rows = [
        (say("feeding.liquid_row_need"), voice.quantity(Quantity(feed.need_kg, "kg"), 2)),
        (say("feeding.liquid_row_can"), voice.quantity(Quantity(feed.can_kg, "kg"), 3)),
        (say("feeding.liquid_row_product"), voice.quantity(Quantity(feed.product_litres, "litres"), 2)),
        (say("feeding.liquid_row_mix"), voice.quantity(Quantity(feed.mix_litres, "litres"), 0)),
    ]
    names = [say("feeding.liquid_column_what"), say("feeding.liquid_column_much")]
    finding = say("feeding.liquid_finding", n=round(feed.cans))
    return charts.View(finding, pd.DataFrame(rows, columns=names), None, say("feeding.liquid_alt"))


LIQUID = Spec(
    "02.feeding.liquid",
    Said("feeding.liquid_title"),
    _liquid_controls,
    liquid_view,
    intro=Said("feeding.liquid_need"),
    caution=Said("feeding.caution"),
    working=_liquid,
    notes=lambda session, values: list(_liquid(session, values).assumptions),
)
