"""When a crop sown on each day of each past season was ripe, by the degree days it needs."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from gardenlib.problems import InputProblem
from gardenlib.site import FreezeDates, Warmth, degree_days
from gardenlib.site.freeze import date_of, day_numbers, half_bounds, six_months_on
from gardenlib.site.past_seasons import YEAR_DAYS
from gardenlib.sowing.past_heat import Array, Base, base_of, past_days, ripe_days
from gardenlib.sowing.windows import Path, days_of_weeks, later, paths_of, weeks_for
from gardenlib.tables import Crop, Published
from gardenlib.units import Quantity
from gardenlib.working import Notes

if TYPE_CHECKING:
    from gardenlib.site import Station


@dataclass(frozen=True, kw_only=True)
class Ripening:
    """What past seasons say of one crop at one place.

    Parameters
    ----------
    plant : Crop
        The crop.
    event : {"direct_sow", "set_out"}
        What its days count from.
    base : Base
        Where its degree days begin and end.
    total_c : float
        Degree days to the first harvest, degrees Celsius times days.
    ripe : array, shape (seasons, 365)
        Day of the growing year on which a planting of each day was ripe; `NOT_RIPE` where it was not.
    year : int
        The growing year to plan.
    start : int
        Day number of its first day.
    latitude : float
        Degrees, south negative.
    freezes : FreezeDates
        Freeze dates of the station.
    """

    plant: Crop
    event: str
    base: Base
    total_c: float
    ripe: Array
    year: int
    start: int
    latitude: float
    freezes: FreezeDates

    def date(self, day: float) -> dt.date | None:
        """Give the date of a day of the growing year; None after its end."""
        return None if not day < YEAR_DAYS else date_of(self.start + day, self.year)

    def day(self, when: dt.date) -> int:
        """Give the day of the growing year of a date in it."""
        return _number(when, self.year) - self.start

    @property
    def end(self) -> dt.date:
        """Last day of the growing year."""
        return date_of(self.start + YEAR_DAYS - 1, self.year)

    @property
    def first_freeze(self) -> dt.date | None:
        """The first freeze (32 F) of the middle fall, where it is known and there is one."""
        if not self.freezes.knows("fall", 32, 0.5):
            return None
        return self.freezes.date("fall", 32, 0.5, year=self.year)


def growing_year(when: dt.date, latitude: float) -> int:
    """Name the growing year of a date: it runs from midwinter to midwinter and is called by its spring."""
    return when.year - int(when.month <= six_months_on(latitude))


def ripening(
    plant: Crop,
    station: Station,
    first: dt.date,
    *,
    latitude: float | None,
    warmth: Warmth | None,
    freezes: FreezeDates | None,
    notes: Notes,
) -> Ripening:
    """Work out on which day of each past season each planting was ripe."""
    base, latitude = base_of(plant), station.latitude if latitude is None else latitude
    if latitude is None:
        raise InputProblem("climate.latitude_needed", name=station.name)
    warmth = Warmth.from_station(station, latitude) if warmth is None else warmth
    freezes = FreezeDates.from_station(station, latitude=latitude) if freezes is None else freezes
    path, days = _path(plant, notes)
    year, start = growing_year(first, latitude), half_bounds(latitude, "spring")[0]
    notes.cite(*base.sources)
    if base.status == "memory":
        notes.say("even.base_unchecked", crop=plant.name)
    last = freezes.date("spring", 32, 0.5, year=year) if freezes.knows("spring", 32, 0.5) else None
    began = _usual_start(plant, path, last, first, notes)
    typical = np.roll(degree_days(warmth.tmin_c, warmth.tmax_c, base.lower_c, base.upper_c), -start)
    count = int((days.typical.low + days.typical.high) / 2 + 0.5)
    begins = (_number(began, year) - start) % YEAR_DAYS
    total_c = float(np.take(typical, range(begins, begins + count), mode="wrap").sum())
    notes.step(
        "even.total",
        "sum of degree_days of the typical year over days",
        {"start": began, "days": Quantity(count, "days"), "base": Quantity(base.lower_c, "degC")},
        Quantity(total_c, "degC_days"),
        days.sources[0],
    )
    notes.say("even.calibrated", crop=plant.name)
    daily = past_days(station, latitude, warmth, base, notes)
    return Ripening(
        plant=plant,
        event=path.name,
        base=base,
        total_c=total_c,
        ripe=ripe_days(daily, total_c),
        year=year,
        start=start,
        latitude=latitude,
        freezes=freezes,
    )


def _path(plant: Crop, notes: Notes) -> tuple[Path, Published]:
    """Choose what the days count from: seed sown in place where it has such days, else plants."""
    paths = paths_of(plant)[::-1]
    for path in paths:
        days = path.days(plant)
        if days is not None:
            break
    else:
        path, days = paths[0], plant.days_basis_not_stated
        if days is None:
            raise InputProblem("even.no_days", crop=plant.name)
        notes.say("sowing.days_basis_not_stated", crop=plant.name)
    if days.status == "memory":
        notes.say("sowing.days_unchecked", crop=plant.name)
    notes.cite(*days.sources)
    return path, days


def _usual_start(plant: Crop, path: Path, last: dt.date | None, first: dt.date, notes: Notes) -> dt.date:
    """Give the day from which the published days are counted: the middle of the published weeks."""
    weeks = weeks_for(plant, path, None)
    if weeks is None or last is None:
        notes.say("even.start_from_first", crop=plant.name)
        return first
    middle = (weeks.low + weeks.high) / 2
    began = later(last, days_of_weeks(middle))
    inputs: dict[str, Any] = {"last_freeze": last, "weeks": Quantity(middle, "weeks")}
    notes.step("even.usual_start", "last_freeze + weeks", inputs, began, weeks.sources[0])
    return began


def _number(when: dt.date, year: int) -> int:
    days = np.array([when], dtype="datetime64[D]")
    return int(day_numbers(days, np.array([year]))[0])
