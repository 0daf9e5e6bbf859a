"""A sowing tried many times: one dot a sowing, over the plants that came up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

from gardenlib.charts import theme
from gardenlib.charts.drawing import LANE_PX, Drawing

STEP_PX = 7.0
TALLEST_PX = 160.0
# A drawing runs over days; here each day stands for one plant more.
_NONE = date(2001, 1, 1)


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
    altair.LayerChart
        As wide as `theme.CHART_PX`.
    """
    columns = Counter(came_up)
    first, last = min(*columns, wanted - 1) - 1, max(*columns, wanted) + 1
    drawing = Drawing(_day(first), _day(last), left=8, right=8)
    step = min(STEP_PX, TALLEST_PX / max(columns.values()))
    apart = drawing.x(_day(wanted)) - drawing.x(_day(wanted - 1))
    px = max(min(step, apart, STEP_PX) - 1, 1.5)
    base = LANE_PX + 8 + max(columns.values()) * step + px
    for plants, count in columns.items():
        for place in range(count):
            point = (_day(plants), base - px - place * step)
            drawing.dot(point, theme.GROWING, filled=plants >= wanted, px=px, width=1.2)
    line = _day(wanted)
    drawing.rule((_day(first), base), (_day(last), base), theme.INK, width=1)
    drawing.text((line, LANE_PX / 2), short, align="right", dx=-apart / 2 - 4)
    drawing.text((line, LANE_PX / 2), enough, bold=True, dx=-apart / 2 + 4)
    for plants in sorted({min(columns), wanted, max(columns)}):
        drawing.text((_day(plants), base + 12), str(plants), align="center", bold=plants == wanted)
    drawing.at_left(base + 12 + LANE_PX, axis)
    return drawing.chart(base + 12 + 1.6 * LANE_PX)


def _day(plants: int) -> date:
    return _NONE + timedelta(days=plants)
