"""The second panel of the fold on ripeness: a crop's signs in words, with our own drawings."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts, tables
from gardenlib.charts.tiles import tiles
from gardenlib.harvest import HarvestSigns, Sign, harvest_signs
from gardenlib.panels import controls as c
from gardenlib.panels.panel import Spec, note
from gardenlib.units import Range
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

# Which of our drawings shows a sign.
DRAWN = {
    "head_firm": ("firm_head",),
    "broccoli_tight": ("broccoli_tight", "broccoli_loose"),
    "stump_heads": ("stump",),
    "tops_fallen": ("onion_tops",),
    "pod_filled": ("pea_pod",),
    "tomato_colour": ("tomato",),
}


def _one_crop(session: Session) -> dict[str, w.Widget]:
    ids = session.crops_own_first
    return {"crop": c.choice(session.voice.say("ready.crop"), [(session.crop_name(i), i) for i in ids], ids[0])}


def _signs(session: Session, values: Mapping[str, Any]) -> HarvestSigns:
    return harvest_signs(session.crop(values["crop"]))


def signs_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show a crop's signs in words, with our own drawings where there are any."""
    say, found, crop = session.voice.say, _signs(session, values), session.crop_name(values["crop"])
    if not found.signs:
        return note(say("ready.no_sign", crop=crop))
    rows = [(say(f"ready.part.{sign.part}"), _words(session, sign), _source(session, sign)) for sign in found.signs]
    columns = [say("ready.column_part"), say("ready.column_words"), say("ready.column_source")]
    first = (found.of("sign") or found.of("size"))[0]
    finding = say("ready.finding_sign", crop=crop, words=_words(session, first))
    shown = [(f"ready_{name}", say(f"ready.draw.{name}")) for sign in found.signs for name in DRAWN.get(sign.name, ())]
    picture = tiles(shown) if shown else None
    alt = say("ready.alt_sign", crop=crop, words="; ".join(words for _, words in shown)) if shown else finding
    return charts.View(finding, pd.DataFrame(rows, columns=columns), picture, alt)


def _words(session: Session, sign: Sign) -> str:
    voice, size = session.voice, ""
    if sign.size is not None and sign.size.unit == "heads":
        size = plain(session, sign.size)
    elif sign.size is not None:
        # A quarter of an inch shows in the tables; a tenth of a centimetre does not.
        size = voice.range(sign.size, 2 if voice.units == "us" else 0)
    return voice.say(f"ready.sign.{sign.name}", size=size)


def plain(session: Session, span: Range) -> str:
    """Write a range of counts, once when both ends read the same."""
    voice = session.voice
    low, high = voice.number(span.low), voice.number(span.high)
    return low if low == high else voice.say("unit.between", low=low, high=high)


def _source(session: Session, sign: Sign) -> str:
    books = "; ".join(tables.source(key).citation for key in sign.sources)
    return session.voice.say("page.unchecked", source=books) if sign.status == "memory" else books


SIGNS = Spec(
    "06.signs",
    Said("ready.signs_title"),
    _one_crop,
    signs_view,
    intro=Said("ready.signs_title"),
    working=_signs,
    notes=lambda session, values: [said for said in _signs(session, values).assumptions if said.key != "ready.no_sign"],
)
