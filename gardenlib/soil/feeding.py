"""What a bed needs of nitrogen, phosphate and potash by its soil test, from published tables alone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from gardenlib.checks import checked_choice
from gardenlib.problems import InputProblem
from gardenlib.soil.lime_limits import TO_KG_M2
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, Range
from gardenlib.working import Answer, Notes

CROP_CLASSES = ("mixed", "broccoli", "cabbage")
LEVELS = ("low", "medium", "high", "very_high", "untested")


@dataclass(frozen=True, kw_only=True)
class FeedingNeed(Answer):
    """What a bed needs in a season.

    Parameters
    ----------
    n_kg_m2 : Range
        Nitrogen, kilograms a square metre.
    p2o5_kg_m2, k2o_kg_m2 : float or None
        Phosphate and potash; None where the soil was not tested, as no figure holds then.
    """

    n_kg_m2: Range
    p2o5_kg_m2: float | None
    k2o_kg_m2: float | None


def feeding_need(crop_class: str, *, phosphorus: str = "untested", potassium: str = "untested") -> FeedingNeed:
    """Look up what a bed needs by crop and by the levels on its soil test.

    Parameters
    ----------
    crop_class : str
        ``mixed``, ``broccoli`` or ``cabbage`` (with cauliflower).
    phosphorus, potassium : str
        The sheet's words: ``low``, ``medium``, ``high``, ``very_high``; ``untested`` where there is no sheet.

    Returns
    -------
    FeedingNeed
        The rates with their working.

    Raises
    ------
    InputProblem
        When a word is not known, or no published figure holds for a tested mixed bed.

    Notes
    -----
    Source: University of Massachusetts Extension, Fertilizing the vegetable garden (mixed, untested); University of
    Delaware, Weekly Crop Update, after the Mid-Atlantic recommendations (broccoli, cabbage and cauliflower).

    Examples
    --------
    >>> need = feeding_need("cabbage", phosphorus="very_high", potassium="very_high")
    >>> need.p2o5_kg_m2, need.k2o_kg_m2
    (0.0, 0.0)
    """
    checked_choice(crop_class, "crop_class", CROP_CLASSES)
    checked_choice(phosphorus, "phosphorus", LEVELS)
    checked_choice(potassium, "potassium", LEVELS)
    if crop_class == "mixed" and {phosphorus, potassium} != {"untested"}:
        raise InputProblem("feeding.ask_the_lab")
    of_class = {row["level"]: row for row in rows("feeding_rates") if row["crop_class"] == crop_class}
    first: Mapping[str, Any] = next(iter(of_class.values()))
    unit, source = str(first["unit"]), str(first["source"])
    notes = Notes()
    printed = Range(float(first["n_low"]), float(first["n_high"]), unit)
    nitrogen = Range(printed.low * TO_KG_M2[unit], printed.high * TO_KG_M2[unit], "kg_m2")
    notes.step("feeding.nitrogen", "rate", {"rate": printed}, nitrogen, source)
    found: list[float | None] = []
    for level in (phosphorus, potassium):
        if level == "untested":
            found.append(None)
            continue
        rate = float(of_class[level]["phosphate_potash"])
        per_m2 = rate * TO_KG_M2[unit]
        notes.step("feeding.by_test", "rate", {"rate": Quantity(rate, unit)}, Quantity(per_m2, "kg_m2"), source)
        found.append(per_m2)
    if None in found:
        notes.say("feeding.untested")
    if crop_class != "mixed":
        notes.say("feeding.in_parts", source)
    return FeedingNeed(n_kg_m2=nitrogen, p2o5_kg_m2=found[0], k2o_kg_m2=found[1], **notes.parts())
