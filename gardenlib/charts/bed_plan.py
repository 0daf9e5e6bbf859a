"""A bed in plan, to scale: plants as rings, measured edges, straight lines with their distances."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from gardenlib.charts import theme
from gardenlib.charts.bed_scale import LETTER_RING_PX, Fit, fitted, needed_px_per_m, overhang, tick_m
from gardenlib.charts.drawing import lanes
from gardenlib.charts.paper import LANE_PX, Paper
from gardenlib.units import Quantity
from gardenlib.words import Voice

if TYPE_CHECKING:
    import pandas as pd

GAP_PX = 6.0


@dataclass(frozen=True)
class _Plan:
    """The paper, how the bed lies on it, its length and width, its first corner and what rings reach out of it."""

    paper: Paper
    fit: Fit
    bed: tuple[float, float]
    left: float
    top: float
    beside: float

    def at(self, x_m: float, y_m: float) -> tuple[float, float]:
        """Give the place of a point of the bed on the paper."""
        x, y = self.fit.place(x_m, y_m)
        return self.left + x, self.top + y

    @property
    def low(self) -> float:
        """Height of the measure below the bed."""
        return self.top + self.fit.size[1] + self.beside + 10


def bed_plan(
    length_m: float,
    width_m: float,
    plants: pd.DataFrame,
    *,
    voice: Voice,
    lines: Sequence[float] | None = None,
) -> Any:
    """Draw a bed to scale with its plants; of a very long or full bed, a part, and say so.

    Parameters
    ----------
    length_m, width_m : float
        The bed, metres; `x_m` runs along the length, `y_m` along the width, from one corner.
    plants : DataFrame
        One row a plant: ``x_m``, ``y_m``, ``spread_m`` (the ring's diameter) and ``letter`` (may be empty).
    voice : Voice
        In whose language and units the edges are written.
    lines : sequence of float, optional
        Distances of straight lines along the bed from the corner's long edge, metres.

    Returns
    -------
    Drawn
        As wide as `theme.CHART_PX`.
    """
    marked = [] if lines is None else sorted(lines)
    letters = _line_letters(plants, marked)
    names = [f"{letter} {_short(voice, line)}".strip() for line, letter in zip(marked, letters, strict=True)]
    left = max(theme.text_px(_long(voice, edge)) for edge in (length_m, width_m, 1.1)) + 4 * GAP_PX
    right = max([theme.text_px(name) + 2 * GAP_PX for name in names], default=GAP_PX)
    over = overhang(length_m, width_m, plants)
    fit = fitted(
        (length_m, width_m), over, needed_px_per_m(plants, marked), wide_px=theme.CHART_PX - left - right, voice=voice
    )
    beside = over * fit.px_per_m
    room = _lanes(fit, marked, names, left + beside)[0] if fit.upright and marked else 0.0
    plan = _Plan(Paper(), fit, (length_m, width_m), left + beside, GAP_PX + beside + room, beside)
    if marked:
        (_names_above if fit.upright else _names_beside)(plan, marked, names)
    _edges(plan, marked)
    _rings(plan, _drawn(plants, plan, over))
    _measures(plan, voice)
    return plan.paper.chart(_words(plan, voice))


def _short(voice: Voice, metres: float) -> str:
    return voice.quantity(Quantity(metres * 100, "cm"))


def _long(voice: Voice, metres: float) -> str:
    return voice.quantity(Quantity(metres, "m"), places=2 if voice.units == "metric" else 1)


def _line_letters(plants: pd.DataFrame, lines: Sequence[float]) -> list[str]:
    """Give the letters of the plants that stand on each line."""
    near = ((plants.y_m - line).abs() < 1e-3 for line in lines)
    return ["".join(dict.fromkeys(plants.letter[on])) for on in near]


def _drawn(plants: pd.DataFrame, plan: _Plan, over: float) -> pd.DataFrame:
    """Keep the plants whose rings lie whole in the part that is drawn."""
    keep, fit = plants.spread_m > 0, plan.fit
    for place, shown, whole in zip((plants.x_m, plants.y_m), (fit.length_m, fit.width_m), plan.bed, strict=True):
        if shown < whole:
            keep &= place + plants.spread_m / 2 <= shown + over + 1e-9
    return plants[keep]


def _edges(plan: _Plan, lines: Sequence[float]) -> None:
    """Draw the four edges, dashed where the bed goes on, and the corner from which lines are measured."""
    fit, paper = plan.fit, plan.paper
    long, wide = fit.length_m, fit.width_m
    cut_long, cut_wide = long < plan.bed[0], wide < plan.bed[1]
    for start, end, cut in (
        ((0, 0), (long, 0), False),
        ((0, 0), (0, wide), False),
        ((long, 0), (long, wide), cut_long),
        ((0, wide), (long, wide), cut_wide),
    ):
        paper.rule(plan.at(*start), plan.at(*end), theme.INK, width=1 if cut else 2, dash=[4, 4] if cut else ())
    for line in lines:
        if line <= wide:
            paper.rule(plan.at(0, line), plan.at(long, line), theme.INK, width=1, dash=[2, 3])
    if lines:
        paper.dot(plan.at(0, 0), theme.INK, px=8)


def _rings(plan: _Plan, plants: pd.DataFrame) -> None:
    for x_m, y_m, spread_m, letter in plants[["x_m", "y_m", "spread_m", "letter"]].itertuples(index=False):
        px = spread_m * plan.fit.px_per_m
        plan.paper.dot(plan.at(x_m, y_m), theme.GROWING, filled=False, px=px - 1.5, width=2)
        if letter and px >= LETTER_RING_PX:
            plan.paper.text(plan.at(x_m, y_m), letter, align="center", bold=True)


def _names_beside(plan: _Plan, lines: Sequence[float], names: Sequence[str]) -> None:
    for line, name in zip(lines, names, strict=True):
        x, y = plan.at(plan.fit.length_m, line)
        plan.paper.text((x + plan.beside + GAP_PX, y), name)


def _lanes(fit: Fit, lines: Sequence[float], names: Sequence[str], left: float) -> tuple[float, list[int]]:
    """Give the lines' names above an upright bed lanes in which none touches another, and the room of all lanes."""
    places = [left + line * fit.px_per_m for line in lines]
    boxes = [(x - 3, x - 3 + theme.text_px(name)) for x, name in zip(places, names, strict=True)]
    # From the right: each name then stands above those to its right, and its own line meets none of them.
    rows = lanes(boxes[::-1], lines=places[::-1])[::-1]
    return (max(rows) + 1) * LANE_PX + GAP_PX, rows


def _names_above(plan: _Plan, lines: Sequence[float], names: Sequence[str]) -> None:
    _, rows = _lanes(plan.fit, lines, names, plan.left)
    for line, name, row in zip(lines, names, rows, strict=True):
        if line <= plan.fit.width_m:
            x, bed = plan.at(0, line)
            y = bed - plan.beside - GAP_PX - (row + 0.5) * LANE_PX
            plan.paper.text((x - 3, y), name)
            plan.paper.rule((x, y + 8), (x, bed), theme.INK, width=1, dash=[2, 3])


def _measures(plan: _Plan, voice: Voice) -> None:
    """Measure both edges with ticks."""
    fit, paper = plan.fit, plan.paper
    sides = (fit.width_m, fit.length_m) if fit.upright else (fit.length_m, fit.width_m)
    step = tick_m(fit.px_per_m, voice)
    out = plan.left - plan.beside - 10
    for side, (x, y), (right, down) in zip(
        sides, ((plan.left, plan.low), (out, plan.top)), ((1, 0), (0, 1)), strict=True
    ):
        far = side * fit.px_per_m
        paper.rule((x, y), (x + right * far, y + down * far), theme.INK, width=1)
        for at in {*(number * step for number in range(int(side / step + 1e-6) + 1)), side}:
            px, reach = at * fit.px_per_m, 5 if at in {0, side} else 3
            ends = [(x + right * px + down * way, y + down * px + right * way) for way in (-reach, reach)]
            paper.rule(ends[0], ends[1], theme.INK, width=1)
    across, down_px = fit.size
    name = _long(voice, sides[0])
    half = theme.text_px(name) / 2
    middle = min(max(plan.left + across / 2, half), theme.CHART_PX - half)
    paper.text((middle, plan.low + 14), name, align="center")
    paper.text((out - GAP_PX - 1, plan.top + down_px / 2), _long(voice, sides[1]), align="right")


def _words(plan: _Plan, voice: Voice) -> float:
    """Write the scale and, of a part, what the whole bed is; tell how far down the drawing reaches."""
    told = [voice.say("fit.plan_marks", step=_long(voice, tick_m(plan.fit.px_per_m, voice)))]
    length, width = plan.bed
    if (plan.fit.length_m, plan.fit.width_m) != plan.bed:
        told.append(voice.say("fit.plan_part", length=_long(voice, length), width=_long(voice, width)))
    for number, words in enumerate(told):
        plan.paper.text((0, plan.low + 16 + (number + 1) * LANE_PX), words)
    return plan.low + 16 + (len(told) + 0.8) * LANE_PX
