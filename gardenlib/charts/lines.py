"""The two lines of a sequential plan, and where a count stands."""

from __future__ import annotations

from typing import Any

from gardenlib.charts import theme
from gardenlib.charts.paper import LANE_PX, Paper

LEFT_PX, TOP_PX, TALL_PX = 22.0, 8.0 + LANE_PX, 150.0


def stop_lines(
    slope: float, apart: tuple[float, float], count: tuple[int, int], *, most: int, words: tuple[str, str, str, str]
) -> Any:
    """Draw the lines at which one stops looking.

    Parameters
    ----------
    slope : float
        Hit plants for each plant looked at.
    apart : (float, float)
        How far the lower and the upper line lie from the middle, hit plants.
    count : (int, int)
        Plants looked at so far, and hit plants.
    most : int
        Plants across the drawing.
    words : (str, str, str, str)
        Words above the upper line, below the lower line, at the axis below and at the axis on the left.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    paper = Paper()
    tallest = max(slope * most + apart[1], count[1]) + 1
    right = theme.CHART_PX - 12

    def place(looked: float, hit: float) -> tuple[float, float]:
        return LEFT_PX + looked / most * (right - LEFT_PX), TOP_PX + TALL_PX - hit / tallest * TALL_PX

    upper = [place(0, apart[1]), place(most, slope * most + apart[1])]
    first = apart[0] / slope
    lower = [place(first, 0), place(most, slope * most - apart[0])]
    paper.line(upper, theme.INK)
    paper.line(lower, theme.INK, dash=(5, 4))
    paper.rule(place(0, 0), place(most, 0), theme.INK, width=1)
    paper.rule(place(0, 0), place(0, tallest), theme.INK, width=1)
    for hit in range(0, int(tallest) + 1, 2 if tallest < 14 else 5):
        paper.text((LEFT_PX - 5, place(0, hit)[1]), str(hit), align="right")
    for looked in range(10, most + 1, 10 if most <= 60 else 50):
        paper.text((place(looked, 0)[0], TOP_PX + TALL_PX + 10), str(looked), align="center")
    paper.text((LEFT_PX + 6, place(0, tallest)[1] + 8), words[0], bold=True)
    paper.text((right, place(0, 0)[1] - 8), words[1], align="right", bold=True)
    paper.text((right, TOP_PX + TALL_PX + 10 + LANE_PX), words[2], align="right")
    paper.text((0, LANE_PX / 2), words[3])
    paper.dot(place(*count), theme.INK, px=13)
    return paper.chart(TOP_PX + TALL_PX + 10 + 1.7 * LANE_PX)
