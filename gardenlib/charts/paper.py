"""Drawings in pixels: shapes, lines, dots and words, in few layers.

Places are pixels from the left and from the top of a drawing that is
`theme.CHART_PX` wide; every word is put in by the caller in the reader's language.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import count
from typing import Any, Generic, Literal, TypeVar

from gardenlib.charts import theme
from gardenlib.charts.quick_altair import alt

LANE_PX = 16
"""Height of one line of words."""

Align = Literal["left", "center", "right"]
Across = TypeVar("Across")
Place = tuple[Across, float]


@dataclass(frozen=True, eq=False)
class Form:
    """A chart without its rows, plain already: Altair made it once for all charts of its kind, and it is itself."""

    plain: dict[str, Any]


@dataclass(frozen=True)
class Drawn:
    """A chart: the form that it shares with others of its kind, its height in pixels, and the rows of its layers."""

    form: Form
    height: float
    rows: dict[str, list[dict[str, Any]]]

    def to_dict(self, *, validate: bool = True) -> dict[str, Any]:
        """Give the chart whole, as a browser would draw it: Altair made it, so nothing is left to validate."""
        return {**self.form.plain, "height": self.height, "datasets": self.rows}


class Sheet(Generic[Across]):
    """Collect what is to be drawn, then make one chart of it; a place is (across, pixels from the top)."""

    def __init__(self) -> None:
        self._marks: dict[str, list[dict[str, Any]]] = {kind: [] for kind in _MAKERS}
        self._shape = count()

    def _across(self, where: Across) -> Any:
        """Give what the chart holds for a place across."""
        return where

    def area(self, points: Iterable[Place[Across]], base: float | Sequence[float], hue: str) -> None:
        """Fill the area between points and a base in a light tint of a hue."""
        points = list(points)
        bases = [base] * len(points) if isinstance(base, int | float) else base
        self._many("area", points, hue, [{"y2": low} for low in bases])

    def line(
        self, points: Iterable[Place[Across]], hue: str, *, width: float = 2.5, dash: Sequence[float] = ()
    ) -> None:
        """Join points by a line."""
        points = list(points)
        self._many("line", points, hue, [{"w": width, "dash": list(dash) or [1, 0]}] * len(points))

    def shape(self, points: Iterable[Place[Across]], hue: str, *, width: float = 1.5, fill: str | None = None) -> None:
        """Draw a closed outline through points; with `fill` its inside is filled in a light tint of that hue."""
        points = list(points)
        if fill is not None:
            self._many("inside", points, fill, [{}] * len(points))
        self.line([*points, points[0]], hue, width=width)

    def _many(self, kind: str, points: list[Place[Across]], hue: str, more: Sequence[dict[str, Any]]) -> None:
        shape = next(self._shape)
        self._marks[kind] += [
            {"x": self._across(x), "y": y, "hue": hue, "shape": shape, "nth": nth, **extra}
            for nth, ((x, y), extra) in enumerate(zip(points, more, strict=True))
        ]

    def rule(
        self,
        start: Place[Across],
        end: Place[Across],
        hue: str,
        *,
        width: float = 1.5,
        dash: Sequence[float] = (),
    ) -> None:
        """Draw a straight line from one point to another."""
        ends = {"x": self._across(start[0]), "y": start[1], "x2": self._across(end[0]), "y2": end[1]}
        self._marks["rule"].append({**ends, "hue": hue, "w": width, "dash": list(dash) or [1, 0]})

    def dot(self, point: Place[Across], hue: str, *, filled: bool = True, px: float = 9, width: float = 2) -> None:
        """Draw a dot `px` across, filled or as a ring."""
        look = {"hue": hue, "fill": hue if filled else theme.PAPER, "size": px * px * 0.785, "w": width}
        self._marks["point"].append({"x": self._across(point[0]), "y": point[1], **look})

    def text(
        self, point: Place[Across], text: str, *, align: Align = "left", bold: bool = False, dx: float = 0
    ) -> None:
        """Write one line of words, its middle at a height."""
        look = {"text": text, "align": align, "bold": "bold" if bold else "normal", "dx": dx}
        self._marks["text"].append({"x": self._across(point[0]), "y": point[1], **look})

    def chart(self, height: float) -> Any:
        """Make the chart.

        Parameters
        ----------
        height : float
            Height of the whole drawing, pixels.

        Returns
        -------
        Drawn
            As wide as `theme.CHART_PX`.
        """
        used = tuple(kind for kind, rows in self._marks.items() if rows)
        return Drawn(self._form(used), height, self._marks)

    def _form(self, used: tuple[str, ...]) -> Form:
        return in_pixels(used)


class Paper(Sheet[float]):
    """A drawing whose places across are pixels too: plans, triangles, tallies."""


@lru_cache(maxsize=64)
def in_pixels(used: tuple[str, ...]) -> Form:
    """Make the form of a chart in pixels, without its rows."""
    return layers(used, alt.X("x", type="quantitative", scale=None, axis=None))


def layers(used: Sequence[str], across: Any) -> Form:
    """Make the form of a chart, without its rows, for one way of placing things across."""
    raw = {"scale": None, "axis": None, "type": "quantitative"}
    both = {"x": across, "y": alt.Y("y", **raw)}
    chart = alt.LayerChart(
        layer=[_MAKERS[kind](alt.Chart(alt.NamedData(name=kind)), both) for kind in used],
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
    return Form(chart.to_dict(validate=False))


_HUE = {"color": alt.Color("hue", type="nominal", scale=None, legend=None)}
_STROKE = {
    "strokeWidth": alt.StrokeWidth("w", type="quantitative", scale=None, legend=None),
    "strokeDash": alt.StrokeDash("dash", type="nominal", scale=None, legend=None),
}
_SHAPE = {"detail": alt.Detail("shape", type="nominal")}
# Points are joined in the order in which they are given; without this they would be joined from left to right.
_DRAWN = {**_SHAPE, "order": alt.Order("nth", type="quantitative")}
_FILL = {
    "stroke": alt.Stroke("hue", type="nominal", scale=None, legend=None),
    "fill": alt.Fill("fill", type="nominal", scale=None, legend=None),
    "size": alt.Size("size", type="quantitative", scale=None, legend=None),
    "strokeWidth": _STROKE["strokeWidth"],
}
_TEXT_LOOK = {"align": "align", "fontWeight": "bold", "dx": "dx"}
_LETTERS = {"baseline": "middle", **{name: alt.ExprRef(f"datum.{field}") for name, field in _TEXT_LOOK.items()}}
_ENDS = {"x2": alt.X2("x2"), "y2": alt.Y2("y2")}
# In the order in which they lie on each other.
_MAKERS: dict[str, Callable[[Any, dict[str, Any]], Any]] = {
    "area": lambda c, at: c.mark_area(opacity=0.22).encode(**at, y2=alt.Y2("y2"), **_HUE, **_SHAPE),
    "inside": lambda c, at: c.mark_line(filled=True, opacity=0.22, strokeWidth=0).encode(**at, **_HUE, **_DRAWN),
    "rule": lambda c, at: c.mark_rule().encode(**at, **_ENDS, **_HUE, **_STROKE),
    "line": lambda c, at: c.mark_line(strokeJoin="round").encode(**at, **_HUE, **_STROKE, **_DRAWN),
    "point": lambda c, at: c.mark_point(opacity=1).encode(**at, **_FILL),
    "text": lambda c, at: c.mark_text(color=theme.INK, **_LETTERS).encode(**at, text=alt.Text("text", type="nominal")),
}
