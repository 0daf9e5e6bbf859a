"""The learner's own season: freeze risk falling and rising, and what is sown in between."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from itertools import pairwise
from textwrap import wrap
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

import numpy as np

from gardenlib.charts import theme
from gardenlib.charts.drawing import Drawing, Flag, hang, lanes
from gardenlib.charts.paper import LANE_PX
from gardenlib.words import Voice

if TYPE_CHECKING:
    import pandas as pd

RISK_PX = 120
"""Height of ten springs out of ten."""


class Mark(NamedTuple):
    """A date read off the season.

    Parameters
    ----------
    day : date
        The date.
    label : str
        What it is, in a word or two; the date is written beside it.
    kind : {"choice", "cold", "station", "garden"}
        The learner's own date, a published one, the one at the station, or when the garden opens or closes.
    risk : float or None
        Where it was read off (0 to 1); None reads it off the curve.
    """

    day: date
    label: str
    kind: Literal["choice", "cold", "station", "garden"] = "choice"
    risk: float | None = None


def freeze_season(
    curves: pd.DataFrame | None,
    *,
    season: tuple[date, date],
    voice: Voice,
    marks: Iterable[Mark] = (),
    risk: float | None = None,
    opens: date | None = None,
    closes: date | None = None,
    dots: pd.DataFrame | None = None,
    note: str = "",
) -> Any:
    """Draw the freeze risk over a season and the dates read off it.

    Parameters
    ----------
    curves : DataFrame or None
        Columns ``half`` ("spring" or "fall"), ``day`` (datetime) and ``risk`` (0 to 1): share of springs with a
        freeze still to come, of falls with a freeze behind.  A half may be absent; where
        its days stop short of the season's end, a dashed line goes on at the same height (at least this risk).
    season : (date, date)
        First and last day of the growing year; in the south it runs over the turn of the year.
    voice : Voice
        How the class is spoken to.
    marks : iterable of Mark
        Dates to point out.
    risk : float, optional
        The chosen risk (0 to 1), drawn as a thin rule across.
    opens, closes : date, optional
        When the garden opens and closes.
    dots : DataFrame, optional
        Columns ``half`` and ``day``: single springs and falls, drawn for a half that has no curve.
    note : str
        A sentence to write into the picture, such as why there is no curve.

    Returns
    -------
    Drawn
        The season, `theme.CHART_PX` wide.
    """
    marks = [Mark(*mark) for mark in marks]
    for when, key in ((opens, "charts.opens"), (closes, "charts.closes")):
        if when is not None:
            marks.append(Mark(when, voice.say(key), "garden"))
    halves, singles = without_ground(read_halves(curves)), read_halves(dots)
    first, last = stretch(season, halves, singles, [mark.day for mark in marks])
    drawing = Drawing(first, last, left=20, right=4)
    foot = draw_risk(drawing, season, halves, singles, marks, voice=voice, risk=risk, height=RISK_PX, note=note)
    if opens is not None and closes is not None:
        drawing.rule((max(opens, first), foot), (min(closes, last), foot), theme.INK, width=4)
    drawing.months(foot, voice)
    return drawing.chart(foot + LANE_PX + 4)


HUES = {"choice": theme.INK, "cold": theme.COLD, "station": theme.INK, "garden": theme.INK}
_DASHES: dict[str, Sequence[float]] = {"choice": (), "cold": (), "station": (4, 3), "garden": (1, 3)}

Halves = dict[str, tuple[list[date], "np.ndarray"]]


def read_day(when: Any) -> date:
    """Give the day of a date or a timestamp."""
    return date(when.year, when.month, when.day)


def read_halves(frame: pd.DataFrame | None) -> Halves:
    """Sort a table of springs and falls into days and risks by half."""
    if frame is None or not len(frame):
        return {}
    found: Halves = {}
    for half, rows in frame.sort_values("day", kind="stable").groupby("half"):
        risk = rows["risk"].to_numpy(float) if "risk" in rows else np.zeros(len(rows))
        found[str(half)] = (rows["day"].to_numpy("datetime64[D]").tolist(), risk)
    return found


def without_ground(halves: Halves) -> Halves:
    """Leave out the days without any risk, but for the one where a curve meets the ground."""
    trimmed: Halves = {}
    for half, (days, risk) in halves.items():
        some = np.flatnonzero(risk > 0)
        if some.size:
            part = slice(0, some[-1] + 2) if half == "spring" else slice(max(some[0] - 1, 0), None)
            trimmed[half] = days[part], risk[part]
    return trimmed


def stretch(season: tuple[date, date], halves: Halves, singles: Halves, days: list[date]) -> tuple[date, date]:
    """Cut the growing year down to where something happens, in whole months, six at least."""
    spring, fall = (halves.get(name) for name in ("spring", "fall"))
    low, high = list(days), list(days)
    if spring:
        low.append(next((d for d, r in zip(*spring, strict=True) if r < 0.995), spring[0][-1]))
    if fall:
        high.append(next((d for d, r in zip(*fall, strict=True) if r > 0.995), fall[0][-1]))
    for both, _ in singles.values():
        low, high = low + both, high + both
    if not low or not high:
        return season
    start = min(*low, season[0] + timedelta(days=90)) - timedelta(days=8)
    end = max(*high, season[1] - timedelta(days=90)) + timedelta(days=8)
    start, end = max(start, min(season[0], *low)), min(end, max(season[1], *high))
    return start.replace(day=1), (end.replace(day=1) + timedelta(days=32)).replace(day=1) - timedelta(days=1)


def draw_risk(
    drawing: Drawing,
    season: tuple[date, date],
    halves: Halves,
    singles: Halves,
    marks: list[Mark],
    *,
    voice: Voice,
    risk: float | None,
    height: float,
    note: str,
) -> float:
    """Draw the risk with its words above it; give the height of its foot."""
    top = _headers(drawing, halves, singles, voice)
    turn = season[0] + (season[1] - season[0]) / 2
    flags = [
        Flag(
            mark.day,
            voice.say("charts.mark", label=mark.label, day=voice.date(mark.day, "MMMd")),
            HUES[mark.kind],
            mark.kind == "choice",
            _DASHES[mark.kind],
        )
        for mark in marks
    ]
    top = hang(drawing, flags, top, height + 6, turn) + 6
    foot = top + height

    def y(share: float) -> float:
        return foot - share * height

    for half, curve in halves.items():
        inside = [(when, y(share)) for when, share in zip(*curve, strict=True) if drawing.first <= when <= drawing.last]
        points = _bends(inside)
        # Published risks stop short of the season's ends; beyond them the risk is known to be at least as high.
        reach = (
            [(drawing.first, points[0][1]), points[0]]
            if half == "spring"
            else [points[-1], (drawing.last, points[-1][1])]
        )
        drawing.area([reach[0], *points] if half == "spring" else [*points, reach[1]], foot, theme.COLD)
        drawing.line(points, theme.COLD)
        if reach[0][0] < reach[1][0]:
            drawing.line(reach, theme.COLD, dash=(3, 4))
    for half, (days, _) in singles.items():
        if half not in halves:
            _stack(drawing, days, foot)
    if halves:
        _out_of_ten(drawing, y, risk)
    elif note and not singles:
        _note(drawing, note, top + height / 2, marks)
    drawing.rule((drawing.first, foot), (drawing.last, foot), theme.INK, width=1)
    for mark in marks:
        if mark.kind != "garden":
            share = _share(mark, halves.get("spring" if mark.day < turn else "fall"))
            drawing.dot((mark.day, y(share)), HUES[mark.kind], filled=mark.kind == "choice")
    return foot


def _bends(points: list[tuple[date, float]]) -> list[tuple[date, float]]:
    """Leave out the points inside a level stretch; the line through the rest is the same."""
    return [
        point
        for index, point in enumerate(points)
        if not (0 < index < len(points) - 1 and points[index - 1][1] == point[1] == points[index + 1][1])
    ]


def _headers(drawing: Drawing, halves: Halves, singles: Halves, voice: Voice) -> float:
    rows = 0
    for half, put in (("spring", drawing.at_left), ("fall", drawing.at_right)):
        if half in halves or half in singles:
            key = f"charts.{half}_{'risk' if half in halves else 'dots'}"
            words = voice.say(key).splitlines()
            rows = max(rows, len(words))
            for row, text in enumerate(words):
                put(LANE_PX / 2 + row * 14, text)
    return rows * 14 + (6 if rows else 0)


def _out_of_ten(drawing: Drawing, y: Any, risk: float | None) -> None:
    chosen = None if risk is None else risk * 10
    for tens in (0, 5, 10):
        if chosen is None or abs(tens - chosen) * abs(y(0.1) - y(0)) > 11:
            drawing.text((drawing.first, y(tens / 10)), str(tens), align="right", dx=-5)
            drawing.rule((drawing.first, y(tens / 10)), (drawing.last, y(tens / 10)), theme.FAINT, width=1)
    if risk is not None and chosen is not None:
        drawing.text((drawing.first, y(risk)), f"{chosen:.3g}", align="right", bold=True, dx=-5)
        drawing.rule((drawing.first, y(risk)), (drawing.last, y(risk)), theme.INK, width=1)


def _note(drawing: Drawing, note: str, y: float, marks: list[Mark]) -> None:
    """Write a sentence into the widest stretch that no mark runs through."""
    edges = [drawing.left, *sorted(drawing.x(mark.day) for mark in marks), drawing.right]
    left, right = max(pairwise(edges), key=lambda pair: pair[1] - pair[0])
    rows = wrap(note, int((right - left - 12) / (theme.text_px("n"))))
    for row, text in enumerate(rows):
        middle = (left + right) / 2 - drawing.left
        drawing.text((drawing.first, y + (row - (len(rows) - 1) / 2) * LANE_PX), text, align="center", dx=middle)


def _stack(drawing: Drawing, days: list[date], foot: float) -> None:
    """Draw one ring a season, piled up where they would touch."""
    for when, row in zip(days, lanes([(drawing.x(d) - 4, drawing.x(d) + 4) for d in days], gap=1), strict=True):
        drawing.dot((when, foot - 7 - row * 10), theme.COLD, filled=False, px=7)


def _share(mark: Mark, curve: tuple[list[date], np.ndarray] | None) -> float:
    """Read a date off its curve; a date without one stands on the ground."""
    if mark.risk is not None or curve is None:
        return mark.risk or 0.0
    days, shares = curve
    return float(np.interp(mark.day.toordinal(), [when.toordinal() for when in days], shares))
