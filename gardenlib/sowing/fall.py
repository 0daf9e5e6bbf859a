"""Fall crops: the last day to sow, counted back from the first freeze."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gardenlib.problems import InputProblem
from gardenlib.sowing.count_back import Rule, Started, count_back, slower_days
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.units import Quantity
from gardenlib.working import Answer, Notes

if TYPE_CHECKING:
    from gardenlib.site import FreezeDates

SHORT_DAY_HOURS = 10
AVERAGE_F, AVERAGE_RISK = 32, 0.5


@dataclass(frozen=True, kw_only=True)
class LatestSowing(Answer):
    """The last day to sow a crop for fall.

    Parameters
    ----------
    crop : str
        Crop id.
    rule : {"safe", "latest"}
        The rule that was counted by.
    date : date
        Last day to sow; of bought plants the last day to set out.
    set_out : date or None
        Last day to set plants out; None for seed sown in the bed.
    first_harvest : date
        First picking of plants that go in on the last day.
    last_harvest : date
        Last picking that the rule leaves room for.
    weeks_before : int
        Weeks from the last day to sow to the first freeze, to the nearest week.
    short_days_from : date or None
        First day shorter than 10 hours, where the latitude is known and there is such a day.
    """

    crop: str
    rule: str
    date: dt.date
    set_out: dt.date | None
    first_harvest: dt.date
    last_harvest: dt.date
    weeks_before: int
    short_days_from: dt.date | None = None


def latest_sowing(
    crop: str | Crop,
    first_fall: dt.date | None,
    rule: Rule,
    *,
    started: Started = "own",
    short_days_days: float | None = None,
    latitude: float | None = None,
) -> LatestSowing:
    """Count back from the first freeze to the last day on which a crop can be sown.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop, such as one with a packet's own days.
    first_fall : date or None
        First freeze of fall; the rules speak of the average one (32 F, in half of all falls).
    rule : {"safe", "latest"}
        ``safe``: the whole harvest is in before the freeze, for tender crops 14 days before. ``latest``, a gamble:
        tender crops begin to bear 14 days before the freeze, hardy ones 14 days after it.
    started : {"own", "bought", "seed"}
        Own plants raised indoors, bought plants, or seed sown in the bed. A crop that is never set out counts as seed.
    short_days_days : float, optional
        Days added because crops grow slower in fall, 0 to 60; by default the published 14.
    latitude : float, optional
        Degrees, north positive; then the date on which days fall below 10 hours is told. It shifts nothing.

    Returns
    -------
    LatestSowing
        The date, with the working, what was assumed, and the sources.

    Raises
    ------
    InputProblem
        When it never freezes, the crop, rule or way of starting is not known, no days to harvest count from that
        start, or the days are no number from 1 to 365.

    Notes
    -----
    Safe: Virginia Cooperative Extension (2004), days to harvest, days indoors where they count from plants that one
    raises, harvest period, 14 days for fall and 14 more if tender.  Latest: University of Tennessee, SP291-G.  Safe
    takes the slow kinds of the typical range, latest the quick ones: common practice, no source.

    Examples
    --------
    >>> latest_sowing("cauliflower", dt.date(2027, 10, 15), "safe", started="bought").date
    datetime.date(2027, 7, 9)
    """
    plant, notes = as_crop(crop), Notes()
    if first_fall is None:
        raise InputProblem("fall.never_freezes", crop=plant.name)
    notes.cite(*plant.sources)
    notes.say("fall.average_freeze", date=first_fall)
    found = count_back(plant, first_fall, rule, started, slower=slower_days(short_days_days), notes=notes)
    short_from = None if latitude is None else short_days_from(latitude, first_fall)
    if short_from is not None:
        notes.say("fall.ten_hours", "common_practice", hours=Quantity(SHORT_DAY_HOURS, "hours"), date=short_from)
    return LatestSowing(
        crop=plant.id,
        rule=rule,
        date=found.sown,
        set_out=found.planted if found.path.name == "set_out" else None,
        first_harvest=found.first_harvest,
        last_harvest=found.last_harvest,
        weeks_before=round((first_fall - found.sown).days / 7),
        short_days_from=short_from,
        **notes.parts(),
    )


def short_days_from(latitude: float, first_fall: dt.date) -> dt.date | None:
    """Give the first day shorter than 10 hours around a fall, or None where days stay longer."""
    import numpy as np

    from gardenlib.site import daylength_hours

    first = first_fall - dt.timedelta(days=90)
    days = np.datetime64(first) + np.arange(210)
    hours = daylength_hours(latitude, days)
    turns = np.flatnonzero((hours[1:] < SHORT_DAY_HOURS) & (hours[:-1] >= SHORT_DAY_HOURS))
    return first + dt.timedelta(days=int(turns[0]) + 1) if turns.size else None


def next_fall(freezes: FreezeDates, today: dt.date) -> int:
    """Find the season whose fall comes next.

    Parameters
    ----------
    freezes : FreezeDates
        Of the place.
    today : date
        Which day it is.

    Returns
    -------
    int
        The year of the season's spring: the first whose average first freeze (32 F) is still to come.

    Raises
    ------
    InputProblem
        When the first freeze is not known or comes in no fall.

    Notes
    -----
    Arithmetic on the calendar, no source.

    Examples
    --------
    >>> from gardenlib.site import FreezeDates
    >>> here = FreezeDates.typed((4, 15), (10, 15), source="class list", latitude=40.0)
    >>> next_fall(here, dt.date(2027, 8, 10)), next_fall(here, dt.date(2027, 11, 1))
    (2027, 2028)
    """
    for year in (today.year - 1, today.year):
        day = freezes.date("fall", AVERAGE_F, AVERAGE_RISK, year=year)
        if day is None:
            raise InputProblem("fall.no_fall_freeze")
        if day >= today:
            return year
    return today.year + 1
