"""Page 04, the fold on soil that is warm enough."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.sowing import Emergence, SoilTemp, days_to_emerge, has_seed, soil_temp_from_air
from gardenlib.sowing.ask import as_temp
from gardenlib.units import Quantity, f_to_c
from gardenlib.words import Said
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

START_F = 50
RANGE_F = (20, 120)
WEEKS_AHEAD = (4, 8, 12)


def fold(session: Session) -> w.Widget:
    """Offer whether the soil is warm enough to sow."""
    return more(session, Said("warm.title"), 5, _SPEC, _FIRST, _COLD_BEANS)


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    ids = [i for i in session.crops_own_first if has_seed(session.crop(i))]
    ways = [(say("warm.way_typed"), "typed"), (say("warm.way_today"), "in 0")]
    ways += [(say("warm.way_in_weeks", n=n), f"in {n}") for n in WEEKS_AHEAD]
    in_us = session.voice.units == "us"
    low, high, start = (f if in_us else round(f_to_c(float(f))) for f in (*RANGE_F, START_F))
    # Each unit keeps its own number, so that a change of units never reads one as the other.
    name, label = ("temp_f", say("warm.temp_us")) if in_us else ("temp_c", say("warm.temp_metric"))
    return {
        "crop": c.choice(say("warm.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "way": c.choice(say("warm.way"), ways, "typed"),
        name: c.number(label, low, high, start, 1.0),
    }


def _soil(session: Session, weeks: int) -> SoilTemp:
    station = session.place.station
    daily = None if station is None else station.daily
    return soil_temp_from_air(daily, session.today + timedelta(weeks=weeks), warmth=session.place.warmth)


def _emergence(session: Session, values: Mapping[str, Any]) -> tuple[Emergence, SoilTemp | None]:
    crop = session.crop(values["crop"])
    if values["way"] != "typed":
        soil = _soil(session, int(values["way"].removeprefix("in ")))
        return days_to_emerge(crop, soil.temp_c, error_c=soil.error_c), soil
    temp_c = f_to_c(float(values["temp_f"])) if "temp_f" in values else float(values["temp_c"])
    return days_to_emerge(crop, temp_c), None


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show how long seed takes to come up."""
    say = session.voice.say
    found, soil = _emergence(session, values)
    name = session.crop_name(values["crop"])
    words = {
        "days": lambda days: say("warm.cell_days", n=days),
        "none": lambda days: say("warm.cell_none"),
        "not tested": lambda days: say("warm.cell_not_tested"),
    }
    rows = [
        (session.voice.quantity(Quantity(temp_c, "degC")), words[state](days)) for temp_c, state, days in found.tested
    ]
    table = pd.DataFrame(rows, columns=[say("warm.column_temp"), say("warm.column_days")]) if rows else None
    return charts.View(say(_finding(session, found, soil, name)), table, None, say("warm.alt", crop=name))


def _finding(session: Session, found: Emergence, soil: SoilTemp | None, name: str) -> Said:
    said: dict[str, Any] = {"temp": Quantity(found.soil_temp_c, "degC"), "crop": name}
    if soil is not None:
        said["error"] = session.voice.quantity(Quantity(soil.error_c, "degC_difference"), places=0)
        said["day"] = soil.day
    if found.days is None:
        if soil is None and found.reason is not None:
            return found.reason
        return Said("warm.finding_estimate_none", {**said, "reason": found.reason})
    days = Quantity(found.days, "days")
    if soil is None:
        return Said("warm.finding", {**said, "days": days})
    if found.span is None:
        return Said("warm.finding_estimate", {**said, "days": days})
    return Said("warm.finding_estimate_span", {**said, "span": found.span})


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    found, soil = _emergence(session, values)
    if soil is None:
        return found
    return Answer(
        steps=(*soil.steps, *found.steps),
        assumptions=(*soil.assumptions, *found.assumptions),
        sources=tuple(dict.fromkeys((*soil.sources, *found.sources))),
    )


_SPEC = Spec(
    "04.warm",
    Said("warm.title"),
    _controls,
    view,
    guess=Guess(
        "04.warm.guess",
        lambda session: Said("warm.question", {"warm": as_temp(86), "cold": as_temp(41)}),
        lambda session: [
            ("12", Said("warm.option_12")),
            ("25", Said("warm.option_25")),
            ("50", Said("warm.option_50")),
        ],
        lambda session: Said("warm.truth"),
    ),
    working=_working,
)


# ---- the checks: two rows of the published table ---------------------------------------------------


_FIRST = Check(
    "04.warm.check1",
    lambda session: Said("warm.check1_question", {"cold": as_temp(41), "mild": as_temp(59)}),
    lambda session: [
        Reply("neighbor", Said("warm.check1_neighbor"), False, Said("warm.check1_neighbor_reply")),
        Reply("me", Said("warm.check1_me"), True, Said("warm.check1_me_reply")),
        Reply("both", Said("warm.check1_both"), False, Said("warm.check1_both_reply")),
    ],
)
_COLD_BEANS = Check(
    "04.warm.check2",
    lambda session: Said("warm.check2_question", {"temp": as_temp(50)}),
    lambda session: [
        Reply("days", Said("warm.check2_days"), False, Said("warm.check2_days_reply")),
        Reply("none", Said("warm.check2_none"), True, Said("warm.check2_none_reply", {"mild": as_temp(59)})),
        Reply("untested", Said("warm.check2_untested"), False, Said("warm.check2_untested_reply")),
    ],
)
