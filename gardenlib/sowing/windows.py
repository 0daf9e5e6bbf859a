"""Counting weeks and days, and the published weeks of a crop."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from gardenlib.problems import InputProblem
from gardenlib.tables import Crop, Published
from gardenlib.tables.loader import rows
from gardenlib.units import Range

Days = tuple[date, date]
PathName = Literal["set_out", "direct_sow"]
SINGLE_DAY_WINDOW_DAYS = 14


@dataclass(frozen=True)
class Path:
    """One of the two ways to start a crop, and the keys of its words."""

    name: PathName
    weeks: Literal["transplant_wk", "direct_sow_wk"]
    opens_key: str
    closes_key: str
    harvest_first_key: str
    harvest_last_key: str

    def days(self, plant: Crop) -> Published | None:
        """Give the days to harvest that count from this start; days of the other start are never taken."""
        return plant.days_from_transplant if self.name == "set_out" else plant.days_from_seed


SET_OUT = Path(
    "set_out",
    "transplant_wk",
    "sowing.set_out_opens",
    "sowing.set_out_closes",
    "sowing.harvest_first",
    "sowing.harvest_last",
)
DIRECT = Path(
    "direct_sow",
    "direct_sow_wk",
    "sowing.direct_sow_opens",
    "sowing.direct_sow_closes",
    "sowing.harvest_first_from_seed",
    "sowing.harvest_last_from_seed",
)


def paths_of(plant: Crop) -> tuple[Path, ...]:
    """List the ways a crop can be started, setting out first."""
    set_out = plant.transplant_wk is not None or plant.method in ("transplant", "slips", "sets")
    direct = (
        plant.direct_sow_wk is not None
        or plant.method in ("direct", "pieces")
        or (plant.method == "either" and not set_out)
    )
    return tuple(path for path, wanted in ((SET_OUT, set_out), (DIRECT, direct)) if wanted)


def days_of_weeks(weeks: float) -> int:
    """Turn weeks into whole days, half a day counting up.

    Parameters
    ----------
    weeks : float
        Weeks; negative before a date.

    Returns
    -------
    int
        Days.

    Notes
    -----
    A week has 7 days; rounding to the nearest day is common practice, no source.

    Examples
    --------
    >>> days_of_weeks(-6), days_of_weeks(1.5)
    (-42, 11)
    """
    return math.floor(weeks * 7 + 0.5)


def later(day: date, days: float) -> date:
    """Give the day so many days later, half a day counting up."""
    return day + timedelta(days=math.floor(days + 0.5))


def week_of(day: date) -> date:
    """Give the Monday of the week in which a day lies.

    Parameters
    ----------
    day : date
        Any day.

    Returns
    -------
    date
        Its Monday.

    Notes
    -----
    Source: ISO 8601:2019, where a week begins on Monday.

    Examples
    --------
    >>> week_of(date(2027, 6, 24))
    datetime.date(2027, 6, 21)
    """
    return day - timedelta(days=day.weekday())


def harvest_window(planted: Days, days_to_harvest: Range) -> Days:
    """Give the first harvest of the first planting and of the last.

    Parameters
    ----------
    planted : tuple of (date, date)
        First and last day of planting.
    days_to_harvest : Range
        Days to the first harvest, lowest and highest, counted from this kind of planting.

    Returns
    -------
    tuple of (date, date)
        First planting with the fewest days, last planting with the most.

    Notes
    -----
    Common practice, no source; the days themselves come from a source that says what they count from.

    Examples
    --------
    >>> harvest_window((date(2027, 4, 1), date(2027, 4, 1)), Range(50, 80, "days"))
    (datetime.date(2027, 5, 21), datetime.date(2027, 6, 20))
    """
    return later(planted[0], days_to_harvest.low), later(planted[1], days_to_harvest.high)


@dataclass(frozen=True)
class Weeks:
    """The weeks that are used: from the region's source, or the typical range."""

    low: float
    high: float
    sources: tuple[str, ...]
    status: str
    from_region: bool

    @property
    def single_day(self) -> bool:
        """Whether only a first day is published ("on or after")."""
        return self.low == self.high

    @property
    def length_days(self) -> int:
        """How long the window is, days."""
        return SINGLE_DAY_WINDOW_DAYS if self.single_day else days_of_weeks(self.high) - days_of_weeks(self.low)


def regions() -> tuple[str, ...]:
    """List the sources that publish planting weeks; a class may name one of them for its region.

    Returns
    -------
    tuple of str
        Keys of the table of sources.

    Notes
    -----
    Source: each key's own row in ``tables.table("sources")``.

    Examples
    --------
    >>> "purdue_ho203" in regions()
    True
    """
    return tuple(
        dict.fromkeys(
            row["source"]
            for row in rows("crop_timing_by_source")
            if row["field"] in ("transplant_wk", "direct_sow_wk") and row["status"] == "published"
        )
    )


def checked_region(region: str | None) -> str | None:
    """Return a source that publishes planting weeks, or refuse it."""
    if region is not None and region not in regions():
        raise InputProblem("sowing.region", value=region, known=", ".join(regions()))
    return region


def weeks_by_source(plant: Crop, path: Path) -> list[Weeks]:
    """List each source's own weeks for a crop, in weeks."""
    return [
        Weeks(
            _in_weeks(row["low"], row["unit"]),
            _in_weeks(row["high"], row["unit"]),
            (row["source"],),
            row["status"],
            from_region=False,
        )
        for row in rows("crop_timing_by_source")
        if row["crop"] == plant.id and row["field"] == path.weeks
    ]


def _in_weeks(count: float, unit: str) -> float:
    return count / 7 if unit == "days" else count


def weeks_for(plant: Crop, path: Path, region: str | None) -> Weeks | None:
    """Choose the weeks: the region's own where it has them, else the typical range."""
    for own in weeks_by_source(plant, path):
        if region is not None and own.sources == (region,):
            return Weeks(own.low, own.high, own.sources, own.status, from_region=True)
    published: Published | None = getattr(plant, path.weeks)
    if published is None:
        return None
    typical = published.typical
    return Weeks(typical.low, typical.high, published.sources, published.status, from_region=False)
