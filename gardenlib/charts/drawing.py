"""A drawing over a stretch of days: areas, lines, dots and words, in few layers.

Days run from left to right; heights are pixels from the top.  Every word is
put in by the caller in the reader's language, and words that would touch are
moved into lanes of their own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date, timedelta
from functools import lru_cache
from itertools import count
from typing import Any, ClassVar, Literal, NamedTuple

from gardenlib.charts import theme
from gardenlib.charts.quick_altair import alt
from gardenlib.charts.render import day
from gardenlib.words import Voice

LANE_PX = 16
"""Height of one line of words."""

Align = Literal["left", "center", "right"]
Point = tuple[date, float]


class Drawing:
    """Collect what is to be drawn, then make one chart of it.

    Parameters
    ----------
    first, last : date
        The first and the last day drawn.
    left, right : float
        Pixels kept free on either side of the days.
    """

    def __init__(self, first: date, last: date, *, left: float = 2, right: float = 2) -> None:
        self.first, self.last = first, last
        self.left, self.right = left, theme.CHART_PX - right
        self._marks: dict[str, list[dict[str, Any]]] = {"area": [], "rule": [], "line": [], "point": [], "text": []}
        self._shape = count()

    def x(self, when: date) -> float:
        """Tell how far from the left a day is drawn, in pixels."""
        return self.left + (when - self.first).days / (self.last - self.first).days * (self.right - self.left)

    def area(self, points: Iterable[Point], base: float | Sequence[float], hue: str) -> None:
        """Fill the area between points and a base in a light tint of a hue."""
        points = list(points)
        bases = [base] * len(points) if isinstance(base, int | float) else base
        self._many("area", points, hue, [{"y2": low} for low in bases])

    def line(self, points: Iterable[Point], hue: str, *, width: float = 2.5, dash: Sequence[float] = ()) -> None:
        """Join points by a line."""
        points = list(points)
        self._many("line", points, hue, [{"w": width, "dash": list(dash) or [1, 0]}] * len(points))

    def _many(self, kind: str, points: list[Point], hue: str, more: list[dict[str, Any]]) -> None:
        shape = next(self._shape)
        self._marks[kind] += [
            {"x": day(when), "y": y, "hue": hue, "shape": shape, **extra}
            for (when, y), extra in zip(points, more, strict=True)
        ]

    def rule(self, start: Point, end: Point, hue: str, *, width: float = 1.5, dash: Sequence[float] = ()) -> None:
        """Draw a straight line from one point to another."""
        ends = {"x": day(start[0]), "y": start[1], "x2": day(end[0]), "y2": end[1]}
        self._marks["rule"].append({**ends, "hue": hue, "w": width, "dash": list(dash) or [1, 0]})

    def dot(self, point: Point, hue: str, *, filled: bool = True, px: float = 9, width: float = 2) -> None:
        """Draw a dot, filled or as a ring."""
        look = {"hue": hue, "fill": hue if filled else theme.PAPER, "size": px * px * 0.785, "w": width}
        self._marks["point"].append({"x": day(point[0]), "y": point[1], **look})

    def text(self, point: Point, text: str, *, align: Align = "left", bold: bool = False, dx: float = 0) -> None:
        """Write one line of words, its middle at a height."""
        look = {"text": text, "align": align, "bold": "bold" if bold else "normal", "dx": dx}
        self._marks["text"].append({"x": day(point[0]), "y": point[1], **look})

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

    def chart(self, height: float) -> Any:
        """Make the chart.

        Parameters
        ----------
        height : float
            Height of the whole drawing, pixels.

        Returns
        -------
        altair.LayerChart
            As wide as `theme.CHART_PX`.
        """
        used = tuple(kind for kind, rows in self._marks.items() if rows)
        chart = _layers(self.first, self.last, self.left, self.right, used).copy(deep=False)
        chart.height, chart.datasets = height, _Rows(self._marks)
        return chart


@lru_cache(maxsize=64)
def _layers(first: date, last: date, left: float, right: float, used: tuple[str, ...]) -> Any:
    """Make the chart without its rows; one stretch of days is drawn again and again while a control moves."""
    raw = {"scale": None, "axis": None, "type": "quantitative"}
    ends = [alt.DateTime(year=d.year, month=d.month, date=d.day) for d in (first, last)]
    scale = alt.Scale(domain=ends, range=[left, right], nice=False)
    across = {"x": alt.X("x", type="temporal", scale=scale, axis=None), "y": alt.Y("y", **raw)}
    across2 = {**across, "x2": alt.X2("x2"), "y2": alt.Y2("y2")}
    hue = {"color": alt.Color("hue", type="nominal", scale=None, legend=None)}
    stroke = {
        "strokeWidth": alt.StrokeWidth("w", type="quantitative", scale=None, legend=None),
        "strokeDash": alt.StrokeDash("dash", type="nominal", scale=None, legend=None),
    }
    shape = {"detail": alt.Detail("shape", type="nominal")}
    width = {"strokeWidth": stroke["strokeWidth"]}
    fill = {
        "stroke": alt.Stroke("hue", type="nominal", scale=None, legend=None),
        "fill": alt.Fill("fill", type="nominal", scale=None, legend=None),
        "size": alt.Size("size", type="quantitative", scale=None, legend=None),
    }
    words = {"text": alt.Text("text", type="nominal")}
    look = {"baseline": "middle", **{name: alt.ExprRef(f"datum.{field}") for name, field in _TEXT_LOOK.items()}}
    makers: dict[str, Callable[[Any], Any]] = {
        "area": lambda c: c.mark_area(opacity=0.22).encode(**across, y2=alt.Y2("y2"), **hue, **shape),
        "rule": lambda c: c.mark_rule().encode(**across2, **hue, **stroke),
        "line": lambda c: c.mark_line(strokeJoin="round").encode(**across, **hue, **stroke, **shape),
        "point": lambda c: c.mark_point(opacity=1).encode(**across, **fill, **width),
        "text": lambda c: c.mark_text(color=theme.INK, **look).encode(**across, **words),
    }
    return alt.LayerChart(
        layer=[makers[kind](alt.Chart(alt.NamedData(name=kind))) for kind in used],
        width=theme.CHART_PX,
        padding=0,
        autosize=alt.AutoSizeParams(type="none"),
        config=alt.Config(
            aria=False,
            background=theme.PAPER,
            view=alt.ViewConfig(stroke=None),
            text=alt.MarkConfig(fontSize=theme.LETTER_PX, stroke=theme.PAPER, strokeWidth=3),
        ),
    )


class _Rows:
    """Rows that are plain already; Altair takes them as they are and need not walk through them."""

    _schema: ClassVar[dict[str, str]] = {"type": "object"}  # Altair asks for it before it calls to_dict

    def __init__(self, rows: dict[str, list[dict[str, Any]]]) -> None:
        self._rows = rows

    def to_dict(self) -> dict[str, Any]:
        return self._rows


_TEXT_LOOK = {"align": "align", "fontWeight": "bold", "dx": "dx"}


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
