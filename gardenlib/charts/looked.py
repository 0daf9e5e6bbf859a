"""The plants of a bed, one mark each: hit, clean, or not looked at."""

from __future__ import annotations

from typing import Any

from gardenlib.charts import theme
from gardenlib.charts.paper import LANE_PX, Paper

IN_A_ROW = 10
APART_PX = theme.CHART_PX / IN_A_ROW
ACROSS_PX = 18.0


def looked(hit: int, clean: int, unseen: int, *, words: tuple[str, str, str]) -> Any:
    """Draw each plant of a bed: filled where it was hit, a ring where it was clean, a question mark where unseen.

    Parameters
    ----------
    hit, clean, unseen : int
        Plants of each sort.
    words : tuple of str
        What each sort is called, for the key below.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    paper = Paper()
    for place, sort in enumerate([0] * hit + [1] * clean + [2] * unseen):
        row, column = divmod(place, IN_A_ROW)
        _plant(paper, ((column + 0.5) * APART_PX, (row + 0.5) * APART_PX), sort)
    foot = (-(-(hit + clean + unseen) // IN_A_ROW)) * APART_PX + 6
    for sort, text in enumerate(words):
        middle = foot + (sort + 0.5) * (LANE_PX + 6)
        _plant(paper, (ACROSS_PX / 2 + 2, middle), sort)
        paper.text((ACROSS_PX + 10, middle), text)
    return paper.chart(foot + len(words) * (LANE_PX + 6) + 2)


def _plant(paper: Paper, place: tuple[float, float], sort: int) -> None:
    if sort == 2:
        paper.text(place, "?", align="center", bold=True)
    else:
        paper.dot(place, theme.GROWING if sort else theme.INK, filled=not sort, px=ACROSS_PX, width=2.5)
