"""The published figures of one crop: what it yields, how much of it is eaten, and what a cup weighs."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from gardenlib.checks import checked_number
from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.units import KG_PER_POUND, M_PER_FOOT, MM_PER_INCH, Quantity, Range
from gardenlib.working import Notes, Value

Basis = Literal["plant", "row", "area"]
USDA = "usda_sr28"
MOST_PEOPLE = 50
MOST = {"plant": 10_000, "row": 10_000.0, "area": 10_000.0}


@dataclass(frozen=True)
class Figure:
    """One source's yield: `printed` for one plant, or for `per_m` metres of row."""

    basis: Basis
    per_m: float
    printed: Range
    source: str
    is_sure: bool

    @property
    def each(self) -> tuple[float, float]:
        """Yield of one plant or one metre of row, as printed: kilograms or pieces."""
        return self.printed.low / self.per_m, self.printed.high / self.per_m


def whole(value: object, name: str, most: int) -> int:
    """Return a whole number from 1 to `most`, or refuse it in one sentence."""
    number = checked_number(value, name)
    if not 1 <= number <= most or number != int(number):
        raise InputProblem("much.whole", name=name, value=f"{number:g}", most=most)
    return int(number)


@cache
def yields_of(crop: str) -> tuple[Figure, ...]:
    """List the yields of a crop that can be weighed; those from memory only where no others are known."""
    found = [_figure(row) for row in rows("yields") if row["crop"] == crop and row["unit"] in {"lb", "pieces"}]
    sure = tuple(figure for figure in found if figure.is_sure)
    return sure or tuple(found)


def _figure(row: Any) -> Figure:
    unit, by = ("kg", KG_PER_POUND) if row["unit"] == "lb" else ("pieces", 1.0)
    printed = Range(row["low"] * by, row["high"] * by, unit)
    per_m = 1.0 if row["per_ft"] is None else row["per_ft"] * M_PER_FOOT
    return Figure(row["basis"], per_m, printed, row["source"], row["status"] == "published")


def mixed_kg(area_m2: float, notes: Notes) -> Range:
    """Give what mixed gardens of this size yielded, all crops taken together."""
    found = [row for row in rows("yields") if row["crop"] == "any"]
    square_feet = area_m2 / M_PER_FOOT**2
    low, high = (pick(row[end] for row in found) for pick, end in ((min, "low"), (max, "high")))
    rate = Range(low * KG_PER_POUND / M_PER_FOOT**2, high * KG_PER_POUND / M_PER_FOOT**2, "kg_m2")
    together = Range(low * KG_PER_POUND * square_feet, high * KG_PER_POUND * square_feet, "kg")
    given: dict[str, Value] = {"area": Quantity(area_m2, "m2"), "printed": rate}
    notes.step("much.mixed", "area * printed", given, together, found[0]["source"])
    notes.cite(*(row["source"] for row in found))
    return together


@cache
def edible_fraction(crop: str) -> Range | None:
    """Give the share of a crop that is eaten, by weight."""
    row = next((row for row in rows("edible") if row["crop"] == crop), None)
    return None if row is None else Range(row["low_fraction"], row["high_fraction"], "")


@cache
def grams(crop: str, kind: Literal["cup", "piece"]) -> Range | None:
    """Give what a cup or a piece of a crop weighs, the part that is eaten, grams."""
    found = [row["grams"] / row["amount"] for row in rows("weights") if row["crop"] == crop and row["kind"] == kind]
    return Range(min(found), max(found), "g") if found else None


def is_leafy(crop: str) -> bool:
    """Tell whether two raw cups of a crop count as one."""
    return any(row["raw_leafy"] == "yes" for row in rows("picking") if row["crop"] == crop)


def is_picked_once(crop: str) -> bool:
    """Tell whether a plant of the crop is harvested in one go."""
    return any(row["picked"] == "once" for row in rows("picking") if row["crop"] == crop)


def own_distance(crop: str, field: str, source: str) -> Range | None:
    """Give the distance that a source of yields prints itself, metres."""
    found = [
        row
        for row in rows("spacing_by_source")
        if (row["crop"], row["field"], row["source"]) == (crop, field, source) and row["status"] == "published"
    ]
    by = MM_PER_INCH / 1000
    return Range(found[0]["low_in"] * by, found[0]["high_in"] * by, "m") if found else None
