"""Containers: what a pot or bag truly holds, and which pots the published lists ask for."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

from gardenlib.checks import checked_between, checked_choice
from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import LITRES_PER_GALLON, MM_PER_INCH, Quantity, Range
from gardenlib.working import Answer, Notes

Verdict = Literal["enough", "tight", "small"]
MADE = ("nursery pot", "fabric bag")


@dataclass(frozen=True, kw_only=True)
class PotRow:
    """What one source asks for: volume and depth, the plants it puts in, and what it says of this pot."""

    source: str
    volume: Range | None
    depth: Range | None
    plants: Range | None
    verdict: Verdict | None


@dataclass(frozen=True, kw_only=True)
class PotAnswer(Answer):
    """A crop in a pot, by source.

    Parameters
    ----------
    crop : str
        Crop id.
    litres : float
        What the pot holds.
    rows : tuple of PotRow
        One for each source that has the crop.
    """

    crop: str
    litres: float
    rows: tuple[PotRow, ...] = field(default=())


def cone_litres(top_m: float, bottom_m: float, height_m: float) -> float:
    """Give the volume of a round pot that is narrower below.

    Parameters
    ----------
    top_m, bottom_m, height_m : float
        Widths inside at the rim and at the bottom, and the depth of the soil, 0.02 to 2 metres.

    Returns
    -------
    float
        Litres.

    Raises
    ------
    InputProblem
        When a length cannot be.

    Notes
    -----
    Common practice, no source: geometry of a cut cone, pi * h / 12 * (D * D + D * d + d * d).
    Square pots and bags that bulge differ.

    Examples
    --------
    A pot 10 inches wide at the rim, 8 below and 9.5 deep.

    >>> round(cone_litres(0.254, 0.2032, 0.2413), 2)
    9.94
    """
    top, bottom = (checked_between(v, n, 0.02, 2) for v, n in ((top_m, "top_m"), (bottom_m, "bottom_m")))
    height = checked_between(height_m, "height_m", 0.02, 2)
    return math.pi * height / 12 * (top**2 + top * bottom + bottom**2) * 1000


def pot_volume(sold_as_gal: float, made: str = "nursery pot") -> Range:
    """Give what a pot or bag that is sold as so many gallons holds, over all lists.

    Parameters
    ----------
    sold_as_gal : float
        The size on the label, US gallons, as the trade prints it.
    made : {"nursery pot", "fabric bag"}
        What it is.

    Returns
    -------
    Range
        Litres.

    Raises
    ------
    InputProblem
        When no list has the size.

    Notes
    -----
    Source: lists of makers and sellers, one row each in the table.

    Examples
    --------
    >>> held = pot_volume(5)
    >>> round(held.low, 1), round(held.high, 1)
    (14.5, 15.5)
    """
    checked_choice(made, "made", MADE)
    of_kind = [row for row in rows("pot_volumes") if row["made"] == made]
    found = [row for row in of_kind if row["sold_as_gal"] == sold_as_gal]
    if not found:
        known = ", ".join(f"{size:g}" for size in sorted({row["sold_as_gal"] for row in of_kind}))
        raise InputProblem("pots.size", value=str(sold_as_gal), known=known)
    low, high = min(row["low_gal"] for row in found), max(row["high_gal"] for row in found)
    return Range(low * LITRES_PER_GALLON, high * LITRES_PER_GALLON, "litres")


def pot_for(crop: str | Crop, litres: float) -> PotAnswer:
    """Hold a pot against what each source asks for a crop.

    Parameters
    ----------
    crop : str or Crop
        What shall grow in it.
    litres : float
        What the pot truly holds, 0.2 to 1,000 litres.

    Returns
    -------
    PotAnswer
        One row a source.

    Raises
    ------
    InputProblem
        When the volume cannot be, or no source has the crop.

    Notes
    -----
    Source: University of Maryland Extension 2023; Texas AgriLife Extension E-545; Iowa State University Extension.

    Examples
    --------
    The pot sold as 5 gallons that holds 3.9: enough for Texas (2 gallons), too small for Maryland (4 to 6).

    >>> [(row.source, row.verdict) for row in pot_for("broccoli", 14.76).rows]
    [('maryland_containers', 'small'), ('texas_containers', 'enough')]
    """
    plant, pot, notes = as_crop(crop), checked_between(litres, "litres", 0.2, 1000), Notes()
    of_crop = [row for row in rows("pots") if row["crop"] == plant.id]
    if not of_crop:
        raise InputProblem("pots.no_row", crop=plant.name)
    found = []
    for source in dict.fromkeys(row["source"] for row in of_crop):
        cells = {row["field"]: (row["low"], row["high"]) for row in of_crop if row["source"] == source}
        volume = _range(cells.get("volume_gal"), LITRES_PER_GALLON, "litres")
        found.append(
            PotRow(
                source=source,
                volume=volume,
                depth=_range(cells.get("depth_in"), MM_PER_INCH / 10, "cm"),
                plants=_range(cells.get("plants"), 1, "plants"),
                verdict=_verdict(pot, volume),
            )
        )
        given = {"pot": Quantity(pot, "litres"), "asked": volume}
        notes.step("pots.against", "pot / asked", given, None, source)
    if any(row["where"].endswith("in general") for row in of_crop):
        notes.say("pots.any_head")
    if plant.id.startswith("cabbage_"):
        notes.say("pots.head_types")
    notes.say("pots.depth_too")
    return PotAnswer(crop=plant.id, litres=pot, rows=tuple(found), **notes.parts())


def _range(cell: tuple[float, float] | None, factor: float, unit: str) -> Range | None:
    return None if cell is None else Range(cell[0] * factor, cell[1] * factor, unit)


def _verdict(pot: float, volume: Range | None) -> Verdict | None:
    if volume is None:
        return None
    slack = 1e-6
    return "enough" if pot >= volume.high - slack else "tight" if pot >= volume.low - slack else "small"
