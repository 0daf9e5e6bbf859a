"""Page 03, the fold on planting closer or wider: what trials found."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.beds import Closeness, closeness_of, crop_count, crop_spacing
from gardenlib.beds.distances import Which
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import bed_here
from gardenlib.panels.beds.count import WHICH, crop_ids, notes
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

STAND_IN = "cabbage_main"


def fold(session: Session) -> w.Widget:
    """Offer what trials say of planting closer or wider."""
    return more(session, Said("closer.title"), 5, _SPEC)


def _controls(session: Session) -> dict[str, w.Widget]:
    say, ids = session.voice.say, crop_ids(session)
    first = next((i for i in ids if closeness_of(session.crop(i), 0.3).tried), STAND_IN)
    return {
        "crop": c.choice(say("fit.crop"), [(session.crop_name(i), i) for i in ids], first),
        "which": c.choice(say("fit.which"), [(say(words), which) for which, words in WHICH.items()], "closest"),
    }


def _found(session: Session, values: Mapping[str, Any], which: Which | None = None) -> Closeness:
    crop = session.crop(values["crop"])
    spacing_m, _ = crop_spacing(crop).pick(which or values["which"], "square")
    return closeness_of(crop, spacing_m)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Say what a head weighs at this spacing, or that no trial tells."""
    say, found = session.voice.say, _found(session, values)
    said = {"crop": session.crop_name(values["crop"]), "spacing": Quantity(found.spacing_m * 100, "cm")}
    if found.head is not None:
        finding = say("closer.finding", head=found.head, **said)
    elif found.tried:
        finding = say("closer.finding_outside", **said)
    else:
        finding = say("closer.finding_none", **said)
    return charts.View(finding, _table(session, values), None, finding)


def _table(session: Session, values: Mapping[str, Any]) -> pd.DataFrame:
    say, voice, bed, rows = session.voice.say, session.voice, bed_here(session), []
    crop = session.crop(values["crop"])
    for which in WHICH:
        found = _found(session, values, which)
        count = crop_count(bed.length_m, bed.width_m, crop, which=which, pattern="square")
        head = say("closer.not_tried") if found.head is None else voice.range(found.head)
        spacing = voice.quantity(Quantity(found.spacing_m * 100, "cm"))
        rows.append((spacing, str(count.square), head))
    return pd.DataFrame(
        rows, columns=[say("closer.column_spacing"), say("closer.column_plants"), say("closer.column_head")]
    )


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    """Tell each trial, and how far the trials reach."""
    return [*notes(session, {**values, "pattern": "square"}), *_found(session, values).assumptions]


_SPEC = Spec(
    "03.closer",
    Said("closer.title"),
    _controls,
    view,
    guess=Guess(
        "03.closer.guess",
        lambda session: Said("closer.question"),
        lambda session: [
            ("more_smaller", Said("closer.option_more_smaller")),
            ("same", Said("closer.option_same")),
            ("less", Said("closer.option_less")),
        ],
        lambda session: Said("closer.truth"),
    ),
    working=_found,
    notes=_notes,
)
