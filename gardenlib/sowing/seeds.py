"""Seeds to raise: how many to sow for the plants that are wanted, how many cells and trays, what they weigh."""

from __future__ import annotations

import math
from dataclasses import dataclass

from gardenlib.problems import InputProblem
from gardenlib.sowing.chance import (
    LEAST_GERMINATION,
    as_percent,
    checked_confidence,
    checked_count,
    checked_fraction,
    seeds_to_sow,
)
from gardenlib.sowing.coming_short import simple_sowing
from gardenlib.sowing.germination import figure, germination_used, has_seed
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.units import Quantity, Range
from gardenlib.words import Said
from gardenlib.working import COMMON_PRACTICE, Answer, Notes, Value


@dataclass(frozen=True, kw_only=True)
class SeedPlan(Answer):
    """How many seeds to sow for the plants that are wanted.

    Parameters
    ----------
    crop : str
        Crop id.
    plants, seeds, cells : int
        Plants wanted, seeds to sow, and cells (or places in the row) to sow them in.
    germination_fraction, stand_fraction : float
        Chance that one seed sprouts, and that it gives a plant after the losses.
    germination_from : Said
        Where the germination comes from.
    confidence : float
        How sure of enough plants.
    empty_fraction : float
        Share of cells in which nothing comes up.
    trays : int or None
        Trays, where the cells of one are known.
    weight_g : float or None
        What the seeds weigh, grams, where the seeds in a gram are published.
    standard_fraction : float or None
        The federal standard as of 1994.
    below_standard : bool or None
        Whether the germination is below it.
    seeds_between : Range or None
        After a towel test: the seeds for the two ends of the germination that it leaves open.
    """

    crop: str
    plants: int
    seeds: int
    cells: int
    germination_fraction: float
    stand_fraction: float
    germination_from: Said
    confidence: float
    empty_fraction: float
    trays: int | None
    weight_g: float | None
    standard_fraction: float | None
    below_standard: bool | None
    seeds_between: Range | None = None


def seed_plan(
    crop: str | Crop,
    plants: int,
    *,
    germination_fraction: float | None = None,
    towel_test: tuple[int, int] | None = None,
    field_loss_fraction: float | None = None,
    confidence: float = 0.9,
    seeds_per_cell: int = 1,
    cells_per_tray: int | None = None,
) -> SeedPlan:
    """Plan the seeds, cells and trays for the plants that are wanted.

    Parameters
    ----------
    crop : str or Crop
        A crop that is raised from seed.
    plants : int
        Plants wanted, 1 to 10,000.
    germination_fraction : float, optional
        What the packet says, 0 to 1. Without it and without a towel test the federal standard as of 1994 is used.
    towel_test : tuple of (int, int), optional
        The learner's own test: seeds that sprouted, seeds tested.
    field_loss_fraction : float, optional
        Share of the sprouted seeds that is lost later; nothing is taken for it unless it is given.
    confidence : float
        How sure to be of enough plants: 0.9 is 9 sowings of 10.
    seeds_per_cell : int
        Seeds in one cell, 1 to 5; only one plant of a cell is kept.
    cells_per_tray : int, optional
        Cells in one tray.

    Returns
    -------
    SeedPlan
        The numbers with their working.

    Raises
    ------
    InputProblem
        When the crop is not raised from seed, no germination is known, or a number cannot be used.

    Notes
    -----
    Source: 7 CFR 201.31 as of 1994 (germination), 7 CFR 201.46 table 1 (seeds per gram), Clopper and Pearson 1934
    (range of a test). The chance of at least one plant in a cell of s seeds is 1 - (1 - p)^s.

    Examples
    --------
    >>> seed_plan("tomato", 20).seeds
    31
    >>> seed_plan("tomato", 20, seeds_per_cell=2, cells_per_tray=50).trays
    1
    """
    plant, notes = as_crop(crop), Notes()
    if not has_seed(plant):
        raise InputProblem("seeds.not_from_seed", crop=plant.name)
    wanted, sure = checked_count(plants, "plants"), checked_confidence(confidence)
    per_cell = checked_count(seeds_per_cell, "seeds_per_cell", 5)
    standard = figure("germination_standard", plant, "germination_pct")
    standard_fraction = None if standard is None else standard / 100
    germination, came_from, between = germination_used(
        plant, germination_fraction, towel_test, standard_fraction, notes
    )
    kept = 1.0 if field_loss_fraction is None else 1 - checked_fraction(field_loss_fraction, "field_loss_fraction")
    stand = germination * kept
    if stand < LEAST_GERMINATION:
        raise InputProblem("seeds.no_stand")
    if field_loss_fraction is None:
        notes.say("seeds.no_loss_counted")
    else:
        given: dict[str, Value] = {"germination": as_percent(germination), "loss": as_percent(1 - kept)}
        notes.step("seeds.stand", "germination * (1 - loss)", given, as_percent(stand), COMMON_PRACTICE)
    empty = _empty(stand, per_cell, notes)
    cells = _enough_cells(wanted, 1 - empty, sure, notes)
    seeds = cells * per_cell
    if per_cell > 1:
        notes.say("seeds.one_kept", COMMON_PRACTICE)
        sown: dict[str, Value] = {"cells": cells, "seeds_per_cell": per_cell}
        notes.step("seeds.all_seeds", "cells * seeds_per_cell", sown, seeds, COMMON_PRACTICE)
    trays = None if cells_per_tray is None else _trays(cells, cells_per_tray, notes)
    weight = _weight_g(plant, seeds, notes)
    notes.say("seeds.independent")
    below = None if standard_fraction is None else germination < standard_fraction - 1e-9
    if below and standard is not None:
        notes.say("seeds.below_standard", "cfr_201_31", crop=plant.name, n=round(standard))
    return SeedPlan(
        crop=plant.id,
        plants=wanted,
        seeds=seeds,
        cells=cells,
        germination_fraction=germination,
        stand_fraction=stand,
        germination_from=came_from,
        confidence=sure,
        empty_fraction=empty,
        trays=trays,
        weight_g=weight,
        standard_fraction=standard_fraction,
        below_standard=below,
        seeds_between=_for_both_ends(between, kept, wanted, sure, per_cell),
        **notes.parts(),
    )


def _empty(stand: float, per_cell: int, notes: Notes) -> float:
    empty = (1 - stand) ** per_cell
    given: dict[str, Value] = {"chance": as_percent(stand), "seeds_per_cell": per_cell}
    notes.step("seeds.empty_cells", "(1 - chance) ^ seeds_per_cell", given, as_percent(empty), COMMON_PRACTICE)
    return empty


def _enough_cells(plants: int, chance: float, sure: float, notes: Notes) -> int:
    cells = seeds_to_sow(plants, chance, sure)
    given: dict[str, Value] = {"plants": plants, "chance": as_percent(chance)}
    notes.step("seeds.average", "plants / chance, rounded up", given, simple_sowing(plants, chance), COMMON_PRACTICE)
    asked = {**given, "how_sure": as_percent(sure)}
    notes.step("seeds.enough", "smallest n with P(at least plants of n) >= how_sure", asked, cells, COMMON_PRACTICE)
    return cells


def _trays(cells: int, cells_per_tray: int, notes: Notes) -> int:
    in_tray = checked_count(cells_per_tray, "cells_per_tray", 1000)
    trays = math.ceil(cells / in_tray)
    given: dict[str, Value] = {"cells": cells, "cells_per_tray": in_tray}
    notes.step("seeds.trays", "cells / cells_per_tray, rounded up", given, trays, COMMON_PRACTICE)
    return trays


def _weight_g(plant: Crop, seeds: int, notes: Notes) -> float | None:
    per_gram = figure("seed_weight", plant, "seeds_per_g")
    if per_gram is None:
        notes.say("seeds.no_weight", crop=plant.name)
        return None
    given: dict[str, Value] = {"seeds": seeds, "seeds_in_a_gram": per_gram}
    notes.step("seeds.weight", "seeds / seeds_in_a_gram", given, Quantity(seeds / per_gram, "g"), "cfr_201_46")
    return seeds / per_gram


def _for_both_ends(between: Range | None, kept: float, plants: int, sure: float, per_cell: int) -> Range | None:
    """Count the seeds for the best and the worst germination that a test leaves open."""
    if between is None:
        return None
    best, worst = (1 - (1 - end / 10 * kept) ** per_cell for end in (between.high, between.low))
    if worst < LEAST_GERMINATION:
        return None
    few, many = (float(seeds_to_sow(plants, end, sure) * per_cell) for end in (best, worst))
    return Range(few, many, "seeds")
