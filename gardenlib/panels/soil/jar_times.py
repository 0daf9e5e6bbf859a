"""The panel on when to mark a jar: how long sand and silt take to sink through its water."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts, tables
from gardenlib.panels import controls as c
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Spec
from gardenlib.soil import JarTimes, jar_times
from gardenlib.units import MM_PER_INCH, Quantity, Range, f_to_c
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

GUESSED = {"us": (4 * MM_PER_INCH / 1000, f_to_c(68.0)), "metric": (0.1, 20.0)}


def _controls(session: Session) -> dict[str, w.Widget]:
    say, us = session.voice.say, session.voice.units == "us"
    length, temp = ("us_length", "us_temp") if us else ("metric_length", "metric_temp")
    height, warmth = say("jar.height", unit=say(f"jar.unit_{length}")), say("jar.water", unit=say(f"jar.unit_{temp}"))
    if us:
        return {"height_in": c.number(height, 2, 20, 6, 0.5), "water_f": c.number(warmth, 35, 100, 68, 1)}
    return {"height_cm": c.number(height, 5, 50, 15, 0.5), "water_c": c.number(warmth, 2, 38, 20, 1)}


def _times(session: Session, values: Mapping[str, Any]) -> JarTimes:
    if "height_in" in values:
        return jar_times(values["height_in"] * MM_PER_INCH / 1000, f_to_c(float(values["water_f"])))
    return jar_times(values["height_cm"] / 100, float(values["water_c"]))


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show the times beside the layers of the jar."""
    say, times = session.voice.say, _times(session, values)
    took = {
        "sand": session.voice.quantity(Quantity(times.sand_seconds, "seconds"), places=0),
        "silt": session.voice.quantity(Quantity(times.silt_hours, "hours"), places=0),
        "clay": say("jar.clay_time"),
    }
    rows = [(say(f"texture.{part}"), time) for part, time in took.items()]
    table = pd.DataFrame(rows, columns=[say("jar.column_layer"), say("jar.column_time")])
    labels = {part: say("jar.label", layer=Said(f"texture.{part}"), time=time) for part, time in took.items()}
    picture = charts.sketch("soil_jar", water=say("jar.label_water"), **labels)
    finding = say("jar.times_finding", sand=took["sand"], silt=took["silt"])
    return charts.View(finding, table, picture, say("jar.times_alt"))


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    hours = tables.table("jar_protocols")["silt_after_hours"]
    return [Said("jar.books", {"hours": Range(float(hours.min()), float(hours.max()), "hours")})]


def _asked(session: Session) -> tuple[float, float]:
    return GUESSED["us" if session.voice.units == "us" else "metric"]


def _question(session: Session) -> Said:
    height, temp = _asked(session)
    return Said("jar.question", {"height": Quantity(height * 100, "cm"), "temp": Quantity(temp, "degC")})


def _truth(session: Session) -> Said:
    return Said("jar.truth", {"hours": Quantity(jar_times(*_asked(session)).silt_hours, "hours")})


TIMES = Spec(
    "02.jar.times",
    Said("jar.times_title"),
    _controls,
    view,
    guess=Guess(
        "02.jar.guess",
        _question,
        lambda session: [(option, Said(f"jar.option_{option}")) for option in ("minutes", "hour", "hours")],
        _truth,
    ),
    working=_times,
    notes=_notes,
)
