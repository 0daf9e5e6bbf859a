"""Hours of wet leaves at a stretch, in one bar, against the published limit."""

from __future__ import annotations

from typing import Any

from gardenlib.charts import theme
from gardenlib.charts.paper import LANE_PX, Paper

EDGE_PX, BAR_PX = 8.0, 26.0
STEP_HOURS = 3


def wet_hours(sprinkled: float, dew: float, limit: float, *, words: tuple[str, str, str, str]) -> Any:
    """Draw wet leaves as a bar: what sprinkling added in outline, the dew filled, and the limit as a dashed line.

    Parameters
    ----------
    sprinkled, dew, limit : float
        Hours that sprinkling added, hours of dew, and the published limit.
    words : tuple of str
        What the two parts and the line are called, and the axis.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    total = sprinkled + dew
    last = -(-max(total, limit + 1) // STEP_HOURS) * STEP_HOURS
    apart = (theme.CHART_PX - 2 * EDGE_PX) / last

    def across(hours: float) -> float:
        return EDGE_PX + hours * apart

    paper, line = Paper(), across(limit)
    top = LANE_PX + 6
    foot = top + BAR_PX
    for start, end, filled in ((0.0, sprinkled, False), (sprinkled, total, True)):
        if end > start:
            _box(paper, (across(start), across(end)), (top, foot), filled=filled)
    paper.rule((line, LANE_PX), (line, foot + 6), theme.INK, width=2.5, dash=(4, 3))
    paper.text((line, LANE_PX / 2), words[2], align="right" if limit > last / 2 else "left", bold=True)
    paper.rule((across(0), foot + 6), (across(last), foot + 6), theme.INK, width=1)
    for hours in range(0, int(last) + 1, STEP_HOURS):
        paper.text((across(hours), foot + 15), str(hours), align="center")
    paper.text((EDGE_PX, foot + 15 + LANE_PX), words[3])
    row = foot + 15 + 2.4 * LANE_PX
    for place, text in enumerate(words[:2]):
        y = row + place * (LANE_PX + 4)
        _box(paper, (EDGE_PX, EDGE_PX + 18), (y - 6, y + 6), filled=place == 1)
        paper.text((EDGE_PX + 26, y), text)
    return paper.chart(row + LANE_PX + 16)


def _box(paper: Paper, sides: tuple[float, float], ends: tuple[float, float], *, filled: bool) -> None:
    """Draw a box from straight lines alone: fewer layers, so that it is there at once."""
    (left, right), (top, foot) = sides, ends
    if filled:
        middle = (top + foot) / 2
        paper.rule((left, middle), (right, middle), theme.FAINT, width=foot - top)
    corners = [(left, top), (right, top), (right, foot), (left, foot)]
    for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
        paper.rule(start, end, theme.INK, width=2)
