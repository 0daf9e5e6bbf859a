"""What is sown, set out and picked, drawn below the freeze risk of the same season."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from textwrap import wrap
from typing import TYPE_CHECKING, Any

from gardenlib.charts import theme
from gardenlib.charts.drawing import Drawing, lanes
from gardenlib.charts.paper import LANE_PX
from gardenlib.charts.season import HUES, RISK_PX, Mark, draw_risk, read_day, read_halves, stretch, without_ground
from gardenlib.words import Voice

if TYPE_CHECKING:
    import pandas as pd


def sowings(
    curves: pd.DataFrame | None,
    lines: pd.DataFrame,
    *,
    season: tuple[date, date],
    voice: Voice,
    marks: Iterable[Mark] = (),
    risk: float | None = None,
    note: str = "",
) -> Any:
    """Draw the learner's sowings below the freeze risk of the same season.

    Parameters
    ----------
    curves : DataFrame or None
        As in `freeze_season`.
    lines : DataFrame
        Columns ``label`` (what stands above the planting's line), ``event`` ("sow_indoors", "harden_off",
        "set_out", "direct_sow", "harvest"), ``start`` and ``end`` (dates); rows of one label share a line.
    season, voice, marks, risk, note
        As in `freeze_season`; a line runs down from each mark through all plantings.

    Returns
    -------
    Drawn
        The season, `theme.CHART_PX` wide.
    """
    marks = [Mark(*mark) for mark in marks]
    halves = without_ground(read_halves(curves))
    plantings: dict[str, list[tuple[str, date, date]]] = {}
    for label, event, start, end in lines[["label", "event", "start", "end"]].itertuples(index=False):
        plantings.setdefault(label, []).append((event, read_day(start), read_day(end)))
    days = [mark.day for mark in marks] + [when for line in plantings.values() for _, *both in line for when in both]
    first, last = stretch(season, halves, {}, days)
    drawing = Drawing(first, last, left=20, right=4)
    top = draw_risk(drawing, season, halves, {}, marks, voice=voice, risk=risk, height=RISK_PX / 2, note=note)
    foot = top + 6
    for label, events in plantings.items():
        foot = _planting(drawing, label, events, foot, voice)
    for mark in marks:
        drawing.rule((mark.day, top), (mark.day, foot), HUES[mark.kind], width=1, dash=(1, 3))
    drawing.rule((first, foot), (last, foot), theme.INK, width=1)
    drawing.months(foot, voice)
    return drawing.chart(foot + LANE_PX + 4)


def _planting(drawing: Drawing, label: str, events: list[tuple[str, date, date]], top: float, voice: Voice) -> float:
    """Draw one planting: its name, its line, and each event's name under it; give the height of its foot."""
    rows_of_name = wrap(label, int(theme.CHART_PX / theme.text_px("n", bold=True)))
    for row, text in enumerate(rows_of_name):
        drawing.at_left(top + 2 + (row + 0.5) * LANE_PX, text, bold=True)
    line = top + len(rows_of_name) * LANE_PX + 10
    ends = [when for _, *both in events for when in both]
    drawing.rule((min(ends), line), (max(ends), line), theme.INK, width=1)
    boxes = []
    for event, start, end in events:
        _event(drawing, event, start, end, line)
        words = voice.say(f"charts.event.{event}")
        wide = theme.text_px(words)
        middle = (drawing.x(start) + drawing.x(end)) / 2
        beside = {"sow_indoors": drawing.x(end) - wide, "set_out": drawing.x(start), "direct_sow": drawing.x(start)}
        left = min(max(beside.get(event, middle - wide / 2), 0), theme.CHART_PX - wide)
        boxes.append((left, left + wide, words, start + (end - start) // 2))
    rows = lanes([(left, right) for left, right, *_ in boxes])
    for (left, _, words, half_way), row in zip(boxes, rows, strict=True):
        if row:
            drawing.rule((half_way, line + 4), (half_way, line + 7 + row * 13), theme.INK, width=1)
        drawing.text((half_way, line + 14 + row * 13), words, dx=left - drawing.x(half_way))
    return line + 14 + max(rows, default=0) * 13 + 10


def _event(drawing: Drawing, event: str, start: date, end: date, y: float) -> None:
    """Draw one event so that it is told by shape alone, a single day as wide as two."""
    end = max(end, start + timedelta(days=2))
    if event == "sow_indoors":
        drawing.rule((start, y), (end, y), theme.INK, width=2)
        drawing.dot((start, y), theme.INK, filled=False)
    elif event == "harden_off":
        drawing.rule((start, y), (end, y), theme.INK, width=5, dash=(2, 2))
    elif event == "harvest":
        for side in (-3, 3):
            drawing.rule((start, y + side), (end, y + side), theme.GROWING, width=2.5)
    else:
        drawing.rule((start, y), (end, y), theme.GROWING, width=9)
        if event == "direct_sow":
            for step in range(int((drawing.x(end) - drawing.x(start)) // 7) + 1):
                share = (step * 7 + 3) / max(drawing.x(end) - drawing.x(start), 7)
                drawing.dot((start + (end - start) * share, y), theme.PAPER, px=3, width=0)
