"""Page 07, the plot log: planned against real, and what was picked and given away."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Spec, note
from gardenlib.panels.season.log_lines import crop_named, log_season, planned_here, planting_names
from gardenlib.season import PickedAndGiven, PlannedAndReal, RealDays, picked_and_given, planned_and_real
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

AGAINST = ("sooner", "within", "later")


def _when(session: Session) -> dict[str, Any]:
    first, last = log_season(session)
    return {"first": first, "last": last, "today": session.today}


# ---- planned and real ------------------------------------------------------------------------------


def _found(session: Session) -> PlannedAndReal:
    return planned_and_real(session.plot.log, planned_here(session), **_when(session))


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Set the real days beside the planned ones and the book's."""
    say, names = session.voice.say, planting_names(session)
    rows = [row for row in _found(session).rows if row.went_in or row.picked_from]
    if not rows:
        return note(say("log.real_none"))
    stand = Counter(str(row.against_book) for row in rows)
    if any(row.own_days is not None for row in rows):
        finding = say("log.real_days", n=len(rows), **{name: stand[name] for name in AGAINST})
    else:
        finding = say("log.real_unpicked", n=len(rows))
    columns = [say(f"log.column_{name}") for name in ("plant", "planned", "real", "against", "own", "book")]
    table = pd.DataFrame([(names[row.planting], *_cells(session, row)) for row in rows], columns=columns)
    return charts.View(finding, table, None, finding)


def _cells(session: Session, row: RealDays) -> tuple[str, str, str, str, str]:
    say, voice = session.voice.say, session.voice
    none = say("log.none")
    planned = none
    if row.planned is not None:
        planned = say("log.span", start=voice.date(row.planned[0], "MMMd"), end=voice.date(row.planned[1], "MMMd"))
    against = none if row.days_off is None else say("log.off_in")
    if row.days_off:
        against = say("log.off_early" if row.days_off < 0 else "log.off_late", n=abs(row.days_off))
    own = none if row.own_days is None else voice.quantity(Quantity(row.own_days, "days"))
    book = none if row.book_days is None else voice.range(row.book_days)
    if row.unchecked:
        book = say("log.book_unchecked", days=book)
    return planned, none if row.went_in is None else voice.date(row.went_in, "MMMd"), against, own, book


def _notes(session: Session, values: Mapping[str, Any]) -> Sequence[Said]:
    names = planting_names(session)
    found = _found(session)
    bare = [row.planting for row in found.rows if row.went_in is not None and row.planned is None]
    told = [*found.assumptions, Said("log.real_note")]
    told += [Said("log.no_plan", {"crop": names[planting]}) for planting in bare]
    return told if session.plot.plantings else [Said("log.no_plantings"), *told]


def _truth(session: Session) -> Said:
    stand = Counter(str(row.against_book) for row in _found(session).rows)
    if not any(stand[name] for name in AGAINST):
        return Said("log.truth_none")
    return Said("log.truth", {name: stand[name] for name in AGAINST})


REAL = Spec(
    "07.log",
    Said("log.real_title"),
    lambda session: {},
    view,
    guess=Guess(
        "07.log.guess",
        lambda session: Said("log.question"),
        lambda session: [(name, Said(f"log.option_{name}")) for name in AGAINST],
        _truth,
    ),
    working=lambda session, values: _found(session),
    notes=_notes,
)


# ---- picked and given ------------------------------------------------------------------------------


def _amounts(session: Session) -> PickedAndGiven:
    return picked_and_given(session.plot.log, **_when(session))


def _by(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    ways = [(say("log.by_crop"), "crop"), (say("log.by_week"), "week")]
    return {"by": c.one_of(say("log.by"), ways, "crop")}


def amounts_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Tell what was picked and given away, by crop or by week."""
    say, voice, found = session.voice.say, session.voice, _amounts(session)
    if found.table.empty:
        return note(say("log.amounts_none"))
    by = values["by"]
    picked, given = (Quantity(value, "kg") for value in (found.picked_kg, found.given_kg))
    finding = say("log.amounts", picked=picked, given=given) if given.value else say("log.amounts_all", picked=picked)
    rows = []
    for which, sums in found.by(by).iterrows():
        name = (
            say("log.week", day=voice.date(which, "MMMd"))
            if isinstance(which, date)
            else crop_named(session, str(which))
        )
        rows.append((name, *(voice.quantity(Quantity(float(value), "kg")) for value in sums)))
    columns = [say(f"log.column_by_{by}"), say("log.column_picked"), say("log.column_given")]
    return charts.View(finding, pd.DataFrame(rows, columns=columns), None, finding)


def _amount_notes(session: Session, values: Mapping[str, Any]) -> Sequence[Said]:
    found = _amounts(session)
    more = [Said("log.more_given", {"crop": crop_named(session, crop_id)}) for crop_id in found.more_given]
    return [*more, *found.assumptions]


AMOUNTS = Spec("07.amounts", Said("log.amounts_title"), _by, amounts_view, notes=_amount_notes)
