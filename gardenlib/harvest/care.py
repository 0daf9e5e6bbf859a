"""What a store does to a crop beside its warmth: frost, chill, dry air, and the gas of ripening fruit."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from gardenlib.checks import checked_between
from gardenlib.harvest.keeping_rows import Row, rows_for
from gardenlib.harvest.keeping_time import EDGE_C, TEMP_C
from gardenlib.sowing.limits import as_crop
from gardenlib.units import Quantity, Range, f_to_c
from gardenlib.working import Answer, Notes

if TYPE_CHECKING:
    from gardenlib.tables import Crop

Verdict = Literal["yes", "no", "unknown"]
GIVES_GAS = ("tomato",)
"""Our crops that two extension sources keep apart from leaf crops when ripe, with apples, pears and melons."""
_GAS_SOURCES = ("michigan_crisper", "dpird_brassica_2017")


@dataclass(frozen=True)
class Limit:
    """One check of a store.

    Parameters
    ----------
    verdict : {"yes", "no", "unknown"}
        Whether it harms the crop; a figure from memory may warn, but never says no.
    status : str
        Status of the figure, ``published`` or ``memory``; ``none`` where there is none.
    temp_c : float or None
        The limit, degrees Celsius, where it is one.
    source : str
        Key of the first source, empty where there is none.
    """

    verdict: Verdict
    status: str
    temp_c: float | None = None
    source: str = ""


@dataclass(frozen=True, kw_only=True)
class StoreChecks(Answer):
    """What a place does to a crop.

    Parameters
    ----------
    crop : str
        Crop id.
    humidity : {"damp", "dry", ""}
        Which air it keeps best in; empty where nothing is published.
    freezes, chills : Limit
        Whether it freezes there, and whether cold hurts it there above freezing.
    gas : Limit
        Whether the gas of ripening fruit hurts it: of apples, pears, melons and ripe tomatoes.
    gives_gas : bool
        Whether, once ripe, it gives off that gas itself.
    fridge_days : Range or None
        Best-quality window of a home refrigerator, days.
    """

    crop: str
    humidity: str
    freezes: Limit
    chills: Limit
    gas: Limit
    gives_gas: bool
    fridge_days: Range | None


def store_checks(crop: str | Crop, temp_c: float) -> StoreChecks:
    """Check a store for frost, chill, dry air and the gas of its neighbors.

    Parameters
    ----------
    crop : str or Crop
        What is stored.
    temp_c : float
        Temperature of the store, degrees Celsius.

    Returns
    -------
    StoreChecks
        A verdict for each, with the status of its figure.

    Raises
    ------
    InputProblem
        When there is no such crop, or the temperature cannot be used.

    Notes
    -----
    Sources: the keys in ``tables.table("storage_care")`` and ``tables.table("fridge_life")``. Freezing points are the
    highest printed ones. A figure from memory may warn, but never tells that all is well.

    Examples
    --------
    >>> store_checks("cabbage_main", f_to_c(30.0)).freezes.verdict
    'yes'
    >>> store_checks("cucumber", f_to_c(40.0)).chills.verdict
    'yes'
    """
    plant, notes = as_crop(crop), Notes()
    temp = checked_between(temp_c, "temp_c", *TEMP_C)
    care = {name: [row for row in rows_for("storage_care", plant.id) if row["property"] == name] for name in _NAMES}
    fridge = next(rows_for("fridge_life", plant.id), None)
    for row in (*care["humidity"], *([fridge] if fridge else [])):
        notes.cite(*row["source"].split("|"))
    freezes = _colder(care["freezes"], temp, "keep.freezing_point", notes)
    chills = _colder(care["lowest_safe"], temp, "keep.lowest_safe", notes)
    return StoreChecks(
        crop=plant.id,
        humidity=care["humidity"][0]["level"] if care["humidity"] else "",
        freezes=freezes,
        chills=chills,
        gas=_gas(care["ethylene_hurts"], notes),
        gives_gas=plant.id in GIVES_GAS,
        fridge_days=None if fridge is None else Range(fridge["low_days"], fridge["high_days"], "days"),
        **notes.parts(),
    )


_NAMES = ("humidity", "freezes", "lowest_safe", "ethylene_hurts")


def _colder(of: list[Row], temp: float, step: str, notes: Notes) -> Limit:
    """Compare a temperature with the warmest printed limit."""
    if not of:
        return Limit("unknown", "none")
    row = max(of, key=lambda row: row["temp_f"])
    limit = f_to_c(row["temp_f"])
    source = row["source"].split("|")[0]
    notes.step(step, "as printed", {"crop": row["printed_as"]}, Quantity(limit, "degC"), source)
    harms = temp <= limit if row["property"] == "freezes" else temp < limit - EDGE_C
    verdict: Verdict = "yes" if harms else "no" if row["status"] == "published" else "unknown"
    return Limit(verdict, row["status"], limit, source)


def _gas(of: list[Row], notes: Notes) -> Limit:
    """Tell whether the gas of ripening fruit hurts a crop."""
    notes.cite(*_GAS_SOURCES)
    if not of:
        return Limit("unknown", "none")
    row = max(of, key=lambda row: ("low", "medium", "high").index(row["level"]))
    source = row["source"].split("|")[0]
    if row["level"] != "low":
        return Limit("yes", row["status"], None, source)
    return Limit("no" if row["status"] == "published" else "unknown", row["status"], None, source)
