"""The water a bed uses, week by week, against a fixed rule."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from math import ceil
from typing import Any

from gardenlib.charts import theme
from gardenlib.charts.drawing import Drawing
from gardenlib.charts.paper import LANE_PX
from gardenlib.units import in_system
from gardenlib.words import Voice

CURVE_PX = 130


def water_weeks(
    starts: Sequence[date],
    typical_mm: Sequence[float],
    dry_mm: Sequence[float] | None,
    rule_mm: float,
    *,
    voice: Voice,
    header: str,
    labels: tuple[str, str, str],
) -> Any:
    """Draw the weeks' use as a line, a dry year's as a broken one, and the rule across.

    Parameters
    ----------
    starts : sequence of date
        First day of each week.
    typical_mm, dry_mm : sequence of float
        Water used in each week, mm; None without dry years.
    rule_mm : float
        The fixed rule, mm a week.
    voice : Voice
        How the class is spoken to.
    header : str
        The unit, above the curve.
    labels : (str, str, str)
        Names of the typical line, the dry line and the rule; each with its line's look below the picture.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """

    def read(mm: float) -> float:
        return in_system(float(mm), "mm", voice.units)[0]

    drawing = Drawing(starts[0], starts[-1], left=26, right=4)
    drawing.at_left(LANE_PX / 2, header)
    lines = [[read(mm) for mm in line] for line in (typical_mm, dry_mm) if line is not None]
    rule = read(rule_mm)
    most = max(rule, *(value for line in lines for value in line))
    step = next(s for s in (0.5, 1, 5, 10, 20, 50, 100) if most / s <= 5)
    top, ticks = LANE_PX + 8, ceil(most / step)
    foot = top + CURVE_PX

    def y(value: float) -> float:
        return foot - value / (ticks * step) * CURVE_PX

    for tick in range(ticks + 1):
        height = y(tick * step)
        drawing.rule((starts[0], height), (starts[-1], height), theme.FAINT, width=1)
        drawing.text((starts[0], height), voice.number(tick * step), align="right", dx=-5)
    looks: list[tuple[str, str, tuple[float, ...]]] = [(labels[0], theme.GROWING, ())]
    if dry_mm is not None:
        looks.append((labels[1], theme.GROWING, (2, 3)))
    for line, (_, hue, dash) in zip(lines, looks, strict=True):
        drawing.line([(at, y(value)) for at, value in zip(starts, line, strict=True)], hue, width=3, dash=dash)
    drawing.rule((starts[0], y(rule)), (starts[-1], y(rule)), theme.INK, width=2, dash=(6, 4))
    looks.append((labels[2], theme.INK, (6, 4)))
    drawing.rule((starts[0], foot), (starts[-1], foot), theme.INK, width=1)
    drawing.months(foot, voice)
    key = foot + 2 * LANE_PX + 2
    for row, (label, hue, dash) in enumerate(looks):
        height = key + row * LANE_PX
        drawing.rule((starts[0], height), (starts[max(len(starts) // 8, 1)], height), hue, width=3, dash=dash)
        drawing.text((starts[max(len(starts) // 8, 1)], height), label, dx=6)
    return drawing.chart(key + len(looks) * LANE_PX)
