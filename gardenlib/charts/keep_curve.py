"""How long a crop stays good against the warmth of its place, on an axis on which each line is twice the one below."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

from gardenlib.charts import theme
from gardenlib.charts.paper import LANE_PX, Paper
from gardenlib.units import Quantity, System, c_to_f, f_to_c
from gardenlib.words import Voice

PX_PER_DOUBLING = 24.0
TICKS = (1, 2, 4, 7, 14, 28, 56, 112, 224, 448)
"""Days at which the axis has a line; from 7 on whole weeks."""
STEP = {"us": (5, 10), "metric": (2, 5)}
"""Whole degrees from one mark of the axis to the next: on a short one, on a long one."""
LONG_C = 14.0
HEAD_PX = 2.0 * LANE_PX + 4


class Life(NamedTuple):
    """Shortest and longest life at one temperature: degrees Celsius, days."""

    temp_c: float
    low_days: float
    high_days: float


def keep_curve(
    published: Sequence[Life],
    here: Life,
    *,
    marks_c: tuple[float, float],
    words: tuple[str, str],
    voice: Voice,
) -> Any:
    """Draw published lives, the span between them, and the learner's own place.

    Parameters
    ----------
    published : sequence of Life
        What one source prints, from cold to warm.
    here : Life
        The learner's place.
    marks_c : (float, float)
        Two temperatures that are compared, degrees Celsius: freezing and a home refrigerator.
    words : (str, str)
        At the learner's line, and below the axis.
    voice : Voice
        Language and units of the axes.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    paper = Paper()
    ticks = _ticks([*published, here])
    names = [voice.value(Quantity(day / 7, "weeks") if day >= 7 else Quantity(float(day), "days")) for day in ticks]
    left = max(map(theme.text_px, names)) + 10
    temps = [*marks_c, here.temp_c, *(life.temp_c for life in published)]
    cold, warm = min(temps) - 1, max(temps) + 1
    base = HEAD_PX + math.log2(ticks[-1] / ticks[0]) * PX_PER_DOUBLING

    def across(temp_c: float) -> float:
        return left + (temp_c - cold) / (warm - cold) * (theme.CHART_PX - left - 4)

    def up(days: float) -> float:
        return base - math.log2(days / ticks[0]) * PX_PER_DOUBLING

    for day, name in zip(ticks, names, strict=True):
        paper.rule((left, up(day)), (theme.CHART_PX, up(day)), theme.FAINT, width=1)
        paper.text((left - 6, up(day)), name, align="right")
    _marks(paper, [(across(temp), voice.value(Quantity(temp, "degC"))) for temp in marks_c], base)
    lows = [(across(life.temp_c), up(life.low_days)) for life in published]
    highs = [(across(life.temp_c), up(life.high_days)) for life in published]
    if len(published) > 1:
        paper.area(highs, [y for _, y in lows], theme.GROWING)
        paper.line(lows, theme.GROWING)
        paper.line(highs, theme.GROWING)
    for low, high in zip(lows, highs, strict=True):
        paper.rule(low, high, theme.GROWING, width=2)
        for end in {low, high}:
            paper.dot(end, theme.GROWING, px=8)
    _here(paper, across(here.temp_c), (up(here.low_days), up(here.high_days)), words[0], base)
    _axis(paper, (cold, warm), across, base, voice.units)
    paper.text((left, base + 14 + LANE_PX), f"{words[1]} ({'°F' if voice.units == 'us' else '°C'})")
    return paper.chart(base + 14 + 1.7 * LANE_PX)


def _ticks(lives: Sequence[Life]) -> list[int]:
    """Take the lines of the axis from the one below the shortest life to the one above the longest."""
    low, high = min(life.low_days for life in lives), max(life.high_days for life in lives)
    first = max((n for n, day in enumerate(TICKS) if day <= low), default=0)
    last = min((n for n, day in enumerate(TICKS) if day >= high), default=len(TICKS) - 1)
    if last - first < 2:
        first, last = max(first - 1, 0), min(last + 1, len(TICKS) - 1)
    return list(TICKS[first : last + 1])


def _marks(paper: Paper, marks: list[tuple[float, str]], base: float) -> None:
    for (x, name), hue, dash in zip(marks, (theme.COLD, theme.INK), ((6, 3), (2, 3)), strict=True):
        paper.rule((x, LANE_PX), (x, base), hue, width=1.5, dash=dash)
        paper.text((x, LANE_PX / 2), name, align="center")


def _here(paper: Paper, x: float, ends: tuple[float, float], words: str, base: float) -> None:
    half = theme.text_px(words, bold=True) / 2
    paper.rule((x, HEAD_PX - 4), (x, base), theme.INK, width=1)
    paper.rule((x, ends[0]), (x, ends[1]), theme.INK, width=4)
    for y in set(ends):
        paper.dot((x, y), theme.INK, filled=False, px=11)
    paper.text((min(max(x, half + 1), theme.CHART_PX - half - 1), 1.5 * LANE_PX), words, align="center", bold=True)


def _axis(paper: Paper, span: tuple[float, float], across: Any, base: float, units: System) -> None:
    """Draw the axis of temperatures in the class's units."""
    low, high = (c_to_f(end) if units == "us" else end for end in span)
    step = STEP[units][span[1] - span[0] > LONG_C]
    paper.rule((across(span[0]), base), (across(span[1]), base), theme.INK, width=1)
    for n in range(math.ceil(low / step), math.floor(high / step) + 1):
        x = across(f_to_c(float(n * step)) if units == "us" else n * step)
        paper.rule((x, base), (x, base + 4), theme.INK, width=1)
        paper.text((x, base + 12), str(n * step), align="center")
