"""What the tables print of keeping a crop: series of storage lives, each of one source and one form."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, Range

Row = Mapping[str, Any]


@dataclass(frozen=True)
class Point:
    """A published life at one temperature, degrees Celsius and days."""

    temp_c: float
    low_days: float
    high_days: float


@dataclass(frozen=True)
class Series:
    """What one source prints for one form of a crop.

    Parameters
    ----------
    source : str
        Key of the source.
    form : str
        Such as ``topped``; empty where the source names none.
    points : tuple of Point
        From cold to warm; a printed span of temperatures has one at each end.
    temperatures : int
        How many temperatures or spans the source prints.
    crops : tuple of str
        Crop ids that the printed name covers.
    """

    source: str
    form: str
    points: tuple[Point, ...]
    temperatures: int
    crops: tuple[str, ...]

    @property
    def temp_c(self) -> Range:
        """Coldest and warmest printed temperature."""
        return Range(self.points[0].temp_c, self.points[-1].temp_c, "degC")


def rows_for(table: str, crop_id: str) -> Iterator[Row]:
    """Give the rows of a table whose printed name covers a crop."""
    return (row for row in rows(table) if crop_id in row["crops"].split("|"))


@cache
def series_of(crop_id: str) -> tuple[Series, ...]:
    """Give a crop's series, the one with the most temperatures first, else in the table's order."""
    found: dict[tuple[str, str], list[Row]] = {}
    for row in rows_for("storage_life", crop_id):
        found.setdefault((row["source"], row["form"] or ""), []).append(row)
    made = [_series(source, form, of) for (source, form), of in found.items()]
    return tuple(sorted(made, key=lambda series: -series.temperatures))


def _series(source: str, form: str, of: list[Row]) -> Series:
    points = {
        temp: Point(temp, row["low_days"], row["high_days"])
        for row in of
        for temp in (row["temp_c"], row["temp_to_c"])
        if temp is not None
    }
    crops = {name: None for row in of for name in row["crops"].split("|")}
    return Series(source, form, tuple(points[temp] for temp in sorted(points)), len(of), tuple(crops))


def readable_days(days: Range) -> Range:
    """Give days as a reader counts them: days below three weeks, months where even the shortest is near three.

    Parameters
    ----------
    days : Range
        Days.

    Returns
    -------
    Range
        Whole days, weeks or months of 30.4 days, at least one.

    Notes
    -----
    Common practice, no source.

    Examples
    --------
    >>> readable_days(Range(14.0, 42.0, "days"))
    Range(low=2.0, high=6.0, unit='weeks')
    >>> readable_days(Range(4.0, 7.0, "days"))
    Range(low=4.0, high=7.0, unit='days')
    >>> readable_days(Range(91.2, 182.4, "days"))
    Range(low=3.0, high=6.0, unit='months')
    """
    per, unit = (30.4, "months") if days.low >= 85 else (7, "weeks") if days.high >= 20.5 else (1, "days")
    low, high = (max(float(round(end / per)), 1.0) for end in (days.low, days.high))
    return Range(low, high, unit)


def in_days(days: float) -> Quantity:
    """Write a length of time in the working."""
    return Quantity(days, "days")
