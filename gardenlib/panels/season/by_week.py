"""Page 07: what the plan would have given in which week."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts.supply import SupplyWeek, SupplyWords, supply_weeks
from gardenlib.panels import controls as c
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.panels.season.replay_here import ALL, of, plantings_here, plantings_offered, replay_here
from gardenlib.season import WeeklyYield, weekly_yield
from gardenlib.units import Range, in_system
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def fold(session: Session) -> w.Widget:
    """Offer the weeks of picking."""
    return more(session, Said("weekly.title"), 3, _SPEC)


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    offered = [(say("replay.whole_plan"), ALL), *plantings_offered(session)]
    return {"planting": c.choice(say("replay.which"), offered, ALL)}


def _weeks(session: Session, values: Mapping[str, Any]) -> WeeklyYield:
    replayed = replay_here(session, plantings_here(session)[0])
    return weekly_yield(replayed.table, replayed.planned, year=session.year, planting=values["planting"] or None)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw what came in each week, over all past seasons together."""
    say, voice, found = session.voice.say, session.voice, _weeks(session, values)
    rows, drawn = [], []
    for week, low, high, springs in found.table.itertuples(index=False):
        kg = voice.range(Range(low, high, "kg"), 1)
        rows.append((voice.date(week, "MMMd"), kg, of(voice, springs, found.seasons)))
        least, most = (in_system(value, "kg", voice.units)[0] for value in (low, high))
        drawn.append(SupplyWeek(week, least, most, 0.0, 0.0, 0.0, 0.0))
        if week == found.best_week:
            finding = say("weekly.finding", week=rows[-1][0], kg=kg, n=found.seasons)
    header = say("weekly.header", unit=say(f"weekly.unit_{voice.units}"))
    words = SupplyWords(header, say("weekly.low"), say("weekly.high"), "", "", "", "")
    columns = [say(f"weekly.column_{what}") for what in ("week", "kg", "springs")]
    alt = say("weekly.alt", first=rows[0][0], last=rows[-1][0], words=finding)
    chart = charts.svg(supply_weeks(drawn, words=words, voice=voice))
    return charts.View(finding, pd.DataFrame(rows, columns=columns), chart, alt)


_SPEC = Spec("07.weekly", Said("weekly.title"), _controls, view, working=_weeks)
