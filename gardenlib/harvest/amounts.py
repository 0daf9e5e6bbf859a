"""What was planted, turned into the way in which a source prints its yield: plants or metres of row."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gardenlib.beds.distances import crop_spacing
from gardenlib.harvest.figures import Basis, Figure, own_distance
from gardenlib.tables import Crop
from gardenlib.units import Range
from gardenlib.working import COMMON_PRACTICE, Notes, Value


@dataclass(frozen=True)
class Amount:
    """Fewest and most plants or metres of row, and whether each distance was read in a source."""

    low: float
    high: float
    unit: str
    is_sure: bool = True

    @property
    def shown(self) -> Value:
        """The amount as it stands in the working."""
        return Range(self.low, self.high, self.unit)


def amount_for(
    figure: Figure, plant: Crop, asked: tuple[Basis, float], apart: Mapping[str, float | None], notes: Notes
) -> Amount:
    """Turn what was planted into plants or metres of row, as the figure needs it.

    Parameters
    ----------
    figure : Figure
        One source's yield.
    plant : Crop
        What is planted.
    asked : (str, float)
        ``plant``, ``row`` or ``area``, and how many plants, metres or square metres.
    apart : mapping of str to float or None
        The learner's own distances ``in_row`` and ``between_rows``, metres.
    notes : Notes
        Where the steps are kept.

    Returns
    -------
    Amount
        In the figure's way.
    """
    basis, value = asked
    units = {"plant": "plants", "row": "m", "area": "m2"}
    here = Amount(value, value, units[basis])
    if basis == "area":
        gap, source, sure = _apart(figure, plant, "between_rows", apart)
        here = Amount(value / gap.high, value / gap.low, "m", sure)
        given: dict[str, Value] = {"area": Range(value, value, "m2"), "rows_apart": gap}
        notes.step("much.row_of_area", "area / rows_apart", given, here.shown, source)
    if figure.basis == "row" and basis == "plant":
        gap, source, sure = _apart(figure, plant, "in_row", apart)
        row = Amount(here.low * gap.low, here.high * gap.high, "m", sure)
        notes.step(
            "much.row_of_plants", "plants * distance", {"plants": here.shown, "distance": gap}, row.shown, source
        )
        return row
    if figure.basis == "plant" and basis != "plant":
        gap, source, sure = _apart(figure, plant, "in_row", apart)
        stand = Amount(here.low / gap.high, here.high / gap.low, "plants", sure and here.is_sure)
        notes.step("much.plants_of_row", "row / distance", {"row": here.shown, "distance": gap}, stand.shown, source)
        return stand
    return here


def _apart(figure: Figure, plant: Crop, field: str, apart: Mapping[str, float | None]) -> tuple[Range, str, bool]:
    """Give a distance in metres: the learner's, else that of the yield's own source, else that of all lists."""
    own = apart[field]
    if own is not None:
        return Range(own, own, "m"), COMMON_PRACTICE, True
    printed = own_distance(plant.id, field, figure.source)
    if printed is not None:
        return printed, figure.source, True
    spacing = crop_spacing(plant)
    span: Range = getattr(spacing, field)
    return Range(span.low / 100, span.high / 100, "m"), spacing.cited[field][0], field not in spacing.unchecked
