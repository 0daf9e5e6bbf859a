"""The past seasons of a station, with the sums that a replay asks of them kept once reckoned."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from gardenlib.pests.counting import daily_sums, day_reached
from gardenlib.pests.models import START_DAYS, PestEvent, attacks, events_of, pest_names
from gardenlib.problems import InputProblem
from gardenlib.site import Warmth, degree_days, lay_out, reference_et_mm
from gardenlib.site.freeze import half_bounds
from gardenlib.site.past_seasons import YEAR_DAYS, LaidOut
from gardenlib.sowing.past_heat import Base

if TYPE_CHECKING:
    from gardenlib.site import Station
    from gardenlib.tables import Crop

Array = npt.NDArray[np.float64]
Days = npt.NDArray[np.datetime64]


class PastWeather:
    """The whole past seasons of one place.

    Parameters
    ----------
    laid : LaidOut
        The record by season and day.
    warmth : Warmth
        Typical year of the station; single gaps are filled from it.
    latitude : float
        Degrees, south negative.
    night_offset_c : float
        How much warmer the plot's nights are than the station's, degrees Celsius; colder is negative.
    name : str
        What the record is called.
    """

    def __init__(
        self, laid: LaidOut, warmth: Warmth, latitude: float, *, night_offset_c: float = 0.0, name: str = ""
    ) -> None:
        self.past = laid.whole(warmth, name=name)
        self.warmth, self.latitude, self.night_offset_c = warmth, latitude, night_offset_c
        self._heat: dict[tuple[float, float | None], Array] = {}
        self._pests: dict[tuple[float, float | None, str | None], Array] = {}
        self._of_crop: dict[tuple[str, str], dict[str, list[tuple[Array, Array]]]] = {}
        self._events: dict[str, list[tuple[Array, Array]]] = {}

    @classmethod
    def of(
        cls,
        station: Station | None,
        *,
        latitude: float | None = None,
        warmth: Warmth | None = None,
        offset_c: float = 0,
    ) -> PastWeather:
        """Lay a station's record out, or say what cannot be done without one.

        Parameters
        ----------
        station : Station or None
            The daily record.
        latitude : float, optional
            Degrees, south negative; the station's own when not given.
        warmth : Warmth, optional
            Typical year of the station; worked out from it when not given.
        offset_c : float
            How much warmer the plot's nights are than the station's, degrees Celsius.

        Returns
        -------
        PastWeather
            Its whole seasons.

        Raises
        ------
        InputProblem
            When there is no record, no latitude, or no whole season.
        """
        if station is None:
            raise InputProblem("season.no_record")
        latitude = station.latitude if latitude is None else latitude
        if latitude is None:
            raise InputProblem("climate.latitude_needed", name=station.name)
        warmth = Warmth.from_station(station, latitude) if warmth is None else warmth
        return cls(lay_out(station.daily, latitude), warmth, latitude, night_offset_c=offset_c, name=station.name)

    @property
    def seasons(self) -> int:
        """How many seasons are whole."""
        return len(self.past.years)

    @property
    def spring_days(self) -> int:
        """Days of the half-year before midsummer."""
        first, last = half_bounds(self.latitude, "spring")
        return last - first + 1

    @cached_property
    def nights_c(self) -> Array:
        """The plot's lows, shape (seasons, 365)."""
        return self.past.tmin_c + self.night_offset_c

    @cached_property
    def mean_c(self) -> Array:
        """The mean of each day's low and high, shape (seasons, 365)."""
        return (self.past.tmin_c + self.past.tmax_c) / 2

    @cached_property
    def et_mm(self) -> Array:
        """What short grass uses, millimetres a day, shape (seasons, 365)."""
        # Any year without 29 February: the sun's path is the same in all.
        dates = np.datetime64("2001-01-01") + (self.past.first_day + np.arange(YEAR_DAYS)) % YEAR_DAYS
        return reference_et_mm(self.past.tmin_c, self.past.tmax_c, self.latitude, dates)

    @cached_property
    def dates(self) -> Days:
        """The calendar date of each day, shape (seasons, 365)."""
        number = self.past.first_day + np.arange(YEAR_DAYS)
        years = self.past.years[:, None] + number // YEAR_DAYS
        leap = (years % 4 == 0) & ((years % 100 != 0) | (years % 400 == 0)) & (number % YEAR_DAYS >= 59)
        first = (years - 1970).astype("datetime64[Y]").astype("datetime64[D]")
        return np.asarray(first + number % YEAR_DAYS + leap)

    def heat_sums(self, base: Base) -> Array:
        """Give the running sums of degree days from the season's first morning.

        Parameters
        ----------
        base : Base
            The temperatures between which they count.

        Returns
        -------
        array, shape (seasons, 366)
            Degrees Celsius times days.
        """
        key = base.lower_c, base.upper_c
        if key not in self._heat:
            sums = np.zeros((self.seasons, YEAR_DAYS + 1))
            np.cumsum(degree_days(self.past.tmin_c, self.past.tmax_c, *key), axis=1, out=sums[:, 1:])
            self._heat[key] = sums
        return self._heat[key]

    def pest_days(self, crop: Crop) -> dict[str, list[tuple[Array, Array]]]:
        """Give the days of the events of each pest that goes for a crop and can be counted.

        Parameters
        ----------
        crop : Crop
            The crop.

        Returns
        -------
        dict of str to list of (array, array)
            For each pest and event, the first and the last day in each season.
        """
        key = crop.id, crop.family
        if key not in self._of_crop:
            found = {pest: self._event_days(pest) for pest in pest_names() if attacks(pest, crop)}
            self._of_crop[key] = {pest: days for pest, days in found.items() if days}
        return self._of_crop[key]

    def _event_days(self, pest: str) -> list[tuple[Array, Array]]:
        if pest not in self._events:
            events = [event for event in events_of(pest) if event.is_offered and event.start in START_DAYS]
            self._events[pest] = [self._reached(event) for event in events]
        return self._events[pest]

    def _reached(self, event: PestEvent) -> tuple[Array, Array]:
        if event.thresholds not in self._pests:
            self._pests[event.thresholds] = daily_sums(self.past.tmin_c, self.past.tmax_c, event)
        daily, start = self._pests[event.thresholds], START_DAYS[event.start]
        low = day_reached(daily, event.sum_low_c, start)
        high = low if event.sum_high_c == event.sum_low_c else day_reached(daily, event.sum_high_c, start)
        return low, high
