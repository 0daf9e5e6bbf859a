"""A sowing tried many times: one dot a sowing, over the plants that came up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from gardenlib.charts import theme
from gardenlib.charts.paper import LANE_PX, Paper

STEP_PX = 7.0
TALLEST_PX = 160.0


def tried_sowings(came_up: Sequence[int], wanted: int, *, short: str, enough: str, axis: str) -> Any:
    """Draw one dot for each tried sowing, in columns by the plants that came up.

    Parameters
    ----------
    came_up : sequence of int
        Plants in each sowing.
    wanted : int
        Plants wanted; the line stands before it.
    short, enough, axis : str
        Words on the two sides of the line and below.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    columns = Counter(came_up)
    first, last = min(*columns, wanted - 1) - 1, max(*columns, wanted) + 1
    apart = (theme.CHART_PX - 16) / (last - first)

    def across(plants: float) -> float:
        return 8 + (plants - first) * apart

    paper = Paper()
    abreast = max(int((apart - STEP_PX) // STEP_PX), 1)
    tallest = -(-max(columns.values()) // abreast)
    step = min(STEP_PX, TALLEST_PX / tallest)
    px = max(min(step, apart, STEP_PX) - 1, 1.5)
    base = LANE_PX + 8 + tallest * step + px
    for plants, count in columns.items():
        for place in range(count):
            row, column = divmod(place, abreast)
            point = (across(plants) + (column - (abreast - 1) / 2) * STEP_PX, base - px - row * step)
            paper.dot(point, theme.GROWING, filled=plants >= wanted, px=px, width=1.2)
    line = across(wanted - 0.5)
    paper.rule((across(first), base), (across(last), base), theme.INK, width=1)
    paper.text((line - 4, LANE_PX / 2), short, align="right")
    paper.text((line + 4, LANE_PX / 2), enough, bold=True)
    for plants in sorted({min(columns), wanted, max(columns)}):
        paper.text((across(plants), base + 12), str(plants), align="center", bold=plants == wanted)
    paper.text((0, base + 12 + LANE_PX), axis)
    return paper.chart(base + 12 + 1.6 * LANE_PX)
