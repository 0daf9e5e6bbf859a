"""Feeding again in the season: which crops ask for it, how much nitrogen, and how many weeks after planting."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from gardenlib.checks import checked_between
from gardenlib.problems import InputProblem
from gardenlib.soil.feeding_figures import feeding_figure
from gardenlib.soil.lime_checks import MOST_AREA_M2
from gardenlib.soil.lime_limits import TO_KG_M2
from gardenlib.tables.loader import rows
from gardenlib.units import KG_PER_POUND, Quantity, Range
from gardenlib.working import Answer, Notes, Value

DAYS_A_WEEK = 7


@dataclass(frozen=True)
class FeedingTime:
    """When one source puts nitrogen on.

    Parameters
    ----------
    source : str
        Key in the table of sources.
    weeks : Range
        Weeks after planting.
    days : tuple of (date, date) or None
        The same as days, where the day of planting is known.
    """

    source: str
    weeks: Range
    days: tuple[date, date] | None


@dataclass(frozen=True, kw_only=True)
class SideDress(Answer):
    """Feeding a crop again in the season.

    Parameters
    ----------
    feeds : {"heavy", "light", "unlisted"}
        How the source ranks the crop.
    n_kg, n_kg_m2 : float or None
        Nitrogen for the bed and for a square metre; None where no figure was found for the crop.
    times : tuple of FeedingTime
        When, by source; empty where no source gives weeks.
    """

    feeds: Literal["heavy", "light", "unlisted"]
    n_kg: float | None
    n_kg_m2: float | None
    times: tuple[FeedingTime, ...]


def side_dress(crop: str, area_m2: float, *, planted_on: date | None = None) -> SideDress:
    """Tell whether a crop is fed again, with how much nitrogen and when.

    Parameters
    ----------
    crop : str
        Crop id.
    area_m2 : float
        The bed, 0.05 to 10,000 square metres.
    planted_on : date, optional
        Day of planting or setting out.

    Returns
    -------
    SideDress
        Nitrogen and weeks, with the working.

    Raises
    ------
    InputProblem
        When the area or the day cannot be used.

    Notes
    -----
    Source: Colorado State University Extension, GardenNotes 711 (heavy feeders, 0.1 pound of nitrogen in 100 square
    feet); University of Delaware, Weekly Crop Update, and Kansas State University 2020 (weeks for cole crops).

    Examples
    --------
    >>> from datetime import date
    >>> again = side_dress("kale", 10)
    >>> again.feeds, again.times
    ('heavy', ())
    """
    area = checked_between(area_m2, "area_m2", 0.05, MOST_AREA_M2)
    if planted_on is not None and type(planted_on) is not date:
        raise InputProblem("feeding.planted", value=str(planted_on))
    listed = next((row for row in rows("feeders") if row["crop"] == crop), None)
    feeds: Literal["heavy", "light", "unlisted"] = listed["feeds"] if listed is not None else "unlisted"
    notes = Notes()
    if listed is None:
        notes.say("feeding.not_listed")
    if feeds == "light":
        notes.say("feeding.light", str(listed["source"]) if listed else "")
    if feeds != "heavy":
        return SideDress(feeds=feeds, n_kg=None, n_kg_m2=None, times=(), **notes.parts())
    row, enough = feeding_figure("side_dress_n"), feeding_figure("side_dress_not_needed")
    rate = float(row["low"]) * TO_KG_M2[row["unit"]]
    given: dict[str, Value] = {"rate": Quantity(rate, "kg_m2"), "area": Quantity(area, "m2")}
    notes.step("feeding.again", "rate * area", given, Quantity(rate * area * 1000, "g"), str(row["source"]))
    matter = Range(enough["low"], enough["high"], enough["unit"])
    notes.say("feeding.enough_in_soil", str(enough["source"]), matter=matter)
    cup = feeding_figure("cup_of_21_0_0")
    notes.say("feeding.cup", str(cup["source"]), weight=Quantity(float(cup["low"]) * KG_PER_POUND, "kg"))
    notes.say("feeding.no_weed_killer", "kansas_cole_2020")
    times = tuple(
        _time(str(line["source"]), Range(line["weeks_low"], line["weeks_high"], "weeks"), planted_on, notes)
        for line in rows("side_dress")
        if line["crop"] == crop
    )
    if not times:
        notes.say("feeding.middle", str(row["source"]))
    return SideDress(feeds=feeds, n_kg=rate * area, n_kg_m2=rate, times=times, **notes.parts())


def _time(source: str, weeks: Range, planted_on: date | None, notes: Notes) -> FeedingTime:
    """Count the weeks from the day of planting."""
    if planted_on is None:
        notes.cite(source)
        return FeedingTime(source, weeks, None)
    try:
        first, last = (planted_on + timedelta(days=DAYS_A_WEEK * count) for count in (weeks.low, weeks.high))
    except OverflowError:
        raise InputProblem("feeding.planted", value=str(planted_on)) from None
    notes.step("feeding.count_on", "planted + weeks", {"planted": planted_on, "weeks": weeks}, first, source)
    return FeedingTime(source, weeks, (first, last))
