"""Past seasons as one mark each, a row a decade: whether a plan would have worked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from textwrap import wrap
from typing import Any, NamedTuple

from gardenlib.charts import theme
from gardenlib.charts.paper import LANE_PX, Paper
from gardenlib.words import Voice

LEFT_PX = 46.0
APART_PX = (theme.CHART_PX - LEFT_PX) / 10
ROW_PX = 23.0
ACROSS_PX = 15.0
NAME_LETTERS = 42
SORTS = ("worked", "hurt", "late")


class Run(NamedTuple):
    """One plan: its name, and how each season went: ``worked``, ``hurt`` or ``late``."""

    name: str
    seasons: Mapping[int, str]


def past_seasons(runs: Sequence[Run], *, words: Mapping[str, str], voice: Voice) -> Any:
    """Draw each past season of one or more plans as a mark: filled where it worked.

    Parameters
    ----------
    runs : sequence of Run
        The plans, one below the other.
    words : mapping of str to str
        What ``worked``, ``hurt`` and ``late`` are called, for the key below.
    voice : Voice
        Language of the decades.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    paper, top = Paper(), 0.0
    for run in runs:
        for row in wrap(run.name, NAME_LETTERS):
            paper.text((0, top + LANE_PX / 2), row, bold=True)
            top += LANE_PX
        top = _decades(paper, run, top, voice) + 8
    met = {sort for run in runs for sort in run.seasons.values()}
    for sort in (sort for sort in SORTS if sort in met):
        rows = wrap(words[sort], NAME_LETTERS - 6)
        _mark(paper, (ACROSS_PX / 2 + 2, top + LANE_PX / 2 + 2), sort)
        for row in rows:
            paper.text((ACROSS_PX + 12, top + LANE_PX / 2 + 2), row)
            top += LANE_PX
        top += 4
    return paper.chart(top + 2)


def _decades(paper: Paper, run: Run, top: float, voice: Voice) -> float:
    """Draw one plan's seasons, a row a decade, the last digit of the year above."""
    if not run.seasons:
        return top
    first, last = min(run.seasons) // 10, max(run.seasons) // 10
    for digit in range(10):
        paper.text((LEFT_PX + (digit + 0.5) * APART_PX, top + LANE_PX / 2), str(digit), align="center")
    top += LANE_PX
    for decade in range(first, last + 1):
        middle = top + ROW_PX / 2
        paper.text((0, middle), voice.say("replay.decade", year=decade * 10))
        for digit in range(10):
            sort = run.seasons.get(decade * 10 + digit)
            if sort is not None:
                _mark(paper, (LEFT_PX + (digit + 0.5) * APART_PX, middle), sort)
        top += ROW_PX
    return top


def _mark(paper: Paper, place: tuple[float, float], sort: str) -> None:
    """Fill a dot where it worked, leave a ring where cold hurt it, and a dash where it was not ready."""
    if sort == "worked":
        paper.dot(place, theme.GROWING, px=ACROSS_PX)
    elif sort == "hurt":
        paper.dot(place, theme.COLD, filled=False, px=ACROSS_PX, width=2.5)
    else:
        across, down = place
        paper.rule((across - 6, down), (across + 6, down), theme.INK, width=3)
