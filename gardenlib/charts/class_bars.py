"""Bars of a class: at each question, how many answers for each reason."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal, NamedTuple

from gardenlib.charts import theme
from gardenlib.charts.paper import LANE_PX, Paper

BAR_PX = 14.0

Look = Literal["filled", "outline", "dashed"]


class ReasonBar(NamedTuple):
    """One bar: what stands above it, how many answers, and how it is drawn."""

    words: str
    n: int
    look: Look


def class_bars(questions: Sequence[tuple[str, Sequence[ReasonBar]]], *, axis: str) -> Any:
    """Draw for each question a bar for each reason.

    Parameters
    ----------
    questions : sequence of (str, sequence of ReasonBar)
        What each question is called, and its bars.
    axis : str
        Words below the axis, with the unit.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    paper, top = Paper(), 0.0
    most = max((bar.n for _, bars in questions for bar in bars), default=1)
    per_answer = (theme.CHART_PX - theme.text_px(str(most), bold=True) - 12) / most
    for title, bars in questions:
        top = _lines(paper, top + 4, title, bold=True)
        for bar in bars:
            top = _lines(paper, top + 2, bar.words)
            _bar(paper, top + BAR_PX / 2 + 1, bar.n * per_answer, bar.look)
            paper.text((bar.n * per_answer + 6, top + BAR_PX / 2 + 1), str(bar.n), bold=True)
            top += BAR_PX + 6
        top += 6
    paper.rule((0, top), (most * per_answer, top), theme.INK, width=1)
    for answers in sorted({0, most // 2, most}):
        paper.rule((answers * per_answer, top), (answers * per_answer, top + 5), theme.INK, width=1)
        paper.text((answers * per_answer, top + 14), str(answers), align="center" if answers else "left")
    return paper.chart(_lines(paper, top + 22, axis) + 2)


def _lines(paper: Paper, top: float, words: str, *, bold: bool = False) -> float:
    """Write words in as many lines as they need; give where they end."""
    first, *others = words.split()
    lines = [first]
    for word in others:
        longer = f"{lines[-1]} {word}"
        if theme.text_px(longer, bold=bold) <= theme.CHART_PX:
            lines[-1] = longer
        else:
            lines.append(word)
    for place, line in enumerate(lines):
        paper.text((0, top + (place + 0.5) * LANE_PX), line, bold=bold)
    return top + len(lines) * LANE_PX


def _bar(paper: Paper, middle: float, wide: float, look: Look) -> None:
    if look == "filled":
        paper.rule((0, middle), (wide, middle), theme.INK, width=BAR_PX)
        return
    high, low = middle - BAR_PX / 2 + 0.75, middle + BAR_PX / 2 - 0.75
    corners = [(0.75, high), (wide, high), (wide, low), (0.75, low), (0.75, high)]
    paper.line(corners, theme.INK, width=1.5, dash=(3, 3) if look == "dashed" else ())
