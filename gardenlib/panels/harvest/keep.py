"""Page 06: how long a crop stays good in the learner's own fridge, cellar or shed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts.keep_curve import Life, keep_curve
from gardenlib.harvest import StorageLife, StoreChecks, in_weeks, storage_life, storage_lives, store_checks
from gardenlib.harvest.keeping_rows import series_of
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Panel, Spec
from gardenlib.units import Quantity, f_to_c
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "06.keep"
GUESSED = "cabbage_main"
BOOK = "handbook66_2002"
FREEZING_C = 0.0
FRIDGE_C = {"us": f_to_c(40.0), "metric": 4.0}
TYPED = {"us": (-10, 110, 40), "metric": (-25, 45, 4)}
"""Lowest, highest and first value of the thermometer."""
MOST = "most"


def panel(session: Session) -> Panel:
    """Show how long a crop stays good at the temperature of the learner's own place."""
    return Panel(session, _SPEC).show()


def check(session: Session) -> CheckBox:
    """Ask how a figure from a book is read."""
    return CheckBox(session, _CHECK).show()


def storable(session: Session) -> list[str]:
    """List the learner's crops that something is published for, then the others."""
    return [i for i in dict.fromkeys([*session.crop_ids, *session.all_crop_ids]) if series_of(i)]


def thermometer(session: Session, words: str) -> dict[str, w.Widget]:
    """Make the control for a temperature; its name carries the unit, for a class that changes units."""
    units = session.voice.units
    low, high, first = TYPED[units]
    return {f"temp_{units}": c.number(session.voice.say(f"{words}.temp_{units}"), low, high, first, 1)}


def temp_c(values: Mapping[str, Any]) -> float:
    """Read the thermometer."""
    return f_to_c(float(values["temp_us"])) if "temp_us" in values else float(values["temp_metric"])


def _controls(session: Session) -> dict[str, w.Widget]:
    say, ids = session.voice.say, storable(session)
    sources = dict.fromkeys(series.source for crop_id in ids for series in series_of(crop_id))
    offered = [(say("keep.source_most"), MOST), *((say(f"keep.source_{key}"), key) for key in sources)]
    return {
        "crop": c.choice(say("keep.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        **thermometer(session, "keep"),
        "source": c.choice(say("keep.source"), offered, MOST),
    }


def _life(session: Session, values: Mapping[str, Any]) -> StorageLife:
    source = None if values["source"] == MOST else values["source"]
    return storage_life(session.crop(values["crop"]), temp_c(values), source=source)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw the published lives and the learner's place among them; the table sets all sources side by side."""
    say, voice, life = session.voice.say, session.voice, _life(session, values)
    name = session.crop_name(life.crop)
    here = {"temp": Quantity(life.temp_c, "degC"), "span": _weeks(session, life)}
    drawn = keep_curve(
        [Life(at.temp_c, at.low_days, at.high_days) for at in life.published.points],
        Life(life.temp_c, life.days.low, life.days.high),
        marks_c=(FREEZING_C, FRIDGE_C[voice.units]),
        words=(say("keep.here", temp=here["temp"]), say("keep.axis")),
        voice=voice,
    )
    finding = say("keep.finding", **here, crop=name, source=say(f"keep.source_{life.source}"))
    rows = [
        (say(f"keep.source_{other.source}"), other.form or say("keep.any_form"), _weeks(session, other))
        for other in storage_lives(session.crop(life.crop), life.temp_c)
    ]
    window = store_checks(session.crop(life.crop), life.temp_c).fridge_days
    if window is not None:
        rows.append((say("keep.fridge"), say("keep.any_form"), voice.range(in_weeks(window), 0)))
    table = pd.DataFrame(rows, columns=[say(f"keep.column_{part}") for part in ("source", "form", "span")])
    return charts.View(finding, table, charts.svg(drawn), say("keep.alt", **here, crop=name))


def _weeks(session: Session, life: StorageLife) -> str:
    return session.voice.range(in_weeks(life.days), 0)


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    """Say what frost, chill, dry air and ripening fruit do there."""
    found = store_checks(session.crop(values["crop"]), temp_c(values))
    told = [*_cold(session, found, temp_c(values))]
    if found.humidity:
        needs_mild = found.humidity == "damp" and found.chills.temp_c is not None
        told.append(Said("keep.damp_no_cold") if needs_mild else Said(f"keep.{found.humidity}"))
    gas = next(limit for _, limit in found.gas)
    if gas.verdict == "yes":
        told.append(Said("keep.gas" if gas.status == "published" else "keep.gas_unchecked"))
    if found.gives_gas:
        told.append(Said("keep.gives_gas"))
    return [*told, *(said for said in _life(session, values).assumptions if said.key != "keep.good_not_safe")]


def _cold(session: Session, found: StoreChecks, temp: float) -> list[Said]:
    told = []
    for name, limit in (("freezes", found.freezes), ("chills", found.chills)):
        if limit.verdict == "yes" and limit.temp_c is not None:
            at = {"limit": session.voice.quantity(Quantity(limit.temp_c, "degC"), 1)}
            told.append(Said(f"keep.{name}" if limit.status == "published" else f"keep.{name}_unchecked", at))
        elif name == "freezes" and limit.verdict == "unknown" and temp <= FREEZING_C:
            told.append(Said("keep.freezes_unknown", {"freezing": Quantity(FREEZING_C, "degC")}))
    return told


def _fridge(session: Session) -> float:
    return FRIDGE_C[session.voice.units]


def _guessed(session: Session) -> dict[str, Any]:
    spans = {"span": storage_life(GUESSED, _fridge(session)), "cold_span": storage_life(GUESSED, FREEZING_C)}
    temps = {"temp": Quantity(_fridge(session), "degC"), "cold": Quantity(FREEZING_C, "degC")}
    return {**temps, **{name: _weeks(session, life) for name, life in spans.items()}}


_SPEC = Spec(
    ID,
    Said("keep.title"),
    _controls,
    view,
    guess=Guess(
        "06.keep.guess",
        lambda session: Said("keep.question", {"temp": Quantity(_fridge(session), "degC")}),
        lambda session: [
            ("days", Said("keep.option_days")),
            ("weeks", Said("keep.option_weeks")),
            ("months", Said("keep.option_months")),
        ],
        lambda session: Said("keep.truth", _guessed(session)),
    ),
    working=_life,
    notes=_notes,
    caution=Said("keep.caution"),
)


# ---- the check -------------------------------------------------------------------------------------


def _asked(session: Session) -> dict[str, Any]:
    book = storage_life(GUESSED, FREEZING_C, source=BOOK)
    return {**_guessed(session), "book": _weeks(session, book)}


def _replies(session: Session) -> list[Reply]:
    said = _asked(session)
    return [
        Reply("book", Said("keep.check1_book", said), False, Said("keep.check1_book_reply", said)),
        Reply("right", Said("keep.check1_right", said), True, Said("keep.check1_right_reply")),
        Reply("days", Said("keep.check1_days"), False, Said("keep.check1_days_reply")),
    ]


_CHECK = Check("06.keep.check1", lambda session: Said("keep.check1_question", _asked(session)), _replies)
