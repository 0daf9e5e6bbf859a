"""One bed, one bag: the season's need set against what the bag brings, both ends of the nitrogen kept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gardenlib.soil.feeding import FeedingNeed, feeding_need
from gardenlib.soil.phosphorus import phosphorus_found
from gardenlib.soil.products import NUTRIENTS, FertilizerForBed, fertilizer_for_bed
from gardenlib.units import Range
from gardenlib.words import Said
from gardenlib.working import Answer, Notes

PLENTY = ("high", "very_high")


@dataclass(frozen=True, kw_only=True)
class FeedingForBed(Answer):
    """What one bed takes of one bag in a season.

    Parameters
    ----------
    weight : Range
        What to weigh out, kilograms, for the low and the high end of the nitrogen.
    need : mapping of str to Range
        Kilograms in the bed that are needed of ``n``, ``p2o5`` and ``k2o``; those without a figure are left out.
    supplied, short : mapping of str to Range
        Kilograms that come with the bag, and that are still missing.
    binding : str or None
        The nutrient that is filled first and sets the weight.
    unasked_phosphorus : Said or None
        Said where the bag brings phosphate and none was asked for.
    no_compost : Said or None
        Said where the soil holds so much phosphorus that no compost should go on for a while.
    """

    weight: Range
    need: Mapping[str, Range]
    supplied: Mapping[str, Range]
    short: Mapping[str, Range]
    binding: str | None
    unasked_phosphorus: Said | None
    no_compost: Said | None


def feeding_for_bed(
    crop_class: str,
    area_m2: float,
    *,
    label_pct: tuple[float, float, float],
    phosphorus: str = "untested",
    potassium: str = "untested",
) -> FeedingForBed:
    """Set what a bed needs in a season against one bag.

    Parameters
    ----------
    crop_class : str
        ``mixed``, ``broccoli`` or ``cabbage`` (with cauliflower).
    area_m2 : float
        The bed, 0.05 to 10,000 square metres.
    label_pct : tuple of float
        The three numbers on the bag, percent: N, P2O5, K2O.
    phosphorus, potassium : str
        The sheet's words: ``low``, ``medium``, ``high``, ``very_high``; ``untested`` where there is no sheet.

    Returns
    -------
    FeedingForBed
        Weight, what the bag brings and what is short, with the working.

    Raises
    ------
    InputProblem
        When a number or a word cannot be used, or the bag holds nothing of what is needed.

    Notes
    -----
    Source: as `feeding_need` and `fertilizer_for_bed`.  A mixed bed with a test is fed with the nitrogen of the
    common garden rate alone, as no published figure for phosphate and potash fits; the lab's own rate comes first.

    Examples
    --------
    >>> bed = feeding_for_bed("mixed", 92.90304, label_pct=(10, 10, 10))
    >>> round(bed.weight.low / 0.45359237, 6), bed.binding
    (25.0, 'n')
    """
    tested = {"phosphorus": phosphorus, "potassium": potassium}
    need = feeding_need(crop_class, **({} if crop_class == "mixed" else tested))
    by_area = (need.p2o5_kg_m2 or 0.0, need.k2o_kg_m2 or 0.0)
    low, high = (
        fertilizer_for_bed(rate, *by_area, area_m2, label_pct=label_pct)
        for rate in (need.n_kg_m2.low, need.n_kg_m2.high)
    )
    notes = Notes()
    by_lab = crop_class == "mixed" and set(tested.values()) != {"untested"}
    if by_lab:
        notes.say("feeding.lab_first")
    for answer in (low, need, high):
        told = [said for said in answer.assumptions if not (by_lab and said.key == "feeding.untested")]
        notes.assumptions.extend(said for said in told if said not in notes.assumptions)
        notes.cite(*answer.sources)
    for step in (*need.steps, *low.steps, *high.steps):
        notes.step(step.key, step.expression, step.inputs, step.result, step.source)
    return FeedingForBed(
        weight=Range(low.product_kg, high.product_kg, "kg"),
        need=_needed(need, area_m2),
        supplied={key: Range(low.supplied[key], high.supplied[key], "kg") for key in NUTRIENTS},
        short=_short(low, high),
        binding=low.binding if low.binding == high.binding else None,
        unasked_phosphorus=low.unasked_phosphorus,
        no_compost=_no_compost(phosphorus),
        **notes.parts(),
    )


def _needed(need: FeedingNeed, area_m2: float) -> dict[str, Range]:
    """Take the need of the whole bed, the nutrients that have a figure alone."""
    found = {"n": Range(need.n_kg_m2.low * area_m2, need.n_kg_m2.high * area_m2, "kg")}
    for key, rate in (("p2o5", need.p2o5_kg_m2), ("k2o", need.k2o_kg_m2)):
        if rate is not None:
            found[key] = Range(rate * area_m2, rate * area_m2, "kg")
    return found


def _short(low: FertilizerForBed, high: FertilizerForBed) -> dict[str, Range]:
    found = [key for key in NUTRIENTS if key in low.short or key in high.short]
    ends = {key: sorted((low.short.get(key, 0.0), high.short.get(key, 0.0))) for key in found}
    return {key: Range(least, most, "kg") for key, (least, most) in ends.items()}


def _no_compost(phosphorus: str) -> Said | None:
    if phosphorus not in PLENTY:
        return None
    found = phosphorus_found()
    level = Said(f"feeding.level_{phosphorus}")
    return Said("feeding.no_compost", {"level": level, "over": found.over, "gardens": found.gardens})
