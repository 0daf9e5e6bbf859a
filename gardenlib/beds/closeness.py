"""What trials found when a crop stood closer or wider: the weight of a head, within the distances that were tried."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from gardenlib.beds.fits import checked_length
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, Range
from gardenlib.working import Answer, Notes, Value

VEGETABLES = {
    "cabbage_early": "cabbage",
    "cabbage_main": "cabbage",
    "cabbage_storage": "cabbage",
    "broccoli": "broccoli",
    "pak_choi": "pak_choi",
    "onion_sets": "onion",
    "onion_transplants": "onion",
}


@dataclass(frozen=True, kw_only=True)
class Closeness(Answer):
    """What trials say of a crop at a spacing.

    Parameters
    ----------
    crop : str
        Crop id.
    spacing_m : float
        Distance from plant to plant, metres.
    head : Range or None
        Weight of one head in kilograms between the trials with closer and wider plants; None outside of them.
    tried : bool
        Whether any trial of the vegetable is in the tables.
    """

    crop: str
    spacing_m: float
    head: Range | None
    tried: bool


def closeness_of(crop: str | Crop, spacing_m: float) -> Closeness:
    """Say what trials found about a crop's size at a spacing.

    Parameters
    ----------
    crop : str or Crop
        A crop of the tables.
    spacing_m : float
        Distance from plant to plant each way, metres, 0.01 to 5 m.

    Returns
    -------
    Closeness
        A range where the trials enclose this spacing, with what each trial found; else none.

    Raises
    ------
    InputProblem
        When the crop is unknown or the spacing cannot be used.

    Notes
    -----
    Source: Stoffella and Fleming 1990, Tegen and Jembere 2022 (cabbage); Chung 1985 (broccoli); Feltrim, Reghin and
    van der Vinne 2003 (pak choi); Pakistan J. Agric., Agric. Eng., Vet. Sci. 1(1) 1985 (onion). Abstracts only.
    Nothing is reckoned beyond the distances that were tried.

    Examples
    --------
    >>> found = closeness_of("cabbage_main", 0.4).head
    >>> found.low, found.high
    (0.923, 1.4)
    """
    plant, notes = as_crop(crop), Notes()
    spacing = checked_length(spacing_m)
    density = 1 / spacing**2
    area = {"spacing": Quantity(spacing * 100, "cm")}
    notes.step("closer.room", "spacing * spacing", area, Quantity(spacing**2, "m2"), "common_practice")
    trials = [row for row in rows("spacing_trials") if row["vegetable"] == VEGETABLES.get(plant.id)]
    for row in trials:
        told = _told(row)
        notes.say(f"closer.trial_{row['trial']}", row["source"], **told)
        notes.step("closer.printed", "as printed", {}, told["weight"], row["source"])
    heads = [row for row in trials if row["measure"] != "yield" and row["plants_low_m2"] is not None]
    closer = [row for row in heads if row["plants_low_m2"] >= density]
    wider = [row for row in heads if row["plants_high_m2"] <= density]
    head = None
    if closer and wider:
        ends = (min(closer, key=lambda row: row["plants_low_m2"]), max(wider, key=lambda row: row["plants_high_m2"]))
        head = Range(ends[0]["low"], ends[1]["low"], "kg")
    notes.say("closer.elsewhere" if trials else "closer.no_trial", crop=plant.name)
    return Closeness(
        crop=plant.id,
        spacing_m=spacing,
        head=head,
        tried=bool(trials),
        **notes.parts(),
    )


def _told(row: Mapping[str, Any]) -> dict[str, Value]:
    """Give what a trial found: the weight, the distance tried, and the same room in squares."""
    weight = Quantity(row["low"], "kg") if row["unit"] == "kg" else Quantity(row["low"] / 10, "kg_m2")
    told: dict[str, Value] = {"weight": weight}
    if row["spacing_low_cm"] is not None:
        told["spacing"] = Range(row["spacing_low_cm"], row["spacing_high_cm"], "cm")
    if row["plants_high_m2"] is not None:
        told["each"] = Quantity(100 / math.sqrt(row["plants_high_m2"]), "cm")
    return told
