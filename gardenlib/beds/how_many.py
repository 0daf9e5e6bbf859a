"""How many plants fit in this bed, by pattern, with the working."""

from __future__ import annotations

from dataclasses import dataclass, replace

from gardenlib.beds.count_steps import free_steps, offset_steps, row_steps
from gardenlib.beds.distances import Which, crop_spacing
from gardenlib.beds.fits import LINE_APART, Pattern, laid
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import COMMON_PRACTICE, Answer, Notes

TEXTBOOK = 1 / LINE_APART
"""How many times as many plants stand offset as in squares, on a field without an edge."""


@dataclass(frozen=True, kw_only=True)
class BedCount(Answer):
    """How many plants fit in a bed.

    Parameters
    ----------
    length_m, width_m, spacing_m, margin_m : float
        The bed, the distance from plant to plant, and that from the edge, metres.
    pattern : {"rows", "square", "offset"}
        The pattern that was asked for.
    plants, square, offset : int
        Plants in the pattern that was asked for, in squares and offset.
    gain : int
        What offset gains over squares here; below 0 it loses.
    textbook : int
        What offset would hold if it gained as much as on a field without an edge.
    lines : int
        Straight lines to set out.
    lines_along_width : bool
        Whether they run along the width.
    lines_apart_m : float
        From line to line, metres.
    room_m2 : float or None
        Ground for each plant, the edge shared out; None where none fits.
    """

    length_m: float
    width_m: float
    spacing_m: float
    margin_m: float
    pattern: Pattern
    plants: int
    square: int
    offset: int
    gain: int
    textbook: int
    lines: int
    lines_along_width: bool
    lines_apart_m: float
    room_m2: float | None


def crop_count(
    length_m: float, width_m: float, crop: str | Crop, *, which: Which = "closest", pattern: Pattern = "offset"
) -> BedCount:
    """Count the plants of a crop that fit in a bed, at the distances of its sources.

    Parameters
    ----------
    length_m, width_m : float
        The bed, metres.
    crop : str or Crop
        A crop of the tables.
    which : {"closest", "middle", "widest"}
        Which of the published distances.
    pattern : {"rows", "square", "offset"}
        How the plants stand.

    Returns
    -------
    BedCount
        The counts, with the sources of the distances.

    Raises
    ------
    InputProblem
        When the crop has no distance, or the bed cannot be used.

    Notes
    -----
    Source: the rows of the table ``spacing_by_source``; plane geometry.

    Examples
    --------
    >>> crop_count(2.4384, 1.2192, "cabbage_main", which="widest").offset
    12
    """
    plant = as_crop(crop)
    spacing = crop_spacing(plant)
    plant_m, row_m = spacing.pick(which, pattern)
    count = bed_count(length_m, width_m, plant_m, pattern=pattern, row_spacing_m=row_m)
    unchecked = () if spacing.is_checked(pattern) else (Said("fit.unchecked", {"crop": plant.name}),)
    sources = (*spacing.sources_for(pattern), *count.sources)
    steps = (*spacing.steps_for(pattern), *count.steps)
    return replace(count, steps=steps, assumptions=(*unchecked, *count.assumptions), sources=sources)


def bed_count(
    length_m: float,
    width_m: float,
    spacing_m: float,
    *,
    pattern: Pattern = "offset",
    margin_m: float | None = None,
    row_spacing_m: float | None = None,
) -> BedCount:
    """Count the plants that fit in a bed and compare squares with offset lines.

    Parameters
    ----------
    length_m, width_m, spacing_m, pattern, margin_m, row_spacing_m
        As for `plants_that_fit`.

    Returns
    -------
    BedCount
        The counts with their working.

    Raises
    ------
    InputProblem
        As for `plants_that_fit`.

    Notes
    -----
    Plane geometry; common practice, no source. On a field without an edge offset lines hold 2 / sqrt(3) = 1.155
    times as many plants as squares.

    Examples
    --------
    >>> found = bed_count(2.4384, 1.2192, 0.6096)
    >>> found.square, found.offset, found.gain
    (8, 7, -1)
    """
    bed, notes = (length_m, width_m), Notes()
    chosen = laid(bed, spacing_m, pattern, margin_m, row_spacing_m)
    square = laid(bed, spacing_m, "square", margin_m, None)
    offset = laid(bed, spacing_m, "offset", margin_m, None)
    margin = spacing_m / 2 if margin_m is None else margin_m
    notes.say(
        "fit.margin_half" if margin_m is None else "fit.margin_given",
        COMMON_PRACTICE,
        margin=Quantity(margin * 100, "cm"),
    )
    free = free_steps(notes, bed, margin)
    if pattern == "offset":
        offset_steps(notes, chosen, spacing_m, free)
    else:
        row_steps(notes, chosen, spacing_m, free, row_spacing_m)
    return BedCount(
        length_m=length_m,
        width_m=width_m,
        spacing_m=spacing_m,
        margin_m=margin,
        pattern=pattern,
        plants=chosen.plants,
        square=square.plants,
        offset=offset.plants,
        gain=offset.plants - square.plants,
        textbook=int(square.plants * TEXTBOOK),
        lines=chosen.lines if chosen.plants else 0,
        lines_along_width=chosen.turned,
        lines_apart_m=chosen.lines_apart_m,
        room_m2=length_m * width_m / chosen.plants if chosen.plants else None,
        **notes.parts(),
    )
