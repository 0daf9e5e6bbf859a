"""What a planting may yield: as picked, as eaten, and in servings; always a range, its low end first."""

from __future__ import annotations

from dataclasses import dataclass

from gardenlib.checks import checked_between
from gardenlib.harvest.amounts import Amount, amount_for
from gardenlib.harvest.figures import (
    MOST,
    USDA,
    Basis,
    Figure,
    edible_fraction,
    grams,
    mixed_kg,
    whole,
    yields_of,
)
from gardenlib.harvest.to_eat import as_pct, eaten, servings
from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.units import Quantity, Range
from gardenlib.working import COMMON_PRACTICE, Answer, Notes, Value

_NAMES = {"plant": "plants", "row": "row_m", "area": "area_m2"}


@dataclass(frozen=True, kw_only=True)
class ExpectedYield(Answer):
    """What a planting may yield.

    Parameters
    ----------
    crop : str
        Crop id.
    kg : Range
        Weight as picked, lowest to highest of the sources.
    edible_kg, servings : Range or None
        Weight after trimming; cups of vegetable that count (two raw cups of leafy greens count as one).
    mixed_kg : Range or None
        What mixed gardens of the same area yielded, all crops taken together.
    is_sure : bool
        Whether every figure was read in a source; False is shown as "unchecked".
    """

    crop: str
    kg: Range
    edible_kg: Range | None
    servings: Range | None
    mixed_kg: Range | None
    is_sure: bool


def expected_yield(
    crop: str | Crop,
    *,
    plants: int | None = None,
    row_m: float | None = None,
    area_m2: float | None = None,
    in_row_m: float | None = None,
    rows_apart_m: float | None = None,
) -> ExpectedYield:
    """Tell what a planting may yield.

    Parameters
    ----------
    crop : str or Crop
        What is planted.
    plants : int, optional
        How many plants; give this, `row_m` or `area_m2`, and only one.
    row_m, area_m2 : float, optional
        Metres of row; square metres of bed planted in rows.
    in_row_m, rows_apart_m : float, optional
        Metres from plant to plant and from row to row; without them those of the published lists.

    Returns
    -------
    ExpectedYield
        The ranges with their working.

    Raises
    ------
    InputProblem
        When none or two of the three are given, a number cannot be used, or no yield is known for the crop.

    Notes
    -----
    Each source's yield is used as printed: for a length of row (Kansas MF315, Kentucky ID-128, Florida SP103,
    Tennessee ANR-3, Maine) or for a plant (Maine). One of the other kind is turned into the kind asked for by the
    distance between plants, where there is none of this kind, or one figure without a range; a bed is taken as rows.
    Edible parts and cups:
    USDA SR28 (2015). Raw leafy greens count half: MyPlate.

    Examples
    --------
    >>> found = expected_yield("broccoli", row_m=25 * 0.3048).kg  # 25 ft at 50 to 100 lb for 100 ft
    >>> round(found.low / 0.45359237, 1), round(found.high / 0.45359237, 1)
    (12.5, 25.0)
    """
    plant, notes = as_crop(crop), Notes()
    basis, amount = _asked({"plant": plants, "row": row_m, "area": area_m2})
    figures = yields_of(plant.id)
    if not figures:
        raise InputProblem("much.no_yield", crop=plant.name)
    apart = {"in_row": _distance(in_row_m, "in_row_m"), "between_rows": _distance(rows_apart_m, "rows_apart_m")}
    nearest: Basis = "row" if basis == "area" else basis
    same = tuple(figure for figure in figures if figure.basis == nearest)
    ends = {end for figure in same for end in figure.each}
    counted = same if len(ends) > 1 else figures
    found = []
    sure = True
    for figure in counted:
        much = amount_for(figure, plant, (basis, amount), apart, notes)
        sure = sure and much.is_sure and figure.is_sure
        found.append(_weigh(figure, plant.id, much, notes))
    kg = Range(min(one.low for one in found), max(one.high for one in found), "kg")
    if len(found) > 1:
        notes.step("much.all", "lowest to highest", {"sources": len(found)}, kg, COMMON_PRACTICE)
    notes.say("much.first_garden")
    if kg.low == kg.high:
        notes.say("much.one_figure", crop=plant.name)
    if not sure:
        notes.say("much.unchecked", crop=plant.name)
    edible = eaten(plant.id, kg, notes)
    return ExpectedYield(
        crop=plant.id,
        kg=kg,
        edible_kg=edible,
        servings=servings(plant.id, edible, notes),
        mixed_kg=mixed_kg(amount, notes) if basis == "area" else None,
        is_sure=sure,
        **notes.parts(),
    )


def _asked(given: dict[Basis, float | None]) -> tuple[Basis, float]:
    told = [(basis, value) for basis, value in given.items() if value is not None]
    if len(told) != 1:
        raise InputProblem("much.one_of_three", n=len(told))
    basis, value = told[0]
    if basis == "plant":
        return basis, whole(value, "plants", int(MOST["plant"]))
    return basis, checked_between(value, _NAMES[basis], 0.01, MOST[basis])


def _distance(value: float | None, name: str) -> float | None:
    return None if value is None else checked_between(value, name, 0.01, 10)


def _weigh(figure: Figure, crop: str, much: Amount, notes: Notes) -> Range:
    """Multiply one source's yield by the amount, in the way it is printed."""
    each = [value * by for value, by in zip(figure.each, (much.low, much.high), strict=True)]
    got = Range(each[0], each[1], figure.printed.unit)
    given: dict[str, Value] = {"amount": much.shown, "printed": figure.printed}
    if figure.basis == "row":
        given["for_each"] = Quantity(figure.per_m, "m")
        notes.step("much.row", "amount / for_each * printed", given, got, figure.source)
    else:
        notes.step("much.plant", "amount * printed", given, got, figure.source)
    piece, edible = grams(crop, "piece"), edible_fraction(crop)
    if figure.printed.unit == "kg" or piece is None or edible is None:
        return got
    weighed = Range(got.low * piece.low / 1000 / edible.high, got.high * piece.high / 1000 / edible.low, "kg")
    pieces: dict[str, Value] = {"pieces": got, "eaten_of_one": piece, "edible_part": as_pct(edible)}
    notes.step("much.pieces", "pieces * eaten_of_one / edible_part", pieces, weighed, USDA)
    return weighed
