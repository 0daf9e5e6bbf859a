"""A drawing over a stretch of days, which run from left to right.

Words that would touch are moved into lanes of their own.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from functools import lru_cache
from typing import NamedTuple

from gardenlib.charts import theme
from gardenlib.charts.paper import LANE_PX, Form, Sheet, layers
from gardenlib.charts.quick_altair import alt
from gardenlib.charts.render import day
from gardenlib.words import Voice


class Drawing(Sheet[date]):
    """Collect what is to be drawn over days, then make one chart of it.

    Parameters
    ----------
    first, last : date
        The first and the last day drawn.
    left, right : float
        Pixels kept free on either side of the days.
    """

    def __init__(self, first: date, last: date, *, left: float = 2, right: float = 2) -> None:
        super().__init__()
        self.first, self.last = first, last
        self.left, self.right = left, theme.CHART_PX - right

    def x(self, when: date) -> float:
        """Tell how far from the left a day is drawn, in pixels."""
        return self.left + (when - self.first).days / (self.last - self.first).days * (self.right - self.left)

    def _across(self, where: date) -> str:
        return day(where)

    def _form(self, used: tuple[str, ...]) -> Form:
        return _over_days(self.first, self.last, self.left, self.right, used)

    def at_left(self, y: float, text: str, *, bold: bool = False) -> None:
        """Write words from the left edge of the drawing."""
        self.text((self.first, y), text, bold=bold, dx=-self.left)

    def at_right(self, y: float, text: str, *, bold: bool = False) -> None:
        """Write words up to the right edge of the drawing."""
        self.text((self.last, y), text, align="right", bold=bold, dx=theme.CHART_PX - self.right)

    def months(self, y: float, voice: Voice) -> None:
        """Write the months below a height, with a faint tick where each begins."""
        starts = [start for start in month_starts(self.first, self.last) if start < self.last]
        wide = (self.right - self.left) / max(len(starts), 1)
        names = [voice.date(start, "MMM") for start in starts]
        step = 1 if max(map(theme.text_px, names), default=0) + 3 < wide else 2
        for number, (start, name) in enumerate(zip(starts, names, strict=True)):
            self.rule((start, y), (start, y + 5), theme.INK, width=1)
            if number % step == 0:
                end = min(_next_month(start), self.last)
                middle = (self.x(start) + self.x(end)) / 2
                room = wide if step == 1 else 2 * wide
                if end - start > timedelta(days=14) or theme.text_px(name) < room / 2:
                    self.text((start, y + 12), name, align="center", dx=middle - self.x(start))


@lru_cache(maxsize=64)
def _over_days(first: date, last: date, left: float, right: float, used: tuple[str, ...]) -> Form:
    """Make the form of the chart; one stretch of days is drawn again and again while a control moves."""
    ends = [alt.DateTime(year=d.year, month=d.month, date=d.day) for d in (first, last)]
    scale = alt.Scale(domain=ends, range=[left, right], nice=False)
    return layers(used, alt.X("x", type="temporal", scale=scale, axis=None))


def month_starts(first: date, last: date) -> list[date]:
    """List the first days of the months that touch a stretch of days, the first being the stretch's own."""
    starts = [first]
    while (following := _next_month(starts[-1])) <= last:
        starts.append(following)
    return starts


def _next_month(when: date) -> date:
    return (when.replace(day=1) + timedelta(days=32)).replace(day=1)


def lanes(wanted: Sequence[tuple[float, float]], *, gap: float = 6, lines: Sequence[float] = ()) -> list[int]:
    """Give each stretch of words, in turn, the first lane in which it touches no other.

    Parameters
    ----------
    wanted : sequence of (left, right)
        Where each would like to stand, pixels.
    gap : float
        Room between two in one lane, pixels.
    lines : sequence of float, optional
        Where a line runs down from each, pixels; later words then stand in lanes above the lines they would cross.

    Returns
    -------
    list of int
        Lane of each, from 0, the lowest.

    Examples
    --------
    >>> lanes([(0, 40), (30, 70), (50, 90)])
    [0, 1, 0]
    >>> lanes([(0, 40), (30, 70), (50, 90)], lines=[0, 60, 90])
    [0, 1, 2]
    """
    found: list[int] = []
    for left, right in wanted:
        lowest = max((row + 1 for x, row in zip(lines, found, strict=False) if left <= x <= right), default=0)
        beside = {row for row, (a, b) in zip(found, wanted, strict=False) if left < b + gap and a < right + gap}
        found.append(next(row for row in range(lowest, lowest + len(wanted) + 1) if row not in beside))
    return found


class Flag(NamedTuple):
    """Words that hang from a line standing on a day."""

    day: date
    text: str
    hue: str = theme.INK
    bold: bool = True
    dash: Sequence[float] = ()


def hang(drawing: Drawing, flags: Sequence[Flag], top: float, below: float, turn: date) -> float:
    """Hang flags in lanes: to the right before the turn of the season, to the left after it.

    A flag's line then runs past the words of the others and not through them.

    Parameters
    ----------
    drawing : Drawing
        Where to draw.
    flags : sequence of Flag
        What to hang.
    top, below : float
        Upper edge of the lanes, and how far their lines reach below the lanes, pixels.
    turn : date
        Middle of the season.

    Returns
    -------
    float
        Lower edge of the lanes, pixels.
    """
    order = sorted(flags, key=lambda flag: (flag.day >= turn, abs(flag.day - turn)))
    boxes = []
    for flag in order:
        wide = theme.text_px(flag.text, bold=flag.bold)
        left = drawing.x(flag.day) - 3 if flag.day < turn else drawing.x(flag.day) + 3 - wide
        left = min(max(left, 0), theme.CHART_PX - wide)
        boxes.append((left, left + wide))
    rows = lanes(boxes, lines=[drawing.x(flag.day) for flag in order])
    lower = top + (max(rows, default=-1) + 1) * LANE_PX
    for flag, (left, _), row in zip(order, boxes, rows, strict=True):
        y = lower - (row + 0.5) * LANE_PX
        drawing.text((flag.day, y), flag.text, bold=flag.bold, dx=left - drawing.x(flag.day))
        drawing.rule((flag.day, y + 8), (flag.day, lower + below), flag.hue, dash=flag.dash)
    return lower
