"""A whole bed in lines on a small paper: what has no room for a ring or a name is left to the list beside it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from gardenlib.charts import theme
from gardenlib.charts.bed_plan import bed_plan
from gardenlib.charts.bed_scale import RING_PX, TALLEST_PART_PX, overhang
from gardenlib.charts.paper import LANE_PX
from gardenlib.words import Voice

if TYPE_CHECKING:
    import pandas as pd

LABELS_PX = 150.0
LEAST_PX_PER_M = 40.0
"""Below this scale nothing would be seen of the whole bed: then a part of it is drawn."""


def bed_in_lines(length_m: float, width_m: float, plants: pd.DataFrame, lines: Sequence[float], *, voice: Voice) -> Any:
    """Draw the whole bed where it can be seen; rings too small and names too close are left out.

    Parameters
    ----------
    length_m, width_m : float
        The bed, metres.
    plants : DataFrame
        As for `bed_plan`.
    lines : sequence of float
        Distances of the lines, metres.
    voice : Voice
        In whose language and units the edges are written.

    Returns
    -------
    Drawn
        The drawing.
    """
    over = overhang(length_m, width_m, plants)
    wide_px = theme.CHART_PX - LABELS_PX
    scale = 0.98 * min(TALLEST_PART_PX / (length_m + 2 * over), wide_px / (width_m + 2 * over))
    if scale < LEAST_PX_PER_M:
        return bed_plan(length_m, width_m, plants, voice=voice, lines=lines)
    named: list[float] = []
    # Lines without rings come first: without a name nothing at all would be seen of them.
    widest = {line: plants.spread_m[(plants.y_m - line).abs() < 1e-3].max() for line in lines}
    for line in sorted(lines, key=lambda line: (widest[line] * scale >= RING_PX, line)):
        if all(abs(line - other) * scale > LANE_PX for other in named):
            named.append(line)
    rings = plants.spread_m.where(plants.spread_m * scale > RING_PX)
    return bed_plan(length_m, width_m, plants.assign(spread_m=rings), voice=voice, lines=sorted(named))
