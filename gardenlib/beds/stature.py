"""How a crop stands and is picked, and the few lengths of common practice for a bed in lines."""

from __future__ import annotations

from typing import Literal

from gardenlib.beds.distances import CM_PER_INCH, crop_spacing
from gardenlib.beds.line_input import Planting
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows

Support = Literal["stake", "trellis", "none"]


def planting(crop: Crop, plants: int) -> Planting:
    """Give what `lines` asks of a crop; one that is not in the table counts as short and picked once.

    Parameters
    ----------
    crop : Crop
        A crop.
    plants : int
        Plants wanted.

    Returns
    -------
    tuple
        Crop id, plants, family, whether it is tall, whether it is picked daily or often.

    Notes
    -----
    Source: the table ``stature``; common practice, no source.

    Examples
    --------
    >>> from gardenlib import tables
    >>> planting(tables.crop("pea"), 20)
    ('pea', 20, 'Fabaceae', True, True)
    """
    found = next((row for row in rows("stature") if row["crop"] == crop.id), None)
    tall, often = (False, False) if found is None else (found["tall"] == "yes", found["picked"] == "often")
    return crop.id, plants, crop.family, tall, often


def support(crop: str) -> Support:
    """Tell what holds a crop up: a stake for each plant, a trellis along the line, or nothing."""
    found: Support = next((row["support"] for row in rows("stature") if row["crop"] == crop), "none")
    return found


def usual_count(crop: Crop, people: int) -> int:
    """Give a first number of plants for a household: few where plants stand wide apart, many where close.

    Common practice, no source: 2 for each person from 12 inches on, 6 from 6 inches on, else 15; at most 100.
    """
    inches = crop_spacing(crop).bed.low / CM_PER_INCH
    each = next(plants for least, plants in ((12, 2), (6, 6), (0, 15)) if inches >= least - 1e-6)
    return min(people * each, 100)


def practice_m(item: str) -> float:
    """Give a length of common practice, metres."""
    return float(next(row["value_m"] for row in rows("line_practice") if row["item"] == item))
