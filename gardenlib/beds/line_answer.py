"""What comes of setting out a bed in lines: the lines, their plants, and what is left over."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gardenlib.working import Answer

if TYPE_CHECKING:
    import pandas as pd


@dataclass(frozen=True)
class Part:
    """What stands in a line, or in a part of one: crop, family, plants, their spacing and the first one's place."""

    crop: str
    family: str
    plants: int
    spacing_m: float
    first_m: float


@dataclass(frozen=True)
class BedLine:
    """A line: its distance from the edge, what stands in it, whether it was kept and is within reach."""

    from_edge_m: float
    parts: tuple[Part, ...]
    kept: bool
    in_reach: bool


@dataclass(frozen=True)
class LeftOver:
    """A crop that does not fit whole: plants wanted, and how many of them fit."""

    crop: str
    wanted: int
    fits: int

    @property
    def left(self) -> int:
        """Plants without a place."""
        return self.wanted - self.fits


@dataclass(frozen=True, kw_only=True)
class LinesAnswer(Answer):
    """A bed in lines.

    Parameters
    ----------
    length_m, width_m : float
        The bed, metres; lines run along the length.
    lines : tuple of BedLine
        The lines, the nearest to the edge first.
    left_over : tuple of LeftOver
        Crops that do not fit whole.
    edge_deg, end_deg : float
        Where the edge that lines are measured from faces, and the end that plants are measured from.
    shading : int
        Pairs of lines of which a tall one stands on the sunny side of a short one.
    """

    length_m: float
    width_m: float
    lines: tuple[BedLine, ...]
    left_over: tuple[LeftOver, ...]
    edge_deg: float
    end_deg: float
    shading: int

    @property
    def placed(self) -> int:
        """Plants that have a place."""
        return sum(part.plants for line in self.lines for part in line.parts)

    @property
    def wanted(self) -> int:
        """Plants that were asked for."""
        return self.placed + sum(item.left for item in self.left_over)

    @property
    def table(self) -> pd.DataFrame:
        """One row a part of a line: ``line``, ``from_edge_m``, ``crop``, ``family``, ``spacing_m``, ``first_m``..."""
        import pandas as pd

        names = ["line", "from_edge_m", "crop", "family", "spacing_m", "first_m", "plants"]
        rows = [
            (number, line.from_edge_m, part.crop, part.family, part.spacing_m, part.first_m, part.plants)
            for number, line in enumerate(self.lines, 1)
            for part in line.parts
        ]
        return pd.DataFrame(rows, columns=names)

    @property
    def places(self) -> pd.DataFrame:
        """One row a plant: ``x_m``, ``y_m``, ``spread_m`` and ``crop``."""
        import pandas as pd

        rows = [
            (part.first_m + number * part.spacing_m, line.from_edge_m, part.spacing_m, part.crop)
            for line in self.lines
            for part in line.parts
            for number in range(part.plants)
        ]
        return pd.DataFrame(rows, columns=["x_m", "y_m", "spread_m", "crop"])

    @property
    def counts(self) -> dict[str, int]:
        """Plants of each crop over all lines."""
        found: dict[str, int] = {}
        for line in self.lines:
            for part in line.parts:
                found[part.crop] = found.get(part.crop, 0) + part.plants
        return found
