"""Which germination a plan counts with: the learner's own test, the packet's, or the federal standard."""

from __future__ import annotations

from gardenlib.problems import InputProblem
from gardenlib.sowing.chance import as_percent, checked_germination, germination_range
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import Range
from gardenlib.words import Said
from gardenlib.working import Notes, Value

SEED_METHODS = ("transplant", "direct", "either")


def has_seed(crop: str | Crop) -> bool:
    """Tell whether a crop is grown from seed.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.

    Returns
    -------
    bool
        False for crops from sets, slips, pieces or cloves.

    Raises
    ------
    InputProblem
        When there is no such crop.

    Notes
    -----
    Source: the crop's usual method in the table ``crops``.

    Examples
    --------
    >>> has_seed("tomato"), has_seed("garlic")
    (True, False)
    """
    return as_crop(crop).method in SEED_METHODS


def has_standard(crop: str | Crop) -> bool:
    """Tell whether a germination standard is published for a crop.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.

    Returns
    -------
    bool
        Whether it is in the federal standard as of 1994.

    Raises
    ------
    InputProblem
        When there is no such crop.

    Notes
    -----
    Source: 7 CFR 201.31 as of 1994.

    Examples
    --------
    >>> has_standard("tomato"), has_standard("arugula")
    (True, False)
    """
    return figure("germination_standard", as_crop(crop), "germination_pct") is not None


def figure(table: str, plant: Crop, column: str) -> float | None:
    """Look a crop's figure up in one of the seed tables."""
    return next((row[column] for row in rows(table) if row["crop"] == plant.id), None)


def germination_used(
    plant: Crop,
    packet: float | None,
    towel: tuple[int, int] | None,
    standard_fraction: float | None,
    notes: Notes,
) -> tuple[float, Said, Range | None]:
    """Choose the germination: the learner's own test, else the packet, else the federal standard."""
    if packet is not None and towel is not None:
        raise InputProblem("seeds.two_germinations")
    if towel is not None:
        sprouted, tested = towel
        low, high = germination_range(sprouted, tested)
        if sprouted == 0:
            raise InputProblem("seeds.none_sprouted", tested=tested)
        between = Range(low * 10, high * 10, "of_ten")
        ends: dict[str, Value] = {"sprouted": sprouted, "tested": tested}
        notes.step("seeds.towel", "sprouted / tested", ends, as_percent(sprouted / tested), "common_practice")
        notes.step("seeds.towel_range", "exact range, 9 tests of 10", ends, between, "clopper_pearson_1934")
        notes.say("seeds.towel_wide", "clopper_pearson_1934", span=Range(round(low * 10), round(high * 10), "of_ten"))
        return sprouted / tested, Said("seeds.from_towel", {"sprouted": sprouted, "tested": tested}), between
    if packet is not None:
        germination = checked_germination(packet)
        notes.cite("seed_packet")
        return germination, Said("seeds.from_packet", {"x": germination * 100}), None
    if standard_fraction is None:
        raise InputProblem("seeds.no_standard", crop=plant.name)
    notes.say("seeds.standard_is_least", "cfr_201_31")
    return standard_fraction, Said("seeds.from_standard", {"x": standard_fraction * 100}), None
