"""How far apart a crop is planted, as its sources print it: each way in a bed, and in rows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import MM_PER_INCH, Range
from gardenlib.working import Answer, Notes, Step

Which = Literal["closest", "middle", "widest"]
SHARE = {"closest": 0.0, "middle": 0.5, "widest": 1.0}
FIELDS = {"bed": "fit.printed_bed", "in_row": "fit.printed_in_row", "between_rows": "fit.printed_between_rows"}
CM_PER_INCH = MM_PER_INCH / 10


@dataclass(frozen=True, kw_only=True)
class CropSpacing(Answer):
    """How far apart a crop is planted.

    Parameters
    ----------
    crop : str
        Crop id.
    bed, in_row, between_rows : Range
        Each way in a bed; along a row; from row to row; centimetres, lowest to highest of the sources.
    unchecked : tuple of str
        Which of the three no source could be found for.
    cited : mapping of str to tuple of str
        Sources of each of the three.
    """

    crop: str
    bed: Range
    in_row: Range
    between_rows: Range
    unchecked: tuple[str, ...]
    cited: Mapping[str, tuple[str, ...]]

    def is_checked(self, pattern: str) -> bool:
        """Tell whether the distances of a pattern come from sources.

        Parameters
        ----------
        pattern : {"rows", "square", "offset"}
            How the plants stand.

        Returns
        -------
        bool
            False where one of them comes from memory.
        """
        return not set(_used(pattern)) & set(self.unchecked)

    def sources_for(self, pattern: str) -> tuple[str, ...]:
        """List the sources of the distances of a pattern.

        Parameters
        ----------
        pattern : {"rows", "square", "offset"}
            How the plants stand.

        Returns
        -------
        tuple of str
            Keys of the table of sources.
        """
        return tuple(dict.fromkeys(key for name in _used(pattern) for key in self.cited[name]))

    def steps_for(self, pattern: str) -> tuple[Step, ...]:
        """List what each source prints for a pattern.

        Parameters
        ----------
        pattern : {"rows", "square", "offset"}
            How the plants stand.

        Returns
        -------
        tuple of Step
            One step a source and distance.
        """
        return tuple(step for step in self.steps if step.key in {FIELDS[name] for name in _used(pattern)})

    def pick(self, which: Which, pattern: str) -> tuple[float, float | None]:
        """Choose the distances of a pattern.

        Parameters
        ----------
        which : {"closest", "middle", "widest"}
            Which of the published distances.
        pattern : {"rows", "square", "offset"}
            How the plants stand.

        Returns
        -------
        tuple of (float, float or None)
            From plant to plant and, for rows, from row to row, metres.
        """
        share = SHARE[which]
        plant, row = (self.in_row, self.between_rows) if pattern == "rows" else (self.bed, None)
        return _between(plant, share), None if row is None else _between(row, share)


def _used(pattern: str) -> tuple[str, ...]:
    return ("in_row", "between_rows") if pattern == "rows" else ("bed",)


def _between(span: Range, share: float) -> float:
    return (span.low + share * (span.high - span.low)) / 100


def has_spacing(crop: Crop) -> bool:
    """Tell whether any distance is known for a crop.

    Parameters
    ----------
    crop : Crop
        A crop.

    Returns
    -------
    bool
        Whether `crop_spacing` gives an answer.

    Notes
    -----
    Source: the rows of the table ``spacing_by_source``.

    Examples
    --------
    >>> has_spacing(as_crop("leek"))
    True
    """
    return any(row["crop"] == crop.id for row in rows("spacing_by_source"))


def crop_spacing(crop: str | Crop) -> CropSpacing:
    """Find how far apart a crop is planted.

    Parameters
    ----------
    crop : str or Crop
        A crop of the tables.

    Returns
    -------
    CropSpacing
        The three ranges with their sources.

    Raises
    ------
    InputProblem
        When no distance is known for the crop.

    Notes
    -----
    Source: the rows of the table ``spacing_by_source``. Figures from memory are used only where no source is known.

    Examples
    --------
    >>> found = crop_spacing("cabbage_main").bed
    >>> round(found.low / 2.54), round(found.high / 2.54)
    (15, 18)
    """
    plant, notes = as_crop(crop), Notes()
    spans: dict[str, Any] = {}
    unchecked: list[str] = []
    cited: dict[str, tuple[str, ...]] = {}
    for field, words in FIELDS.items():
        found = [row for row in rows("spacing_by_source") if row["crop"] == plant.id and row["field"] == field]
        sure = [row for row in found if row["status"] == "published"]
        if not found:
            raise InputProblem("fit.no_spacing", crop=plant.name)
        if not sure:
            unchecked.append(field)
        counted = sure or found
        low, high = min(row["low_in"] for row in counted), max(row["high_in"] for row in counted)
        spans[field] = Range(low * CM_PER_INCH, high * CM_PER_INCH, "cm")
        cited[field] = tuple(dict.fromkeys(row["source"] for row in counted))
        for row in counted:
            printed = Range(row["low_in"] * CM_PER_INCH, row["high_in"] * CM_PER_INCH, "cm")
            notes.step(words, "as printed", {}, printed, row["source"])
    return CropSpacing(crop=plant.id, **spans, unchecked=tuple(unchecked), cited=cited, **notes.parts())
