"""In which weeks a pest's events come, beside the learner's plantings."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from textwrap import wrap
from typing import Any, NamedTuple

from gardenlib.charts import theme
from gardenlib.charts.drawing import Drawing
from gardenlib.charts.paper import LANE_PX
from gardenlib.words import Voice

NAME_LETTERS = 40


class Flight(NamedTuple):
    """One event: its name, the days by which it came in an early, a middle and a late season, and this year's."""

    name: str
    early: date | None
    middle: date | None
    late: date | None
    reached: date | None = None


class Planting(NamedTuple):
    """One planting: its name, and the first and last day on which it stands in the bed."""

    name: str
    start: date
    end: date


def flights(
    events: Sequence[Flight], plantings: Sequence[Planting], *, season: tuple[date, date], voice: Voice, today: date
) -> Any:
    """Draw events as stretches of days, plantings above them.

    Parameters
    ----------
    events : sequence of Flight
        What happens; an event without an early day is left out.
    plantings : sequence of Planting
        What stands in the bed.
    season : (date, date)
        The growing year; months in which nothing happens are left out.
    voice : Voice
        Language of the months and of the words at the line of today.
    today : date
        Where the line of today stands, if it lies in the season.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    season = _stretch(events, plantings, season)
    drawing = Drawing(*season, left=6, right=6)
    foot = float(LANE_PX) if season[0] <= today <= season[1] else 0.0
    lines_from = foot
    for planting in plantings:
        foot = _name(drawing, planting.name, foot)
        start, end = (min(max(day, season[0]), season[1]) for day in (planting.start, planting.end))
        drawing.rule((start, foot + 6), (end, foot + 6), theme.GROWING, width=9)
        foot += LANE_PX + 2
    for event in events:
        if event.early is not None:
            foot = _event(drawing, event, _name(drawing, event.name, foot))
    if lines_from:
        drawing.rule((today, lines_from - 2), (today, foot), theme.INK, width=1, dash=(2, 3))
        words = voice.say("charts.today")
        left = min(max(drawing.x(today) - theme.text_px(words) / 2, 0), theme.CHART_PX - theme.text_px(words))
        drawing.text((today, lines_from / 2 - 2), words, dx=left - drawing.x(today))
    drawing.rule((season[0], foot), (season[1], foot), theme.INK, width=1)
    drawing.months(foot, voice)
    return drawing.chart(foot + LANE_PX + 4)


def _stretch(events: Sequence[Flight], plantings: Sequence[Planting], season: tuple[date, date]) -> tuple[date, date]:
    """Leave out the months before and after all that is drawn."""
    days = [day for event in events for day in event[1:] if day] + [day for one in plantings for day in one[1:]]
    if not days or any(event.late is None for event in events):
        return season
    return max(season[0], min(days).replace(day=1)), min(season[1], max(days) + timedelta(days=21))


def _name(drawing: Drawing, name: str, top: float) -> float:
    for row in wrap(name, NAME_LETTERS):
        drawing.text((drawing.first, top + LANE_PX / 2), row, dx=-drawing.left)
        top += LANE_PX
    return top


def _event(drawing: Drawing, event: Flight, top: float) -> float:
    """Draw one event: a line from an early to a late season, a dot in the middle, a ring for this year."""
    y, early = top + 7, event.early or drawing.first
    late = event.late or drawing.last
    drawing.rule((early, y), (late, y), theme.INK, width=4, dash=() if event.late else (4, 3))
    drawing.rule((early, y - 6), (early, y + 6), theme.INK, width=2)
    if event.late:
        drawing.rule((late, y - 6), (late, y + 6), theme.INK, width=2)
    if event.middle is not None:
        drawing.dot((event.middle, y), theme.INK, px=11)
    if event.reached is not None:
        drawing.dot((event.reached, y), theme.INK, filled=False, px=15)
    return top + LANE_PX + 4
