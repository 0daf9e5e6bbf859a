"""What planting guides print for so many people."""

from __future__ import annotations

from typing import Literal, get_args

from gardenlib.checks import checked_choice
from gardenlib.harvest.figures import MOST_PEOPLE, whole
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import M_PER_FOOT, Range

Use = Literal["fresh", "preserved"]


def guides_say(crop: str | Crop, people: int, use: Use = "fresh") -> Range | None:
    """Give what planting guides print for so many people.

    Parameters
    ----------
    crop : str or Crop
        What is eaten.
    people : int
        How many eat, 1 to 50.
    use : {"fresh", "preserved"}
        Eaten fresh, or put by.

    Returns
    -------
    Range or None
        Plants, or metres of row where the guides print no plants; None where they print neither.

    Raises
    ------
    InputProblem
        When the number or the use cannot be used.

    Notes
    -----
    Source: Kansas MF315, Missouri G6201, Kentucky ID-128. They do not say how often it is eaten.

    Examples
    --------
    >>> guides_say("cabbage_main", 4)
    Range(low=12.0, high=20.0, unit='plants')
    """
    plant, table = as_crop(crop), whole(people, "people", MOST_PEOPLE)
    wanted = checked_choice(use, "use", get_args(Use))
    for unit, by, name in (("plants", 1.0, "plants"), ("ft", M_PER_FOOT, "m")):
        found = [row for row in rows("planting_per_person") if (row["crop"], row["use"]) == (plant.id, wanted)]
        found = [row for row in found if row["unit"] == unit]
        if found:
            low, high = min(row["low"] for row in found), max(row["high"] for row in found)
            return Range(low * table * by, high * table * by, name)
    return None


def guide_sources(crop: str, use: Use) -> list[str]:
    """List the guides that print a crop for this use."""
    return [row["source"] for row in rows("planting_per_person") if (row["crop"], row["use"]) == (crop, use)]
