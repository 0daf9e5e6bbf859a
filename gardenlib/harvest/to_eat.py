"""From what is picked to what is eaten: trimming, cups and servings."""

from __future__ import annotations

from gardenlib.harvest.figures import USDA, edible_fraction, grams, is_leafy
from gardenlib.units import Quantity, Range
from gardenlib.working import Notes, Value

SHELLED = {"pea"}
"""Whose lowest yields are probably printed without the pods."""


def as_pct(part: Range) -> Range:
    """Write a share in the working."""
    return Range(100 * part.low, 100 * part.high, "percent")


def eaten(crop: str, kg: Range, notes: Notes) -> Range | None:
    """Take off what is trimmed; None where its share is not published."""
    part = edible_fraction(crop)
    if part is None:
        return None
    if crop in SHELLED:
        ends = sorted((kg.low, kg.high * part.low))
        shelled = Range(ends[0], ends[1], "kg")
        given: dict[str, Value] = {
            "lowest": Quantity(kg.low, "kg"),
            "highest": Quantity(kg.high, "kg"),
            "edible_part": as_pct(part),
        }
        notes.step("much.shelled", "lowest; highest * lowest edible_part", given, shelled, USDA)
        notes.say("much.pea")
        return shelled
    left = Range(kg.low * part.low, kg.high * part.high, "kg")
    notes.step("much.edible", "picked * edible_part", {"picked": kg, "edible_part": as_pct(part)}, left, USDA)
    return left


def servings(crop: str, edible: Range | None, notes: Notes) -> Range | None:
    """Count the cups that are left to eat; raw leafy greens count half; None where no cup is published."""
    cup = grams(crop, "cup")
    if edible is None or cup is None:
        return None
    cups = Range(edible.low * 1000 / cup.high, edible.high * 1000 / cup.low, "cups")
    notes.step("much.cups", "eaten / one_cup", {"eaten": edible, "one_cup": cup}, cups, USDA)
    if not is_leafy(crop):
        return Range(cups.low, cups.high, "servings")
    half = Range(cups.low / 2, cups.high / 2, "servings")
    notes.step("much.leafy", "cups / 2", {"cups": cups}, half, "myplate")
    if crop == "kale":
        notes.say("much.loose_cup")
    return half
