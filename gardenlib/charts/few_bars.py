"""A few bars side by side, each with its amount above and its name below."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from gardenlib.charts import theme
from gardenlib.charts.paper import LANE_PX, Paper

TALL_PX = 80.0


def few_bars(amounts: Sequence[float], written: Sequence[str], labels: Sequence[str], *, axis: str, hue: str) -> Any:
    """Draw one bar for each amount.

    Parameters
    ----------
    amounts : sequence of float
        In any unit, 0 or more.
    written, labels : sequence of str
        Each amount as it is read, and what stands below its bar.
    axis : str
        Words below.
    hue : str
        A hue of the theme.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    paper = Paper()
    apart = theme.CHART_PX / len(amounts)
    base, most = LANE_PX + 4 + TALL_PX, max(*amounts, 1e-9)
    for place, (amount, name, label) in enumerate(zip(amounts, written, labels, strict=True)):
        middle, top = (place + 0.5) * apart, base - amount / most * TALL_PX
        if amount > 0:
            paper.rule((middle, base), (middle, top), hue, width=min(apart - 8, 22))
        paper.text((middle, top - 9), name, align="center")
        paper.text((middle, base + 10), label, align="center")
    paper.rule((0, base), (theme.CHART_PX, base), theme.INK, width=1)
    paper.text((0, base + 10 + LANE_PX), axis)
    return paper.chart(base + 10 + 1.7 * LANE_PX)
