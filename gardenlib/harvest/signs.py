"""When a crop is ready: what to see and feel, how to cut it, and what grows after the cut."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import MM_PER_INCH, Range
from gardenlib.working import Answer, Notes


@dataclass(frozen=True)
class Sign:
    """One sign from one row of the table.

    Parameters
    ----------
    part : str
        ``sign`` to see or feel, ``size``, how to ``cut``, what helps it ``keep``, or the ``second`` cut.
    name : str
        Which one; its words stand under ``ready.sign``.
    size : Range or None
        Lowest and highest: centimetres, or a count of heads.
    status : str
        ``memory`` is shown to learners as unchecked.
    sources : tuple of str
        Keys of the table of sources.
    """

    part: str
    name: str
    size: Range | None
    status: str
    sources: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class HarvestSigns(Answer):
    """What tells that a crop is ready, and how it is cut.

    Parameters
    ----------
    crop : str
        Crop id.
    signs : tuple of Sign
        All rows for the crop, sizes among them; none where nobody's sign was read.
    second_heads : Range or None
        Small heads after the cut of the main one: how many on a stump, or how wide side heads grow, centimetres.
        None where no source names a second cut.
    checked : bool
        False where a sign is from memory.
    """

    crop: str
    signs: tuple[Sign, ...]
    second_heads: Range | None
    checked: bool

    def of(self, part: str) -> tuple[Sign, ...]:
        """Give the signs of one part.

        Parameters
        ----------
        part : str
            ``sign``, ``size``, ``cut``, ``keep`` or ``second``.

        Returns
        -------
        tuple of Sign
            Those of the part, in the order of the table.
        """
        return tuple(sign for sign in self.signs if sign.part == part)

    @property
    def size(self) -> Range | None:
        """The size at which it is cut, centimetres; None where only other signs are published."""
        return next((sign.size for sign in self.of("size")), None)


def harvest_signs(crop: str | Crop) -> HarvestSigns:
    """Tell what to look for before a crop is cut, and how to cut it.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.

    Returns
    -------
    HarvestSigns
        Signs, sizes and ways to cut, each with its source.

    Raises
    ------
    InputProblem
        When there is no such crop.

    Notes
    -----
    Source: Iowa State University Extension (2019, 2020), National Center for Appropriate Technology, UC Davis and the
    other keys in ``tables.table("harvest_signs")``, row by row. How much a second cut weighs no trial that we could
    read has measured.

    Examples
    --------
    >>> found = harvest_signs("broccoli")
    >>> round(found.size.low / 2.54, 1), round(found.size.high / 2.54, 1)
    (6.0, 7.0)
    >>> harvest_signs("cabbage_early").second_heads
    Range(low=2.0, high=4.0, unit='heads')
    """
    plant, notes = as_crop(crop), Notes()
    signs = _table().get(plant.id, ())
    for sign in signs:
        notes.cite(*sign.sources)
    second = next((sign.size for sign in signs if sign.part == "second"), None)
    checked = all(sign.status != "memory" for sign in signs)
    if not signs:
        notes.say("ready.no_sign", crop=plant.name)
    if not checked:
        notes.say("ready.unchecked", crop=plant.name)
    notes.say("ready.second_no_trial" if second is None else "ready.second_no_yield", crop=plant.name)
    return HarvestSigns(crop=plant.id, signs=signs, second_heads=second, checked=checked, **notes.parts())


@cache
def _table() -> dict[str, tuple[Sign, ...]]:
    found: dict[str, tuple[Sign, ...]] = {}
    for row in rows("harvest_signs"):
        sign = Sign(row["part"], row["sign"], _size(row), row["status"], tuple(row["source"].split("|")))
        for crop_id in row["crops"].split("|"):
            found[crop_id] = (*found.get(crop_id, ()), sign)
    return found


def _size(row: Mapping[str, Any]) -> Range | None:
    low, high = row["low"], row["high"]
    if low is None:
        return None
    if row["unit"] == "heads":
        return Range(low, high, "heads")
    return Range(low * MM_PER_INCH / 10, high * MM_PER_INCH / 10, "cm")
