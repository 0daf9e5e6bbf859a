"""What is left week by week: one bar a week, with its amount above it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from gardenlib.charts import theme
from gardenlib.charts.paper import LANE_PX, Paper

TALL_PX = 80.0


def left_good(amounts: Sequence[float], names: Sequence[str], *, axis: str) -> Any:
    """Draw one bar for today and one for each week after.

    Parameters
    ----------
    amounts : sequence of float
        What is left, in any unit; the first is today's.
    names : sequence of str
        Each amount as it is read.
    axis : str
        Words below.

    Returns
    -------
    altair.LayerChart
        As wide as `theme.CHART_PX`.
    """
    paper = Paper()
    apart = theme.CHART_PX / len(amounts)
    base, most = LANE_PX + 4 + TALL_PX, max(*amounts, 1e-9)
    for week, (amount, name) in enumerate(zip(amounts, names, strict=True)):
        middle, top = (week + 0.5) * apart, base - amount / most * TALL_PX
        if amount > 0:
            paper.rule((middle, base), (middle, top), theme.GROWING, width=min(apart - 8, 22))
        paper.text((middle, top - 9), name, align="center")
        paper.text((middle, base + 10), str(week), align="center")
    paper.rule((0, base), (theme.CHART_PX, base), theme.INK, width=1)
    paper.text((0, base + 10 + LANE_PX), axis)
    return paper.chart(base + 10 + 1.7 * LANE_PX)
