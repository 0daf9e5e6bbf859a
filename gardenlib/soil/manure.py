"""Raw manure: the last day on which it may be worked in before a harvest."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from gardenlib.problems import InputProblem
from gardenlib.soil.pots import gift_figure
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity
from gardenlib.working import Answer, Notes, Value


@dataclass(frozen=True, kw_only=True)
class ManureWait(Answer):
    """How long raw manure has to lie in the soil before a harvest.

    Parameters
    ----------
    days : int
        Days from working it in to the harvest, at least.
    latest : date
        Last day on which it may be worked in.
    """

    days: int
    latest: date


def soil_touches(crop: str) -> bool:
    """Tell whether the part of a crop that is eaten touches the soil or is splashed with it.

    Parameters
    ----------
    crop : str
        Crop id.

    Returns
    -------
    bool
        False for the few crops that are picked well above the soil; yes for all others and for unknown ones.

    Notes
    -----
    The rule (7 CFR 205.203) names no crops. Which ones stand clear is common practice, no source, and the careful
    side is taken: low fruit of a tomato is splashed, so the tomato counts as touched.

    Examples
    --------
    >>> soil_touches("lettuce_leaf"), soil_touches("sweet_corn")
    (True, False)
    """
    return all(row["crop"] != crop or row["touches"] == "yes" for row in rows("soil_contact"))


def manure_wait(harvest_on: date, *, touches_soil: bool = True) -> ManureWait:
    """Count back from a harvest to the last day for raw manure.

    Parameters
    ----------
    harvest_on : date
        First day of the planned harvest.
    touches_soil : bool
        Whether the part that is eaten touches the soil or is splashed with it; yes where nobody knows.

    Returns
    -------
    ManureWait
        Days and the last day, with the working.

    Raises
    ------
    InputProblem
        When the harvest is not a date.

    Notes
    -----
    Source: 7 CFR 205.203(c)(1): at least 120 days where the edible part touches the soil or soil particles, 90 where
    it does not. The rule binds certified organic farms; here it is the least that is asked for.

    Examples
    --------
    >>> from datetime import date
    >>> manure_wait(date(2026, 9, 1)).latest
    datetime.date(2026, 5, 4)
    """
    if not isinstance(harvest_on, date) or isinstance(harvest_on, datetime):
        raise InputProblem("compost.harvest_date", value=str(harvest_on))
    row = gift_figure("manure_touching" if touches_soil else "manure_apart")
    days = int(row["low"])
    try:
        latest = harvest_on - timedelta(days=days)
    except OverflowError:
        raise InputProblem("compost.harvest_date", value=str(harvest_on)) from None
    notes = Notes()
    notes.say("compost.never_pets", "common_practice")
    notes.say("compost.aged_is_raw", str(row["source"]))
    given: dict[str, Value] = {"harvest": harvest_on, "wait": Quantity(days, "days")}
    notes.step("compost.count_back", "harvest - wait", given, latest, str(row["source"]))
    return ManureWait(days=days, latest=latest, **notes.parts())
