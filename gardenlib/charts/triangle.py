"""The texture triangle: twelve classes of sand, silt and clay, and where one soil lies."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import Any

from gardenlib.charts import theme
from gardenlib.charts.paper import LANE_PX, Paper

Mix = tuple[float, float, float]

SIDE_PX = 272.0
LEFT_PX = 4.0
TOP_PX = 20.0
HEIGHT_PX = SIDE_PX * 3**0.5 / 2
LINE_PX = 13.0
TICKS = (20, 40, 60, 80)
DOT_PX = 9.0
BELOW = {"sand": 5.5, "loamy sand": 26.5}
"""Classes too small for their words, which stand below instead; silt where the line to them begins."""

# Corners of each class as (sand, silt, clay), where the lines of the Soil Survey Manual's rules meet; with them the
# middle of its words.
OUTLINES: Mapping[str, tuple[tuple[Mix, ...], tuple[float, float]]] = {
    "sand": (((100, 0, 0), (85, 15, 0), (90, 0, 10)), (92.2, 3.0)),
    "loamy sand": (((85, 15, 0), (70, 30, 0), (85, 0, 15), (90, 0, 10)), (81.2, 5.6)),
    "sandy loam": (
        ((70, 30, 0), (50, 50, 0), (43, 50, 7), (52, 41, 7), (52, 28, 20), (80, 0, 20), (85, 0, 15)),
        (64.0, 11.0),
    ),
    "loam": (((52, 41, 7), (43, 50, 7), (23, 50, 27), (45, 28, 27), (52, 28, 20)), (41.0, 18.0)),
    "silt loam": (((50, 50, 0), (20, 80, 0), (8, 80, 12), (0, 88, 12), (0, 73, 27), (23, 50, 27)), (20.5, 15.0)),
    "silt": (((20, 80, 0), (0, 100, 0), (0, 88, 12), (8, 80, 12)), (7.0, 5.0)),
    "sandy clay loam": (((80, 0, 20), (52, 28, 20), (45, 28, 27), (45, 20, 35), (65, 0, 35)), (59.0, 27.0)),
    "clay loam": (((45, 28, 27), (20, 53, 27), (20, 40, 40), (45, 15, 40)), (32.5, 33.5)),
    "silty clay loam": (((20, 53, 27), (0, 73, 27), (0, 60, 40), (20, 40, 40)), (11.0, 33.5)),
    "sandy clay": (((65, 0, 35), (45, 20, 35), (45, 0, 55)), (51.8, 40.3)),
    "silty clay": (((20, 40, 40), (0, 60, 40), (0, 40, 60)), (6.8, 46.5)),
    "clay": (((45, 15, 40), (20, 40, 40), (0, 40, 60), (0, 0, 100), (45, 0, 55)), (20.0, 60.0)),
}


def _at(mix: Mix) -> tuple[float, float]:
    """Place a mix: clay upwards, silt to the right, sand to the left."""
    _, silt, clay = mix
    return LEFT_PX + SIDE_PX * (silt + clay / 2) / 100, TOP_PX + HEIGHT_PX * (1 - clay / 100)


def texture_triangle(
    names: Mapping[str, str],
    parts: Mapping[str, str],
    *,
    chosen: str,
    near: Collection[str] = (),
    point: Mix | None = None,
    corners: Sequence[Mix] = (),
) -> Any:
    """Draw the texture triangle with one class marked and, where it is known, the mix and its doubt.

    Parameters
    ----------
    names : mapping of str to str
        Short words for each class, by its USDA name; a line break parts them.
    parts : mapping of str to str
        Words for sand, silt and clay.
    chosen : str
        The class to mark.
    near : collection of str
        Classes that it may be as well; their names are bold too.
    point : (float, float, float), optional
        Sand, silt and clay of the soil.
    corners : sequence of (float, float, float)
        The doubt around it.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    paper = Paper()
    for name, (outline, _) in OUTLINES.items():
        paper.shape([_at(mix) for mix in outline], theme.INK, width=1, fill=theme.INK if name == chosen else None)
    _sides(paper, parts)
    if len(corners) > 2:
        around = [_at(mix) for mix in (*corners, corners[0])]
        paper.line(around, theme.INK, width=2.5, dash=(5, 3))
    if point is not None:
        paper.dot(_at(point), theme.INK, px=DOT_PX)
    for name, (_, (sand, clay)) in OUTLINES.items():
        bold = name == chosen or name in near
        if name in BELOW:
            x, base = _at((100 - BELOW[name], BELOW[name], 0))
            paper.rule((x, base - 4), (x, base + LANE_PX + 4), theme.INK, width=1)
            paper.text((x, base + LANE_PX + 11), names[name].replace("\n", " "), align="center", bold=bold)
            continue
        lines = names[name].split("\n")
        x, y = _at((sand, 100 - sand - clay, clay))
        clear = _clear_of(point, x, y, lines)
        if clear != y and name == chosen and len(lines) > 1:
            continue  # no room beside the dot in so small a class: the shade marks it, and the finding names it
        y = clear
        for number, line in enumerate(lines):
            paper.text((x, y + LINE_PX * (number - (len(lines) - 1) / 2)), line, align="center", bold=bold)
    return paper.chart(TOP_PX + HEIGHT_PX + 3.2 * LANE_PX)


def _clear_of(point: Mix | None, x: float, y: float, lines: Sequence[str]) -> float:
    """Give the height of a class's words: their own, or above or below the dot where they would lie on it."""
    if point is None:
        return y
    dot_x, dot_y = _at(point)
    half = max(theme.text_px(line, bold=True) for line in lines) / 2
    apart = (len(lines) * LINE_PX + DOT_PX) / 2 + 1
    if abs(dot_x - x) > half + DOT_PX / 2 or abs(dot_y - y) >= apart:
        return y
    return dot_y + (apart if y >= dot_y else -apart)


def _sides(paper: Paper, parts: Mapping[str, str]) -> None:
    """Write the three scales: each part's share along one side, its name at the corner where it is all there is."""
    for tick in TICKS:
        left, bottom, right = _at((100 - tick, 0, tick)), _at((tick, 100 - tick, 0)), _at((0, tick, 100 - tick))
        paper.rule((left[0] - 4, left[1]), left, theme.INK, width=1)
        paper.text((left[0] - 7, left[1]), str(tick), align="right")
        paper.rule(bottom, (bottom[0] + 2, bottom[1] + 4), theme.INK, width=1)
        paper.text((bottom[0] + 3, bottom[1] + 11), str(tick), align="center")
        paper.rule(right, (right[0] + 2, right[1] - 4), theme.INK, width=1)
        paper.text((right[0] + 6, right[1] - 7), str(tick))
    base = TOP_PX + HEIGHT_PX + 2.6 * LANE_PX
    paper.text((_at((0, 0, 100))[0], TOP_PX - 11), parts["clay"], align="center")
    paper.text((0, base), parts["sand"])
    paper.text((theme.CHART_PX, base), parts["silt"], align="right")
