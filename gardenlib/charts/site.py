"""Daylight and warmth over a year."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from math import ceil, floor
from typing import TYPE_CHECKING, Any

from gardenlib.charts import theme
from gardenlib.charts.drawing import Drawing, Flag, hang
from gardenlib.charts.paper import LANE_PX
from gardenlib.units import in_system
from gardenlib.words import Voice

if TYPE_CHECKING:
    import pandas as pd

CURVE_PX = 130
_LIMIT_HUES = {"choice": theme.INK, "cold": theme.COLD, "growing": theme.GROWING, "heat": theme.HEAT}


def day_length(
    days: pd.DataFrame,
    *,
    voice: Voice,
    limits: Sequence[tuple[float, str, str]] = (),
    marks: Iterable[tuple[date, str]] = (),
) -> Any:
    """Draw the hours of daylight over a year.

    Parameters
    ----------
    days : DataFrame
        Columns ``day`` (datetime) and ``hours``.
    voice : Voice
        How the class is spoken to.
    limits : sequence of (hours, label, kind)
        Lines across, named at the line; kind is "choice", "cold", "growing" or "heat".
    marks : iterable of (date, label)
        Dates to point out on the curve.

    Returns
    -------
    Drawn
        The curve, `theme.CHART_PX` wide.
    """
    when = [date(d.year, d.month, d.day) for d in days["day"]]
    hours, header = days["hours"].tolist(), voice.say("charts.daylight")
    return _curve(when, hours, voice=voice, header=header, limits=limits, marks=marks, hue=theme.INK)


def warmth(
    days: pd.DataFrame,
    *,
    voice: Voice,
    limits: Sequence[tuple[float, str, str]] = (),
    marks: Iterable[tuple[date, str]] = (),
) -> Any:
    """Draw the warmth of a typical year, in the class's units.

    Parameters
    ----------
    days : DataFrame
        Columns ``day`` (datetime), ``mean_c`` and, where the spread is known, ``low_c`` and ``high_c`` (degC).
    voice : Voice
        How the class is spoken to.
    limits : sequence of (temp_c, label, kind)
        Lines across, named at the line; kind is "choice", "cold", "growing" or "heat".
    marks : iterable of (date, label)
        Dates to point out on the curve.

    Returns
    -------
    Drawn
        The curve, `theme.CHART_PX` wide.
    """

    def read(temp_c: float) -> float:
        return in_system(float(temp_c), "degC", voice.units)[0]

    when = [date(d.year, d.month, d.day) for d in days["day"]]
    band = None
    if "low_c" in days and days["low_c"].notna().all():
        band = ([read(t) for t in days["low_c"]], [read(t) for t in days["high_c"]])
    unit = voice.say(f"charts.{voice.units}_temp")
    header = voice.say("charts.warmth_spread", unit=unit) if band else voice.say("charts.warmth", unit=unit)
    shown = [(read(temp), label, kind) for temp, label, kind in limits]
    mean = [read(t) for t in days["mean_c"]]
    return _curve(when, mean, voice=voice, header=header, limits=shown, marks=marks, hue=theme.GROWING, band=band)


def _curve(
    when: list[date],
    values: list[float],
    *,
    voice: Voice,
    header: str,
    limits: Sequence[tuple[float, str, str]],
    marks: Iterable[tuple[date, str]],
    hue: str,
    band: tuple[list[float], list[float]] | None = None,
) -> Any:
    drawing = Drawing(when[0], when[-1], left=26, right=4)
    rows = header.splitlines()
    for row, text in enumerate(rows):
        drawing.at_left(LANE_PX / 2 + row * 14, text)
    flags = [Flag(at, voice.say("charts.mark", label=label, day=voice.date(at, "MMMd"))) for at, label in marks]
    top = hang(drawing, flags, len(rows) * 14 + 4, CURVE_PX + 6, when[len(when) // 2]) + 6
    foot = top + CURVE_PX

    everything = [*values, *(band[0] + band[1] if band else []), *(value for value, *_ in limits)]
    step = next(s for s in (1, 2, 5, 10, 20, 50, 100) if (max(everything) - min(everything)) / s <= 5)
    low, high = floor(min(everything) / step) * step, ceil(max(everything) / step) * step

    def y(value: float) -> float:
        return foot - (value - low) / max(high - low, step) * CURVE_PX

    for tick in range(low, high + 1, step):
        drawing.rule((drawing.first, y(tick)), (drawing.last, y(tick)), theme.FAINT, width=1)
        drawing.text((drawing.first, y(tick)), voice.number(float(tick), 0), align="right", dx=-5)
    if band:
        points = [(at, y(value)) for at, value in zip(when, band[1], strict=True)]
        drawing.area(points[::3], [y(value) for value in band[0]][::3], hue)
    drawing.line([(at, y(value)) for at, value in zip(when, values, strict=True)][::3], hue, width=3)
    for value, label, kind in limits:
        drawing.rule((drawing.first, y(value)), (drawing.last, y(value)), _LIMIT_HUES[kind], width=2, dash=(6, 4))
        spot = _clear_spot(drawing, when, [y(v) for v in values], y(value) - 9, theme.text_px(label))
        drawing.text((drawing.first, y(value) - 9), label, dx=spot - drawing.left)
    drawing.rule((drawing.first, foot), (drawing.last, foot), theme.INK, width=1)
    drawing.months(foot, voice)
    at_day = dict(zip(when, values, strict=True))
    for flag in flags:
        drawing.dot((flag.day, y(at_day[flag.day])), theme.INK)
    return drawing.chart(foot + LANE_PX + 4)


def _clear_spot(drawing: Drawing, when: list[date], heights: list[float], at: float, wide: float) -> float:
    """Find where along a line its words stand farthest from the curve: left, middle or right."""
    across = [drawing.x(day) for day in when]
    left, right = drawing.left + 4, drawing.right - wide - 4

    def room(spot: float) -> float:
        return min((abs(y - at) for x, y in zip(across, heights, strict=True) if spot <= x <= spot + wide), default=0)

    return max((left, (left + right) / 2, right), key=room)
