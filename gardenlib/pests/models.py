"""The published degree-day models of pests, and how each maps to our methods."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gardenlib.problems import InputProblem
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import f_to_c
from gardenlib.words import Said

START_DAYS = {"season_start": 0, "apr_1": 90}
"""Days from midwinter (1 January in the north) on which a model begins to count."""


@dataclass(frozen=True)
class PestEvent:
    """One event of a pest by one source.

    Parameters
    ----------
    pest, event : str
        Ids of the pest and of what happens.
    lower_c, upper_c : float, float or None
        Thresholds, degrees Celsius.
    method : str or None
        How the source counts: ``average``, ``capped-average``, ``modified-average``; None where we cannot count so.
    start : str
        ``season_start`` (1 January in the north), ``apr_1`` or ``seen`` (the day on which the first was seen).
    sum_low_c, sum_high_c : float
        Degree days at which it happens, degrees Celsius times days.
    mapping : str
        ``as_published``, ``assumed`` or ``not_computable``.
    assumed : tuple of str
        What had to be assumed, or why it cannot be counted.
    unit : str
        Unit in which the source prints its figures: ``F`` or ``C``.
    sources : tuple of str
        Keys of the sources.
    """

    pest: str
    event: str
    lower_c: float
    upper_c: float | None
    method: str | None
    start: str
    sum_low_c: float
    sum_high_c: float
    mapping: str
    assumed: tuple[str, ...]
    unit: str
    sources: tuple[str, ...]

    @property
    def thresholds(self) -> tuple[float, float | None, str | None]:
        """What tells one way of counting from another."""
        return self.lower_c, self.upper_c, self.method

    @property
    def is_offered(self) -> bool:
        """Tell whether it can be counted from a station's record."""
        return self.mapping != "not_computable"


def pest_names() -> tuple[str, ...]:
    """List the pests of the table.

    Returns
    -------
    tuple of str
        Pest ids.

    Notes
    -----
    Source: the keys in ``tables.table("pests")``.

    Examples
    --------
    >>> "imported_cabbageworm" in pest_names()
    True
    """
    return tuple(row["pest"] for row in rows("pests"))


def checked_pest(pest: str) -> str:
    """Refuse a pest that is not in the table, with the list of those that are."""
    if pest not in pest_names():
        raise InputProblem("pests.unknown", pest=str(pest)[:60], known=", ".join(pest_names()))
    return pest


def pest_name(pest: str) -> Said:
    """Give a pest's name, to be said."""
    return Said(f"pest.{pest}")


def attacks(pest: str, crop: Crop) -> bool:
    """Tell whether a pest goes for a crop; a pest of all seedlings goes for any.

    Parameters
    ----------
    pest : str
        Pest id.
    crop : Crop
        The crop.

    Returns
    -------
    bool
        Whether it does.

    Raises
    ------
    InputProblem
        When the pest is unknown.

    Notes
    -----
    Source: common practice, as the table of pests says.

    Examples
    --------
    >>> from gardenlib.tables import crop
    >>> attacks("imported_cabbageworm", crop("kale")), attacks("vine_borer", crop("kale"))
    (True, False)
    """
    row = next(row for row in rows("pests") if row["pest"] == checked_pest(pest))
    families, crops = ((row[name] or "").split("|") for name in ("families", "crops"))
    if not row["families"] and not row["crops"]:
        return True
    return crop.family in families or crop.id in crops


@cache
def events_of(pest: str) -> tuple[PestEvent, ...]:
    """Give all events of a pest, those that cannot be counted among them."""
    return tuple(
        PestEvent(
            pest=row["pest"],
            event=row["event"],
            lower_c=f_to_c(row["lower"]) if row["unit"] == "F" else row["lower"],
            upper_c=None if row["upper"] is None else f_to_c(row["upper"]) if row["unit"] == "F" else row["upper"],
            method=row["method"],
            start=row["start"],
            sum_low_c=row["dd_low"] / (1.8 if row["unit"] == "F" else 1),
            sum_high_c=row["dd_high"] / (1.8 if row["unit"] == "F" else 1),
            mapping=row["mapping"],
            assumed=tuple((row["assumed"] or "").split("|")) if row["assumed"] else (),
            unit=row["unit"],
            sources=tuple(row["source"].split("|")),
        )
        for row in rows("pest_models")
        if row["pest"] == checked_pest(pest)
    )
