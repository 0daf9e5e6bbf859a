"""How cold a crop may meet, at which risk, and the dates that follow for a place."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import TYPE_CHECKING, Literal

from gardenlib import tables
from gardenlib.problems import InputProblem
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows

if TYPE_CHECKING:
    from gardenlib.site import FreezeDates

TENDER = ("tender", "very tender")
_DEFAULT_RISK = {"hardy": 0.5, "half-hardy": 0.5, "tender": 0.1, "very tender": 0.1}


def default_risk(crop: str | Crop) -> float:
    """Give the risk at which a crop is planned unless somebody chooses another.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.

    Returns
    -------
    float
        Share of springs that still bite: 0.5 for hardy and half-hardy crops, 0.1 for tender and very tender ones.

    Raises
    ------
    InputProblem
        When there is no such crop.

    Notes
    -----
    Common practice, no source.

    Examples
    --------
    >>> default_risk("kale"), default_risk("tomato")
    (0.5, 0.1)
    """
    return _DEFAULT_RISK[as_crop(crop).hardiness]


def as_crop(plant: str | Crop) -> Crop:
    """Take a crop or look its id up."""
    return plant if isinstance(plant, Crop) else tables.crop(plant)


def checked_risk(risk: float | None, plant: Crop) -> float:
    """Give the risk that was chosen, or the default one."""
    if risk is None:
        return default_risk(plant)
    if risk > 1:
        raise InputProblem("fraction_over_one", name="risk", value=f"{risk:g}", as_fraction=f"{risk / 100:g}")
    if not 0 < risk < 1:
        raise InputProblem("sowing.risk", value=f"{risk:g}")
    return risk


@dataclass(frozen=True)
class ColdRow:
    """The temperature that hurts a crop at a stage, and where the figure comes from."""

    temp_f: int
    sources: tuple[str, ...]


@cache
def _cold_rows() -> dict[tuple[str, str], ColdRow]:
    return {
        (row["row"], row["stage"]): ColdRow(int(row["temp_f"]), tuple(row["source"].split("|")))
        for row in rows("cold_limits")
    }


def cold_row(plant: Crop, *, hardened: bool) -> ColdRow:
    """Find the row of the cold limits for a crop at its stage."""
    return _cold_rows()[(plant.cold_row, "hardened" if hardened else "not hardened")]


def cold_limit_f(crop: str | Crop, *, hardened: bool = True) -> int:
    """Give the temperature of the nights that a crop is planned to miss.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.
    hardened : bool
        Whether the plants were hardened off.

    Returns
    -------
    int
        Threshold, whole degrees Fahrenheit, as the trade publishes it.

    Raises
    ------
    InputProblem
        When there is no such crop.

    Notes
    -----
    Source: the table ``cold_limits``, row by row.

    Examples
    --------
    >>> cold_limit_f("kale"), cold_limit_f("kale", hardened=False), cold_limit_f("tomato")
    (28, 32, 36)
    """
    return cold_row(as_crop(crop), hardened=hardened).temp_f


def full_grown_temp_f(plant: Crop) -> int:
    """Give the temperature that ends a crop's season: a frost for tender crops, a hard freeze for the others."""
    return 36 if plant.hardiness in TENDER else 28


@dataclass(frozen=True)
class Limit:
    """A freeze date, or why there is none.

    Parameters
    ----------
    state : {"date", "rare", "every_month", "at_least", "unknown"}
        ``date``: it is known. ``rare``: nights as cold come more seldom than the risk. ``at_least``: only a colder
        threshold or a higher risk is known, so that the true limit is at least as strict.
    day : date or None
        The date.
    read_f, read_risk : int, float
        Threshold and risk at which it was read.
    """

    state: Literal["date", "rare", "every_month", "at_least", "unknown"]
    day: date | None
    read_f: int
    read_risk: float


def freeze_limit(
    freezes: FreezeDates, half: Literal["spring", "fall"], temp_f: int, risk: float, *, year: int
) -> Limit:
    """Find the date after (in fall: before) which nights at a temperature come with at most a risk.

    Parameters
    ----------
    freezes : FreezeDates
        Of the place.
    half : {"spring", "fall"}
        Half of the season.
    temp_f : int
        Threshold, whole degrees Fahrenheit, as the trade publishes it.
    risk : float
        Share of seasons that bite after (before) the date.
    year : int
        The year of the season's spring.

    Returns
    -------
    Limit
        The date and how it is known.

    Notes
    -----
    A night at 36 F comes later in spring than one at 32 F, and a date met in 1 spring of 10 is later than one met
    in 5 of 10. So where a limit itself is not known, the strictest of the colder and riskier ones still binds.
    """
    colder = [t for t in freezes.thresholds_f if t <= temp_f]
    if any(freezes.state(half, t) == "every_month" for t in {*colder, temp_f}):
        return Limit("every_month", None, temp_f, risk)
    if freezes.knows(half, temp_f, risk):
        day = freezes.date(half, temp_f, risk, year=year)
        return Limit("date" if day else "rare", day, temp_f, risk)
    found = [
        Limit("at_least", day, t, r)
        for t in colder
        for r in {risk, *freezes.risks}
        if r >= risk and freezes.knows(half, t, r) and (day := freezes.date(half, t, r, year=year))
    ]
    if not found:
        return Limit("unknown", None, temp_f, risk)
    strictest = max if half == "spring" else min
    return strictest(found, key=lambda limit: limit.day or date.min)
