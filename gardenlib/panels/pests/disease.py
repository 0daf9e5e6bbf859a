"""Page 05, a fold: diseases of the cabbage family, by the bed's history and by wet leaves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts, tables
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import grown_here
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.pests.wet import HOURS, WET
from gardenlib.pests import DiseaseAnswer, disease_in_bed, disease_names
from gardenlib.pests.disease import history
from gardenlib.units import Range
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

MOST_YEARS = 10
GUESSED = 7
DRAWN = {
    "black_rot": ("disease_black_rot", {"edge": "disease.label_edge", "veins": "disease.label_veins"}),
    "clubroot": ("disease_clubroot", {"clean": "disease.label_clean", "sick": "disease.label_sick"}),
    "alternaria": ("disease_spots", {"rings": "disease.label_rings"}),
}


def fold(session: Session) -> w.Widget:
    """Offer what a bed's history and wet leaves say of five diseases."""
    return more(session, Said("disease.title"), 8, _inside)


def _inside(session: Session) -> w.Widget:
    seed = c.text(session.voice.say("disease.seed"), "note")
    parts = [Panel(session, _SPEC), CheckBox(session, _GIFT), Panel(session, WET), CheckBox(session, HOURS)]
    return w.VBox([*parts, seed])


# ---- the bed's history -----------------------------------------------------------------------------


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    kinds = [(say(f"disease.name_{name}"), name) for name in disease_names()]
    years = [(say("disease.written", bed=grown_here(session)[0]), 0)]
    years += [(say("disease.years_ago", n=n), n) for n in range(1, MOST_YEARS + 1)]
    return {
        "disease": c.choice(say("disease.which"), kinds, kinds[0][1]),
        "last": c.choice(say("disease.last"), years, 0),
    }


def _found(session: Session, values: Mapping[str, Any]) -> DiseaseAnswer:
    past = history(values["last"]) if values["last"] else grown_here(session)[1]
    return disease_in_bed(values["disease"], past, year=session.year)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Say whether enough years have gone by, and show what the disease looks like."""
    say, found, kind = session.voice.say, _found(session, values), values["disease"]
    said = {"disease": say(f"disease.name_{kind}"), "n": found.years_without, "year": str(session.year)}
    if found.asked_years is None:
        finding = say(f"disease.general_{found.verdict}", **said)
    elif found.last_year is None:
        finding = say(f"disease.never_{found.verdict}", asked=found.asked_years, **said)
    else:
        finding = say(f"disease.own_{found.verdict}", asked=found.asked_years, last=str(found.last_year), **said)
    if found.spores_left_pct is not None:
        finding = f"{finding} {_spores(session, found.spores_left_pct)}"
    slot = DRAWN.get(kind)
    drawn = None if slot is None else charts.sketch(slot[0], **{name: say(key) for name, key in slot[1].items()})
    return charts.View(finding, _table(session, found), drawn, say(f"disease.looks_{kind}"))


def _spores(session: Session, left: Range) -> str:
    low, high = (session.voice.number(end, 0) for end in (left.low, left.high))
    if low == high:
        return session.voice.say("disease.spores_all", x=low)
    return session.voice.say("disease.spores", low=low, high=high)


def _table(session: Session, found: DiseaseAnswer) -> pd.DataFrame:
    say, rows = session.voice.say, []
    if found.asked_years is not None:
        books = "; ".join(tables.source(key).citation for key in found.asked_by)
        rows.append((say("disease.fact_asked"), session.voice.range(found.asked_years), books))
    for row in found.facts.to_dict("records"):
        size = session.voice.range(Range(row["low"], row["high"], row["unit"]))
        book = "; ".join(tables.source(key).citation for key in row["source"].split("|"))
        rows.append((say(f"disease.fact_{row['property']}"), size, book))
    return pd.DataFrame(rows, columns=[say(f"disease.column_{name}") for name in ("what", "figure", "source")])


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    kind = values["disease"]
    told = [said for said in _found(session, values).assumptions if said.key.startswith("disease.")]
    return [Said(f"disease.looks_{kind}"), Said(f"disease.how_{kind}"), *told, Said("disease.resistant")]


def _truth(session: Session) -> Said:
    left = disease_in_bed("clubroot", history(GUESSED + 1), year=session.year).spores_left_pct
    low, high = (left.low, left.high) if left else (0.0, 0.0)
    return Said("disease.truth", {"low": session.voice.number(low, 0), "high": session.voice.number(high, 0)})


_SPEC = Spec(
    "05.disease",
    Said("disease.title"),
    _controls,
    view,
    guess=Guess(
        "05.disease.guess",
        lambda session: Said("disease.question", {"n": GUESSED}),
        lambda session: [
            ("none", Said("disease.option_none")),
            ("some", Said("disease.option_some")),
            ("most", Said("disease.option_most")),
        ],
        _truth,
    ),
    working=_found,
    notes=_notes,
    caution=Said("disease.caution"),
)


# ---- the check -------------------------------------------------------------------------------------

_GIFT = Check(
    "05.disease.check1",
    lambda session: Said("disease.check1_question"),
    lambda session: [
        Reply("leaf", Said("disease.check1_leaf"), False, Said("disease.check1_leaf_reply")),
        Reply("apart", Said("disease.check1_apart"), False, Said("disease.check1_apart_reply")),
        Reply("thanks", Said("disease.check1_thanks"), True, Said("disease.check1_thanks_reply")),
    ],
)
