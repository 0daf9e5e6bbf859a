"""One planting's harvest: what it gives and on which days; and windows in which one more may be put in."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from gardenlib.harvest.figures import is_picked_once
from gardenlib.harvest.weeks import WEEK
from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.units import Range

ONCE_DAYS = 14


@dataclass(frozen=True)
class Stand:
    """One planting's harvest: its servings, its days, and the whole weeks that it keeps after the week of picking."""

    servings: Range
    first: date
    last: date
    keeps_weeks: int = 0


@dataclass(frozen=True)
class Further:
    """A planting that may be added: its window, the harvest of one put in on its first day, the first day to try."""

    first: date
    last: date
    harvest: Stand
    not_before: date | None = None


def picking_days(
    crop: str | Crop, first: date, last: date, *, picked_weeks: Range | None = None, ends: date | None = None
) -> tuple[date, date] | None:
    """Give the days in which one planting is picked.

    Parameters
    ----------
    crop : str or Crop
        What is picked.
    first, last : date
        First day on which it may be ready, and last day on which it begins to be.
    picked_weeks : Range, optional
        Weeks that one planting is picked, where they are known.
    ends : date, optional
        Day by which picking ends: the first freeze for a tender crop, or the garden's closing.

    Returns
    -------
    tuple of (date, date) or None
        First and last day; None where it would begin after `ends`.

    Raises
    ------
    InputProblem
        When the last day comes before the first.

    Notes
    -----
    Common practice, no source: a crop that is cut once comes within two weeks of its first day.

    Examples
    --------
    >>> picking_days("cabbage_main", date(2027, 6, 22), date(2027, 6, 29))
    (datetime.date(2027, 6, 22), datetime.date(2027, 7, 5))
    """
    plant = as_crop(crop)
    if last < first:
        raise InputProblem("need.backwards")
    if is_picked_once(plant.id):
        stop = first + timedelta(days=ONCE_DAYS - 1)
    elif picked_weeks is not None:
        stop = first + timedelta(days=round(picked_weeks.high * WEEK) - 1)
    else:
        stop = last
    stop = stop if ends is None else min(stop, ends)
    return None if stop < first else (first, stop)
