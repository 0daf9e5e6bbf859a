"""What to buy or grow for jars, a crock or the freezer, and when to begin: never how to process it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from gardenlib.harvest.preserve_crops import Way, crops_to_preserve
from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import KG_PER_POUND, Quantity, Range
from gardenlib.working import Answer, Notes, Value

MOST_JARS = 500
MOST_KG = 500.0
WEEKS_AHEAD = Range(4.0, 6.0, "weeks")
"""To ask the office, get the recipe, have the canner's gauge tested and find jars; common practice, no source."""
JARS_A_BATCH = {"jar": 7, "crock": 9}
"""A load of a canner and a batch of a crock, quarts, as the tables of yields count them."""
KG_A_DAY = (5.0, 10.0)
"""What two people trim for the freezer in a day, kilograms; common practice, no source."""


@dataclass(frozen=True, kw_only=True)
class Preserving(Answer):
    """What to have ready for a day of putting up food.

    Parameters
    ----------
    crop : str
        Crop id.
    way : {"jar", "crock", "freezer"}
        What is filled.
    to_get : Range
        What to buy or pick, kilograms as harvested.
    bushels : Range or None
        The same in bushels, where a bushel is published.
    weeks_ahead : Range
        Weeks before the harvest in which to begin asking.
    work_days : Range
        Days of work.
    """

    crop: str
    way: str
    to_get: Range
    bushels: Range | None
    weeks_ahead: Range
    work_days: Range


def jars_to_fill(crop: str | Crop, jars: int, *, way: Way = "jar") -> Preserving:
    """Work out what to buy or pick for so many quart jars.

    Parameters
    ----------
    crop : str or Crop
        One of ``crops_to_preserve(way)``.
    jars : int
        Quart jars, 1 to 500.
    way : {"jar", "crock"}
        Canned in jars, or fermented in a crock and counted in quarts.

    Returns
    -------
    Preserving
        Amount, weeks ahead and days of work.

    Raises
    ------
    InputProblem
        When no yield is published for the crop, or the count cannot be used.

    Notes
    -----
    Source: the keys in ``tables.table("preserve_yields")``: the range runs over all published yields of the crop. It
    says what to buy. It does not say how to process it.

    Examples
    --------
    >>> found = jars_to_fill("bean_bush", 7)
    >>> round(found.to_get.low / 0.45359237, 1), round(found.to_get.high / 0.45359237, 1)
    (10.8, 18.1)
    """
    plant, notes = as_crop(crop), Notes()
    if plant.id not in crops_to_preserve(way):
        raise InputProblem("preserve.no_yield", crop=plant.name)
    if not isinstance(jars, int) or isinstance(jars, bool) or not 1 <= jars <= MOST_JARS:
        raise InputProblem("preserve.jars", value=str(jars)[:40], most=MOST_JARS)
    own = [row for row in rows("preserve_yields") if row["way"] == way and plant.id in row["crops"].split("|")]
    least = min(row["lb"] / row["quarts_high"] for row in own)
    most = max(row["lb"] / row["quarts_low"] for row in own)
    notes.cite(*(row["source"] for row in own))
    each = Range(least * KG_PER_POUND, most * KG_PER_POUND, "kg")
    to_get = Range(each.low * jars, each.high * jars, "kg")
    notes.step("preserve.each", "least and most over the published yields", {}, each, own[0]["source"])
    notes.step("preserve.all", "each * jars", {"each": each, "jars": jars}, to_get, own[0]["source"])
    bushel = [row for row in own if row["measure"] == "bushel"]
    bushels = None
    if bushel:
        few, many = max(row["quarts_high"] for row in bushel), min(row["quarts_low"] for row in bushel)
        bushels = Range(jars / few, jars / many, "bushels")
        notes.say("preserve.bushels_differ")
    batches = math.ceil(jars / JARS_A_BATCH[way])
    days = Range(float(math.ceil(batches / 2)), float(batches), "days")
    notes.step("preserve.days", "one or two batches a day", {"batches": batches}, days, "common_practice")
    return Preserving(crop=plant.id, way=way, to_get=to_get, bushels=bushels, work_days=days, **_planned(notes))


def freezer_to_fill(crop: str | Crop, trimmed_kg: float) -> Preserving:
    """Work out what to buy or pick for so much in the freezer.

    Parameters
    ----------
    crop : str or Crop
        One of ``crops_to_preserve("freezer")``.
    trimmed_kg : float
        What is wanted, trimmed and ready for the pot, up to 500 kilograms.

    Returns
    -------
    Preserving
        Amount, weeks ahead and days of work.

    Raises
    ------
    InputProblem
        When no guide to freezing names the crop, or the weight cannot be used.

    Notes
    -----
    Source: USDA National Nutrient Database, Standard Reference 28, refuse: harvested = trimmed / edible part.

    Examples
    --------
    >>> round(freezer_to_fill("cabbage_main", 20.0).to_get.low, 6)
    25.0
    """
    plant, notes = as_crop(crop), Notes()
    guide = next((row for row in rows("freezer_crops") if row["crop"] == plant.id), None)
    row = next((row for row in rows("edible") if row["crop"] == plant.id), None)
    if guide is None or row is None:
        raise InputProblem("preserve.no_guide", crop=plant.name)
    if guide["status"] == "memory":
        notes.say("preserve.guide_unchecked", guide["source"], crop=plant.name)
    number = isinstance(trimmed_kg, int | float) and not isinstance(trimmed_kg, bool)
    if not number or not 0 < trimmed_kg <= MOST_KG:
        raise InputProblem("preserve.weight", value=str(trimmed_kg)[:40], most=Quantity(MOST_KG, "kg"))
    edible = Range(100 * row["low_fraction"], 100 * row["high_fraction"], "percent")
    to_get = Range(trimmed_kg / row["high_fraction"], trimmed_kg / row["low_fraction"], "kg")
    given: dict[str, Value] = {"trimmed": Quantity(trimmed_kg, "kg"), "edible_part": edible}
    notes.step("preserve.harvested", "trimmed / edible_part", given, to_get, row["source"])
    most, fewest = (float(max(1, math.ceil(trimmed_kg / share - 1e-9))) for share in KG_A_DAY)
    days = Range(fewest, most, "days")
    a_day: dict[str, Value] = {"trimmed": Quantity(trimmed_kg, "kg"), "a_day": Range(*KG_A_DAY, "kg")}
    notes.step("preserve.freezer_days", "trimmed / a_day, rounded up", a_day, days, "common_practice")
    return Preserving(crop=plant.id, way="freezer", to_get=to_get, bushels=None, work_days=days, **_planned(notes))


def _planned(notes: Notes) -> dict[str, Any]:
    """Give what every plan has: weeks ahead, and where the recipe is."""
    notes.say("preserve.ahead", weeks=WEEKS_AHEAD)
    notes.say("preserve.no_process")
    return {"weeks_ahead": WEEKS_AHEAD, **notes.parts()}
