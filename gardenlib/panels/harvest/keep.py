"""Page 06: how long a crop stays good in the learner's own fridge, cellar or shed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts.keep_curve import Life, keep_curve
from gardenlib.harvest import StorageLife, StoreChecks, readable_days, storage_life, storage_lives, store_checks
from gardenlib.harvest.keeping_rows import series_of
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.harvest.store_controls import storable, temp_c, thermometer
from gardenlib.panels.panel import Panel, Spec
from gardenlib.problems import InputProblem
from gardenlib.units import Quantity, f_to_c
from gardenlib.words import Said
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "06.keep"
GUESSED = "cabbage_main"
BOOK = "handbook66_2002"
FREEZING_C = 0.0
FRIDGE_C = {"us": f_to_c(40.0), "metric": 4.0}
PORCH_C = {"us": f_to_c(60.0), "metric": 15.0}
MOST = "most"


def panel(session: Session) -> Panel:
    """Show how long a crop stays good at the temperature of the learner's own place."""
    return Panel(session, SPEC).show()


def check(session: Session) -> CheckBox:
    """Ask how a figure from a book is read."""
    return CheckBox(session, _CHECK).show()


def _controls(session: Session) -> dict[str, w.Widget]:
    say, ids = session.voice.say, storable(session)
    sources = dict.fromkeys(series.source for crop_id in ids for series in series_of(crop_id))
    offered = [(say("keep.source_most"), MOST), *((say(f"keep.source_{key}"), key) for key in sources)]
    return {
        "crop": c.choice(say("keep.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        **thermometer(session),
        "source": c.choice(say("keep.source"), offered, MOST),
    }


def _life(session: Session, values: Mapping[str, Any]) -> StorageLife | Said:
    """Ask for the life, or say which figures there are: frost and chill are told all the same."""
    say, crop = session.voice.say, session.crop(values["crop"])
    known = [series for series in series_of(crop.id) if values["source"] in {MOST, series.source}]
    if not known:
        names = dict.fromkeys(say(f"keep.source_{series.source}") for series in series_of(crop.id))
        said = {"source": say(f"keep.source_{values['source']}"), "crop": crop.name, "known": ", ".join(names)}
        return Said("keep.prints_nothing", said)
    try:
        return storage_life(crop, temp_c(values), source=known[0].source)
    except InputProblem as problem:
        if problem.key != "problem.keep.outside":
            raise
        where = {"span": known[0].temp_c, "temp": Quantity(temp_c(values), "degC")}
        source = say(f"keep.source_{known[0].source}")
        return Said("keep.finding_outside", {"source": source, "crop": crop.name, **where})


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw the published lives and the learner's place among them; the table sets all sources side by side."""
    say, voice, life = session.voice.say, session.voice, _life(session, values)
    if isinstance(life, Said):
        return charts.View(say(life), _table(session, values), None, say(life))
    name = session.crop_name(life.crop)
    here = {"temp": Quantity(life.temp_c, "degC"), "span": _weeks(session, life)}
    drawn = keep_curve(
        [Life(at.temp_c, at.low_days, at.high_days) for at in life.published.points],
        Life(life.temp_c, life.days.low, life.days.high),
        marks_c=(FREEZING_C, FRIDGE_C[voice.units]),
        words=(say("keep.here", temp=here["temp"]), say("keep.axis")),
        voice=voice,
    )
    said = {**here, "crop": name, "source": say(f"keep.source_{life.source}"), "form": _form(session, life.form)}
    finding = say("keep.finding_form" if life.form else "keep.finding", **said)
    return charts.View(finding, _table(session, values), charts.svg(drawn), say("keep.alt", **here, crop=name))


def _table(session: Session, values: Mapping[str, Any]) -> pd.DataFrame | None:
    """Set side by side what each source says at this temperature, and the window of a home refrigerator."""
    say, voice, crop = session.voice.say, session.voice, session.crop(values["crop"])
    rows = [
        (say(f"keep.source_{other.source}"), _form(session, other.form), _weeks(session, other))
        for other in storage_lives(crop, temp_c(values))
    ]
    window = store_checks(crop, temp_c(values)).fridge_days
    if window is not None:
        rows.append((say("keep.fridge"), say("keep.any_form"), voice.range(readable_days(window), 0)))
    columns = [say(f"keep.column_{part}") for part in ("source", "form", "span")]
    return pd.DataFrame(rows, columns=columns) if rows else None


def _form(session: Session, form: str) -> str:
    return session.voice.say(f"keep.form_{form.replace(' ', '_')}" if form else "keep.any_form")


def _weeks(session: Session, life: StorageLife) -> str:
    return session.voice.range(readable_days(life.days), 0)


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    """Say what frost, chill, dry air and ripening fruit do there."""
    found = store_checks(session.crop(values["crop"]), temp_c(values))
    told = [*_cold(session, found, temp_c(values))]
    if found.humidity == "dry":
        told.append(Said("keep.dry"))
    elif found.humidity:
        told.append(Said("keep.damp" if found.chills.temp_c is None else "keep.damp_no_cold"))
    if found.gives_gas:
        told.append(Said("keep.gives_gas"))
    elif found.gas.verdict == "yes":
        told.append(Said("keep.gas" if found.gas.status == "published" else "keep.gas_unchecked"))
    life = _life(session, values)
    assumed = () if isinstance(life, Said) else life.assumptions
    return [*told, *(said for said in assumed if said.key != "keep.good_not_safe")]


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    life = _life(session, values)
    return Answer(assumptions=(life,)) if isinstance(life, Said) else life


def _cold(session: Session, found: StoreChecks, temp: float) -> list[Said]:
    told = []
    for name, limit in (("freezes", found.freezes), ("chills", found.chills)):
        if limit.verdict == "yes" and limit.temp_c is not None:
            at = {"limit": session.voice.quantity(Quantity(limit.temp_c, "degC"), 1)}
            told.append(Said(f"keep.{name}_{limit.status}", at))
    if found.freezes.verdict == "unknown" and temp <= FREEZING_C:
        told.append(Said("keep.freezes_unknown", {"freezing": Quantity(FREEZING_C, "degC")}))
    return told


def here_c(session: Session) -> float:
    """Give the temperature of the learner's store as it was read last, else that of a fridge, degrees Celsius."""
    kept = session.kept(ID)
    return temp_c(kept) if kept.keys() & {"temp_us", "temp_metric"} else _fridge(session)


def _fridge(session: Session) -> float:
    return FRIDGE_C[session.voice.units]


def _guessed(session: Session) -> dict[str, Any]:
    spans = {"span": storage_life(GUESSED, _fridge(session)), "cold_span": storage_life(GUESSED, FREEZING_C)}
    temps = {"temp": Quantity(_fridge(session), "degC"), "cold": Quantity(FREEZING_C, "degC")}
    return {**temps, **{name: _weeks(session, life) for name, life in spans.items()}}


SPEC = Spec(
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
    working=_working,
    notes=_notes,
    caution=Said("keep.caution"),
)


# ---- the check -------------------------------------------------------------------------------------


def _asked(session: Session) -> dict[str, Any]:
    """Ask for a place warmer than the fridge, whose weeks are read off the curve."""
    porch_c = PORCH_C[session.voice.units]
    lives = {"book": storage_life(GUESSED, FREEZING_C, source=BOOK), "there": storage_life(GUESSED, porch_c)}
    said = {name: _weeks(session, life) for name, life in lives.items()}
    return {**_guessed(session), **said, "porch": Quantity(porch_c, "degC")}


def _replies(session: Session) -> list[Reply]:
    said = _asked(session)
    return [
        Reply("book", Said("keep.check1_book", said), False, Said("keep.check1_book_reply", said)),
        Reply("right", Said("keep.check1_right", said), True, Said("keep.check1_right_reply")),
        Reply("fridge", Said("keep.check1_fridge", said), False, Said("keep.check1_fridge_reply", said)),
    ]


_CHECK = Check("06.keep.check1", lambda session: Said("keep.check1_question", _asked(session)), _replies)
