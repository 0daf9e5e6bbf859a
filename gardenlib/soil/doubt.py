"""How far a measured mix of sand, silt and clay may be from the true one."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, product
from math import atan2

import numpy as np
import numpy.typing as npt

from gardenlib.problems import InputProblem

Mix = tuple[float, float, float]
MOST_PCT = 20.0
STEPS = 40


@dataclass(frozen=True)
class Doubt:
    """Points by which each share may be off, and by which the clay may be too high on top.

    What is taken from the clay goes to sand and silt, in any split.
    """

    doubt_pct: float
    clay_over_pct: float

    @classmethod
    def checked(cls, doubt_pct: float, clay_over_pct: float) -> Doubt:
        """Make a doubt from points that can be used."""
        for name, value in (("doubt_pct", doubt_pct), ("clay_over_pct", clay_over_pct)):
            if not 0 <= value <= MOST_PCT:
                raise InputProblem("texture.doubt", name=name, value=f"{value:g}", most=f"{MOST_PCT:g}")
        return cls(float(doubt_pct), float(clay_over_pct))

    @property
    def any(self) -> bool:
        """Tell whether there is any doubt."""
        return self.doubt_pct > 0 or self.clay_over_pct > 0

    def ends(self, mix: Mix) -> tuple[tuple[float, float], ...]:
        """Give the lowest and highest share of sand, silt and clay."""
        sand, silt, clay = mix
        off, over = self.doubt_pct, self.clay_over_pct
        ends = ((sand - off, sand + off + over), (silt - off, silt + off + over), (clay - off - over, clay + off))
        return tuple((max(low, 0.0), min(high, 100.0)) for low, high in ends)

    def mixes(self, mix: Mix) -> npt.NDArray[np.float64]:
        """Give mixes that fill the doubt, evenly spaced; the measured one is among them."""
        sand, silt, clay = self.ends(mix)
        across, up = np.meshgrid(np.linspace(*sand, STEPS), np.linspace(*clay, STEPS))
        rest = 100 - across - up
        inside = (rest >= silt[0]) & (rest <= silt[1])
        filled = np.column_stack([across[inside], rest[inside], up[inside]])
        return np.vstack([filled, mix])

    def corners(self, mix: Mix) -> tuple[Mix, ...]:
        """Give the corners of the doubt in order around it."""
        ends = self.ends(mix)
        found: set[Mix] = set()
        for one, other in combinations(range(3), 2):
            for first, second in product(ends[one], ends[other]):
                shares = {one: first, other: second, 3 - one - other: 100 - first - second}
                if all(low - 1e-9 <= shares[i] <= high + 1e-9 for i, (low, high) in enumerate(ends)):
                    found.add((round(shares[0], 6), round(shares[1], 6), round(shares[2], 6)))
        middle = np.mean(list(found), axis=0)
        return tuple(sorted(found, key=lambda corner: atan2(corner[2] - middle[2], corner[1] - middle[1])))
