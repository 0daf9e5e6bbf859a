"""Page 03, the fold on rotation: what grew in the bed against the published years."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts, tables
from gardenlib.beds import RotationAnswer, diseases, families, rotation_of
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import grown_here
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.units import Range
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

RUNNING = (1, 3)


def fold(session: Session) -> w.Widget:
    """Offer when a family may come back to the bed."""
    return more(session, Said("rotation.title"), 6, _SPEC)


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    own = [session.crop(crop_id).family for crop_id in session.crop_ids]
    names = [name for name in dict.fromkeys([*own, *families()]) if name in families()]
    asked = [(say(f"rotation.name_{family}"), family) for family in names]
    asked += [(say(f"rotation.seen_{name}"), f"{family} {name}") for family in names for name in diseases(family)]
    return {"asked": c.choice(say("rotation.asked"), asked, names[0])}


def _found(session: Session, values: Mapping[str, Any]) -> RotationAnswer:
    family, _, disease = values["asked"].partition(" ")
    return rotation_of(family, grown_here(session)[1], year=session.year, disease=disease or None)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Say whether the family may come back, and what each source says."""
    say, found = session.voice.say, _found(session, values)
    bed, years = grown_here(session)
    said = {"family": say(f"rotation.name_{found.family}"), "year": str(found.year), "bed": bed}
    if not years:
        finding = say("rotation.unwritten", **said)
    elif found.last_year is None:
        key = "rotation.never" if found.verdict == "free" else "rotation.never_short"
        finding = say(key, n=found.years_without, **said)
    else:
        about = "disease" if " " in values["asked"] else "family"
        finding = say(f"rotation.{about}_{found.verdict}", last=str(found.last_year), **said)
    return charts.View(finding, _table(session, found), None, finding)


def _table(session: Session, found: RotationAnswer) -> pd.DataFrame:
    say, rows = session.voice.say, []
    for row in found.table.astype(object).to_dict("records"):
        if row["counted"] == "many":
            asked = say("rotation.years_many")
        else:
            years = Range(row["low_years"], row["high_years"], "years")
            asked = say(f"rotation.years_{row['counted']}", years=years)
        first = say("rotation.first_none")
        if not pd.isna(row["from_low"]):
            ends = (str(int(row["from_low"])), str(int(row["from_high"])))
            first = ends[0] if ends[0] == ends[1] else say("rotation.first", low=ends[0], high=ends[1])
        rows.append((say(f"rotation.what_{row['what']}"), asked, first, tables.source(row["source"]).citation))
    names = ("what", "years", "first", "source")
    return pd.DataFrame(rows, columns=[say(f"rotation.column_{name}") for name in names])


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    """Tell what rotation in a small garden can and cannot do, and what is unchecked."""
    return list(_found(session, values).assumptions)


def _leaves(years: int) -> int:
    lost = tables.table("early_blight").set_index("years_running")["leaves_lost_pct"]
    return int(lost[years])


_SPEC = Spec(
    "03.rotation",
    Said("rotation.title"),
    _controls,
    view,
    guess=Guess(
        "03.rotation.guess",
        lambda session: Said("rotation.question", {"first": _leaves(RUNNING[0])}),
        lambda session: [(str(n), Said("rotation.option", {"leaves": n})) for n in (3, 30, 70)],
        lambda session: Said("rotation.truth", {"leaves": _leaves(RUNNING[1])}),
    ),
    working=_found,
    notes=_notes,
)
