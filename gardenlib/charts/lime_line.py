"""A line of soil pH with a wedge of lime over it: high where much is needed, nothing from the target on."""

from __future__ import annotations

import math
from typing import Any

from gardenlib.charts import theme
from gardenlib.charts.paper import LANE_PX, Paper

TALL_PX = 44.0
SIDE_PX = 12.0
USUAL = (4.5, 8.0)


def lime_line(
    water_ph: float, target_ph: float, little_from: float, *, zones: tuple[str, str, str], labels: tuple[str, str, str]
) -> Any:
    """Draw where a soil stands between much lime, little and none; the wedge has a shape and no numbers.

    Parameters
    ----------
    water_ph, target_ph : float
        Where the soil stands, and the pH to aim at.
    little_from : float
        pH from which little is enough.
    zones : tuple of str
        Words for much, little and none.
    labels : tuple of str
        Words at the soil's dot, at the target's line, and below the axis.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    low = min(USUAL[0], math.floor(water_ph * 2) / 2)
    high = max(USUAL[1], math.ceil(water_ph * 2) / 2)

    def across(ph: float) -> float:
        return SIDE_PX + (ph - low) / (high - low) * (theme.CHART_PX - 2 * SIDE_PX)

    paper = Paper()
    here, target, axis = labels
    top = LANE_PX + 8
    base = top + TALL_PX
    paper.shape([(across(low), top), (across(target_ph), base), (across(low), base)], theme.INK, fill=theme.INK)
    paper.rule((across(low), base), (across(high), base), theme.INK)
    paper.rule((across(water_ph), LANE_PX), (across(water_ph), base), theme.GROWING, width=2)
    paper.dot((across(water_ph), base), theme.GROWING)
    _label(paper, across(water_ph), LANE_PX / 2, here, bold=True)
    step = 1 if high - low > 4 else 0.5
    for n in range(math.ceil(low / step), math.floor(high / step) + 1):
        paper.rule((across(n * step), base), (across(n * step), base + 4), theme.INK, width=1)
        paper.text((across(n * step), base + 14), f"{n * step:g}", align="center")
    words = base + 14 + LANE_PX
    for start, end, zone in zip((low, little_from, target_ph), (little_from, target_ph, high), zones, strict=True):
        paper.text(((across(start) + across(end)) / 2, words), zone, align="center", bold=start <= water_ph < end)
    paper.rule((across(little_from), words - 7), (across(little_from), words + 7), theme.FAINT, width=1)
    paper.rule((across(target_ph), words - 8), (across(target_ph), words + 9), theme.INK, dash=(3, 2))
    paper.rule((across(target_ph), top), (across(target_ph), base + 5), theme.INK, dash=(3, 2))
    _label(paper, across(target_ph), words + LANE_PX, target)
    paper.text((SIDE_PX, words + 2 * LANE_PX), axis)
    return paper.chart(words + 2.6 * LANE_PX)


def _label(paper: Paper, x: float, y: float, words: str, *, bold: bool = False) -> None:
    """Write words around a place, kept inside the drawing."""
    half = theme.text_px(words, bold=bold) / 2
    paper.text((min(max(x, half + 1), theme.CHART_PX - half - 1), y), words, align="center", bold=bold)
