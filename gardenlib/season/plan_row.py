"""One planting of a plan: its dates, and what it stands and needs."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from gardenlib.sowing.past_heat import Base
from gardenlib.units import Range
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.tables import Crop


@dataclass(frozen=True, kw_only=True)
class Thirst:
    """What a crop's water needs are reckoned with (FAO-56): coefficients, stages, roots and the soil's water."""

    kc: tuple[float, float, float]
    stage_days: tuple[float, float, float, float]
    root_m: float
    ready_fraction: float
    held_mm_m: float


@dataclass(frozen=True, kw_only=True)
class PlannedPlanting:
    """One planting with its dates and limits.

    Parameters
    ----------
    id : str
        The planting's id in the plot file.
    crop : Crop
        What is planted.
    event : {"set_out", "direct_sow"}
        How it is planted.
    planted_on : date or None
        First day of its window, moved by the weeks that were chosen; None without a window.
    usual_start : date or None
        The day from which the published days are counted: the middle of the published weeks, else the window's first.
    emerge_days : int
        Days until a sown seed is above the ground; 0 for plants.
    days : Range or None
        Days to the first harvest.
    heat_sum : Range or None
        Degree days to the first harvest, degrees Celsius times days; None where no base is published.
    base : Base or None
        The temperatures between which they count.
    young_c, grown_c : float
        The night that hurts it in the spring half, and the one that ends it in the fall half, degrees Celsius.
    cover : Range or None
        What its cover adds to a night as it is published, degrees Celsius; the low end counts.
    heat_c : float or None
        Highest published mean for growth, degrees Celsius.
    cold_days, cold_below_c : int, float, or None
        So many days with a mean below it may make it bolt; None where no limit is known.
    thirst : Thirst or None
        What its water is reckoned with; None where FAO-56 has no row.
    watered : bool
        Whether somebody waters it.
    kg : Range or None
        What it may yield; None where nothing is known or no number of plants was given.
    replayed : bool
        Whether past seasons can tell how it would have done.
    unknown : tuple of Said
        What is not known of it, or assumed.
    """

    id: str
    crop: Crop
    event: str
    planted_on: date | None
    usual_start: date | None
    emerge_days: int
    days: Range | None
    heat_sum: Range | None
    base: Base | None
    young_c: float
    grown_c: float
    cover: Range | None
    heat_c: float | None
    cold_days: int | None
    cold_below_c: float | None
    thirst: Thirst | None
    watered: bool
    kg: Range | None
    replayed: bool
    unknown: tuple[Said, ...]

    @property
    def cover_c(self) -> float:
        """What is reckoned for its cover: the low end of what is published, degrees Celsius."""
        return 0.0 if self.cover is None else self.cover.low
