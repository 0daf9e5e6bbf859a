"""How a bed lies on the paper: across it, down it, or a part of it, at a scale that keeps rings and lines legible."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from gardenlib.charts.paper import LANE_PX
from gardenlib.units import in_system
from gardenlib.words import Voice

if TYPE_CHECKING:
    import pandas as pd

RING_PX = 8.0
"""The smallest ring that is drawn; where the whole bed would need smaller ones, a part of it is drawn."""
LETTER_RING_PX = 15.0
"""The smallest ring that holds a letter."""
TALLEST_PX = 260.0
TALLEST_PART_PX = 300.0
MOST_PX_PER_M = 400.0
TICK_PX = 12.0


@dataclass(frozen=True)
class Fit:
    """How the bed lies on the paper: its long side across or down, its scale and the part that is drawn."""

    upright: bool
    px_per_m: float
    length_m: float
    width_m: float

    @property
    def size(self) -> tuple[float, float]:
        """Pixels across and down."""
        length, width = self.length_m * self.px_per_m, self.width_m * self.px_per_m
        return (width, length) if self.upright else (length, width)

    def place(self, x_m: float, y_m: float) -> tuple[float, float]:
        """Pixels across and down from the bed's first corner."""
        x, y = x_m * self.px_per_m, y_m * self.px_per_m
        return (y, x) if self.upright else (x, y)


def overhang(length_m: float, width_m: float, plants: pd.DataFrame) -> float:
    """Tell how far the widest ring reaches out of the bed."""
    if plants.empty:
        return 0.0
    half = plants.spread_m / 2
    sides = (half - plants.x_m, half - plants.y_m, plants.x_m + half - length_m, plants.y_m + half - width_m)
    return max(0.0, *(float(side.max()) for side in sides))


def fitted(bed: tuple[float, float], over: float, need: float, *, wide_px: float, voice: Voice) -> Fit:
    """Lay the bed across the paper where its rings and lines stay legible, else down it, else take a part."""
    length, width = bed
    across, down = length + 2 * over, width + 2 * over
    flat = min(wide_px / across, TALLEST_PX / down, MOST_PX_PER_M)
    if flat >= need:
        return Fit(False, flat, length, width)
    upright = min(wide_px / down, TALLEST_PART_PX / across)
    if upright >= need:
        return Fit(True, upright, length, width)
    most_across, most_down = wide_px / need - 2 * over, TALLEST_PART_PX / need - 2 * over
    tick = tick_m(need, voice)
    shown = [
        whole if whole <= most else int(most / tick) * tick
        for whole, most in ((length, most_down), (width, most_across))
    ]
    return Fit(True, need, *shown)


def needed_px_per_m(plants: pd.DataFrame, lines: Sequence[float]) -> float:
    """Tell the scale at which the smallest ring and the closest two lines stay legible."""
    need = 0.0
    if not plants.empty:
        small = LETTER_RING_PX if not lines and plants.letter.nunique() > 1 else RING_PX
        need = small / float(plants.spread_m.min())
    gaps = [b - a for a, b in pairwise(lines) if b > a]
    return max([need, *(LANE_PX / gap for gap in gaps)])


def tick_m(px_per_m: float, voice: Voice) -> float:
    """Choose the marks: every 1, 2, 5, 10 ... feet or tenths of a metre that stand clear of each other."""
    per_m, _ = in_system(1.0, "m", voice.units)
    unit = 1 / per_m if voice.units == "us" else 0.1
    steps = (factor * tens * unit for tens in (1, 10, 100, 1000) for factor in (1, 2, 5))
    return next(step for step in steps if step * px_per_m >= TICK_PX)
