"""What plantings give, week by week, against what is eaten."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from math import ceil
from typing import Any, NamedTuple

from gardenlib.charts import theme
from gardenlib.charts.drawing import Drawing
from gardenlib.charts.paper import LANE_PX
from gardenlib.words import Voice

TALL_PX = 120
STRIP_PX = 9
FEWEST_WEEKS = 10
KEY_PX = 26
ROOMY_PX = 14


class SupplyWeek(NamedTuple):
    """One week: its first day, servings that come in (low and high end), eaten, from store, lacking, and spoiled."""

    week: date
    low: float
    high: float
    need: float
    from_store: float
    gap: float
    too_much: float


class SupplyWords(NamedTuple):
    """The words at the picture: above its axis, and in its key."""

    header: str
    low: str
    high: str
    need: str
    store: str
    little: str
    much: str


def supply_weeks(weeks: Sequence[SupplyWeek], *, words: SupplyWords, voice: Voice) -> Any:
    """Draw what comes in as bars and what is eaten as a line; weeks with too little or too much are marked below.

    Parameters
    ----------
    weeks : sequence of SupplyWeek
        The weeks of the season; those before and after all that happens are left out.
    words : SupplyWords
        What the parts are called.
    voice : Voice
        Language of the months and numbers.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    shown = _shown(weeks)
    top, step = _ticks(max(max(week.high, week.need) for week in shown))
    left = max(26, theme.text_px(voice.number(top)) + 7)
    drawing = Drawing(shown[0].week, shown[-1].week + timedelta(days=7), left=left, right=4)
    drawing.at_left(LANE_PX / 2, words.header)
    foot = LANE_PX + 8.0 + TALL_PX

    def y(value: float) -> float:
        return foot - value / top * TALL_PX

    for tick in range(round(top / step) + 1):
        drawing.rule((drawing.first, y(tick * step)), (drawing.last, y(tick * step)), theme.FAINT, width=1)
        drawing.text((drawing.first, y(tick * step)), voice.number(tick * step), align="right", dx=-5)
    wide = (drawing.right - drawing.left) / len(shown)
    for week in shown:
        _bar(drawing, week, wide, y)
    eaten = [week for week in shown if week.need]
    if eaten:
        end = eaten[-1].week + timedelta(days=7)
        drawing.rule((eaten[0].week, y(eaten[0].need)), (end, y(eaten[0].need)), theme.INK, width=3)
    drawing.rule((drawing.first, foot), (drawing.last, foot), theme.INK, width=1)
    kinds = [kind for kind in ("gap", "too_much") if any(_is_marked(week, kind) for week in shown)]
    for row, kind in enumerate(kinds):
        for week in shown:
            if _is_marked(week, kind):
                _mark(drawing, kind, (week.week, foot + (row + 0.7) * STRIP_PX), wide)
    foot += len(kinds) * STRIP_PX + 3
    drawing.months(foot, voice)
    return drawing.chart(_key(drawing, foot + 2 * LANE_PX + 2, words, kinds, shown))


def _shown(weeks: Sequence[SupplyWeek]) -> Sequence[SupplyWeek]:
    """Leave out the weeks before and after all that happens, but for a few."""
    busy = [place for place, week in enumerate(weeks) if week.high or week.need]
    first, last = (max(busy[0] - 1, 0), busy[-1] + 1) if busy else (0, len(weeks) - 1)
    last = max(last, first + FEWEST_WEEKS - 1)
    return weeks[first : last + 1]


def _ticks(most: float) -> tuple[float, float]:
    """Give the top of the axis and the step of its ticks."""
    step = next((s * 10.0**power for power in range(-1, 7) for s in (1, 2, 5) if most / (s * 10.0**power) <= 5), most)
    return max(ceil(most / step - 1e-9), 1) * step, step


def _bar(drawing: Drawing, week: SupplyWeek, wide: float, y: Any) -> None:
    """Draw a week: filled up to the low end, an outline to the high end, a broken one for what the store gives."""
    middle = week.week + timedelta(days=3)
    half = timedelta(days=3 if wide > ROOMY_PX else 2)
    if week.low:
        drawing.rule((middle, y(0)), (middle, y(week.low)), theme.GROWING, width=2 * half.days / 7 * wide + 1.5)
    if week.high > week.low:
        _outline(drawing, (middle - half, middle + half), (y(week.low), y(week.high)), theme.GROWING, ())
    if week.from_store:
        ends = y(week.low), y(week.low + week.from_store)
        _outline(drawing, (middle - half, middle + half), ends, theme.INK, (2, 2))


def _outline(
    drawing: Drawing, days: tuple[date, date], ends: tuple[float, float], hue: str, dash: Sequence[float]
) -> None:
    corners = [(days[0], ends[0]), (days[0], ends[1]), (days[1], ends[1]), (days[1], ends[0])]
    drawing.line(corners, hue, width=1.5, dash=dash)


def _is_marked(week: SupplyWeek, kind: str) -> bool:
    return bool(getattr(week, kind) > 1e-6)


def _mark(drawing: Drawing, kind: str, place: tuple[date, float], wide: float) -> None:
    """Mark a week below the axis: a ring for too little, a filled dot for too much."""
    middle = (place[0] + timedelta(days=3), place[1])
    drawing.dot(middle, theme.INK, filled=kind == "too_much", px=min(7, wide - 1), width=1.5)


def _key(drawing: Drawing, top: float, words: SupplyWords, kinds: Sequence[str], shown: Sequence[SupplyWeek]) -> float:
    """Write what each look means, below the picture; give the drawing's height."""
    left, days = drawing.first, (drawing.last - drawing.first).days
    right = left + timedelta(days=max(round(KEY_PX / (drawing.right - drawing.left) * days), 1))
    parts = [("low", words.low), ("high", words.high)]
    if any(week.need for week in shown):
        parts.insert(0, ("need", words.need))
    if any(week.from_store > 1e-6 for week in shown):
        parts.append(("store", words.store))
    parts += [(kind, words.little if kind == "gap" else words.much) for kind in kinds]
    for kind, text in parts:
        if kind == "need":
            drawing.rule((left, top), (right, top), theme.INK, width=3)
        elif kind == "low":
            drawing.rule((left, top), (right, top), theme.GROWING, width=9)
        elif kind == "high":
            _outline(drawing, (left, right), (top + 5, top - 4), theme.GROWING, ())
        elif kind == "store":
            _outline(drawing, (left, right), (top + 5, top - 4), theme.INK, (2, 2))
        else:
            drawing.dot((left + (right - left) / 2, top), theme.INK, filled=kind == "too_much", px=7, width=1.5)
        drawing.text((right, top), text, dx=6)
        top += LANE_PX
    return top
