"""The freeze dates of one place: from a daily record, from published normals or as typed."""

from __future__ import annotations

import datetime as dt
import os
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Literal

import numpy as np
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site import freeze_steps
from gardenlib.site.freeze import Half, checked_risk, date_of, dates_of
from gardenlib.site.freeze_half import FromSeasons, Published, State
from gardenlib.site.freeze_sources import (
    HALVES,
    OFFSET_KEYS,
    UNKNOWN,
    Halves,
    MonthDay,
    from_published,
    from_record,
    from_typed,
    offset_said,
)
from gardenlib.site.normals import Normals, read_normals
from gardenlib.units import f_to_c
from gardenlib.words import Said
from gardenlib.working import Answer, Quantity, Step

if TYPE_CHECKING:
    from gardenlib.site.station import Station

TENTHS = (0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9)


@dataclass(frozen=True, kw_only=True)
class FreezeDates(Answer):
    """When the last freeze of spring and the first of fall come, at a chosen risk.

    Made by `from_station`, `from_normals` or `typed`.

    Parameters
    ----------
    kind : {"station", "normals", "typed"}
        What the dates come from.
    comes_from : Said
        The same in a sentence.
    latitude : float
        Degrees, south negative.
    night_offset_c : float
        What the plot's nights add to the station's, degrees Celsius (colder is below zero).
    risks : tuple of float
        The risks that a reader may choose from.
    """

    kind: Literal["station", "normals", "typed"]
    comes_from: Said
    latitude: float
    night_offset_c: float = 0.0
    risks: tuple[float, ...] = TENTHS
    _halves: Halves = field(repr=False, compare=False)
    _seasons: Mapping[int, pd.DataFrame] = field(default_factory=dict, repr=False, compare=False)
    _station: Station | None = field(default=None, repr=False, compare=False)
    _normals: Normals | None = field(default=None, repr=False, compare=False)

    @classmethod
    def from_station(
        cls, station: Station, *, latitude: float | None = None, night_offset_c: float = 0.0
    ) -> FreezeDates:
        """Take the dates from a daily record.

        Parameters
        ----------
        station : Station
            A daily record.
        latitude : float, optional
            Degrees, south negative; the station's own when not given.
        night_offset_c : float
            Added to each night before counting, degrees Celsius; below zero where the plot is colder.

        Returns
        -------
        FreezeDates
            Dates at 36, 32, 28 and 24 F.

        Raises
        ------
        InputProblem
            When no latitude is known or it is not between -90 and 90.

        Notes
        -----
        Seasons without a freeze count as never freezing (see `freeze_dates`).  A half with fewer than 20 usable seasons
        gives no dates.  Where each month of the year froze in at least half of the years there are no dates either.

        Examples
        --------
        >>> from types import SimpleNamespace
        >>> days = pd.date_range("1991-01-01", "2020-12-31", name="date")
        >>> low = 10 - 15 * np.cos(2 * np.pi * (days.day_of_year - 15) / 365)
        >>> made_up = SimpleNamespace(name="Invented", latitude=45.0, first_year=1991, last_year=2020,
        ...     daily=pd.DataFrame({"tmin_c": low}, index=days))
        >>> FreezeDates.from_station(made_up).date("spring", 32, 0.5, year=2027)
        datetime.date(2027, 3, 5)
        """
        latitude = station.latitude if latitude is None else latitude
        if latitude is None:
            raise InputProblem("climate.latitude_needed", name=station.name)
        return cls(**from_record(station, latitude, night_offset_c))

    @classmethod
    def from_normals(
        cls, path: str | os.PathLike[str], *, latitude: float | None = None, night_offset_c: float = 0.0
    ) -> FreezeDates:
        """Take the dates from NCEI's by-station normals file.

        Parameters
        ----------
        path : path
            The CSV file, in the layout of 1981-2010 or of 1991-2020.
        latitude : float, optional
            Degrees, south negative; the file's own when not given.
        night_offset_c : float
            What the plot's nights add to the station's, degrees Celsius.

        Returns
        -------
        FreezeDates
            Dates at 36, 32, 28, 24, 20 and 16 F for risks from 0.1 to 0.9 as far as the file holds them.

        Raises
        ------
        InputProblem
            When the file is not such a file or its dates run the wrong way (see `read_normals`).

        Notes
        -----
        Published dates hold among the years with a freeze.  A risk over all years is divided by the published share of
        such years first (NCEI, Normals Calculation Methodology 2020).  With a
        night offset the dates lie on straight lines between the published thresholds, and nothing is known beyond.
        """
        normals = read_normals(path)
        return cls(**from_published(normals, normals.latitude if latitude is None else latitude, night_offset_c))

    @classmethod
    def typed(
        cls,
        last_spring: MonthDay | None,
        first_fall: MonthDay | None,
        *,
        source: str,
        latitude: float,
        threshold_f: int = 32,
        last_spring_10: MonthDay | None = None,
        last_spring_90: MonthDay | None = None,
        first_fall_10: MonthDay | None = None,
        first_fall_90: MonthDay | None = None,
        night_offset_c: float = 0.0,
    ) -> FreezeDates:
        """Take the dates that somebody typed.

        Parameters
        ----------
        last_spring, first_fall : (int, int) or None
            Month and day by which half of the years had their last, or first, freeze; None when not known.
        source : str
            Where the dates come from, in the words of who typed them.
        latitude : float
            Degrees, south negative.
        threshold_f : int
            What counts as a freeze, degrees Fahrenheit.
        last_spring_10, last_spring_90, first_fall_10, first_fall_90 : (int, int), optional
            The same dates at 1 year in 10 and at 9 years in 10.
        night_offset_c : float
            What the plot's nights add to the station's, degrees Celsius; it is told, not worked into the dates.

        Returns
        -------
        FreezeDates
            Dates at the risks given and on straight lines between them, never beyond: with the 50 % date alone no
            spread is made up.

        Raises
        ------
        InputProblem
            When a date cannot exist, the dates of a half run the wrong way, or the last freeze and the first lie
            more than 400 days apart, as they do when they change places.

        Notes
        -----
        Straight lines between typed dates and the two weeks more for tender plants are common practice, no source.

        Examples
        --------
        >>> dates = FreezeDates.typed((5, 9), (10, 6), source="county leaflet", latitude=43.6, last_spring_10=(5, 24))
        >>> dates.date("spring", 32, 0.1, year=2027)
        datetime.date(2027, 5, 24)
        >>> dates.knows("fall", 32, 0.1)
        False
        """
        given: dict[Half, dict[float, MonthDay | None]] = {
            "spring": {0.1: last_spring_10, 0.5: last_spring, 0.9: last_spring_90},
            "fall": {0.1: first_fall_10, 0.5: first_fall, 0.9: first_fall_90},
        }
        return cls(**from_typed(given, int(threshold_f), source, latitude, night_offset_c))

    @property
    def thresholds_f(self) -> tuple[int, ...]:
        """The thresholds of which something is known, degrees Fahrenheit, warmest first."""
        known = {threshold for (_, threshold), part in self._halves.items() if part.state != "unknown"}
        return tuple(sorted(known, reverse=True))

    def state(self, half: Half, threshold_f: float) -> State:
        """Tell what is known of a half at a threshold.

        Parameters
        ----------
        half : {"spring", "fall"}
            Which half.
        threshold_f : float
            What counts as a freeze, degrees Fahrenheit.

        Returns
        -------
        {"dates", "never", "every_month", "unknown", "too_few_years"}
            Whether there are dates, and why not.
        """
        return self._part(half, threshold_f).state

    def knows(self, half: Half, threshold_f: float, risk: float) -> bool:
        """Tell whether `date` has an answer, be it a date or none.

        Parameters
        ----------
        half, threshold_f, risk
            As in `date`.

        Returns
        -------
        bool
            False where `date` would refuse.

        Raises
        ------
        InputProblem
            When the risk is not between 0 and 1.
        """
        return self._part(half, threshold_f).knows(checked_risk(risk))

    def date(self, half: Half, threshold_f: float, risk: float, *, year: int) -> dt.date | None:
        """Give the date of the last or first freeze at a chosen risk.

        Parameters
        ----------
        half : {"spring", "fall"}
            In spring the last freeze, in fall the first.
        threshold_f : float
            What counts as a freeze, degrees Fahrenheit.
        risk : float
            Share of springs with a freeze on or after the date, or of falls with one on or before it.
        year : int
            The season, called by the calendar year of its spring.

        Returns
        -------
        date or None
            The date; None when freezes are rarer than the risk.

        Raises
        ------
        InputProblem
            When this source does not know, has fewer than 20 years, or freezes come in every month.
        """
        day = self._day(half, threshold_f, risk)
        return None if day is None else date_of(day, year)

    def curve(self, half: Half, threshold_f: float, *, year: int) -> pd.DataFrame:
        """Give the freeze risk day by day, for a chart.

        Parameters
        ----------
        half, threshold_f, year
            As in `date`.

        Returns
        -------
        DataFrame
            ``day`` and ``risk``: the share (0 to 1) of springs with a freeze on or after the day, or of falls with
            one on or before it.  No rows when the source tells no spread.
        """
        days, risks = self._part(half, threshold_f).curve()
        return pd.DataFrame({"day": dates_of(days, year).astype("datetime64[s]"), "risk": risks})

    def springs(self, threshold_f: float) -> pd.DataFrame | None:
        """Give the table of past seasons behind the dates.

        Parameters
        ----------
        threshold_f : float
            What counts as a freeze, degrees Fahrenheit.

        Returns
        -------
        DataFrame or None
            As `freeze_seasons` gives it; None where there is no daily record.
        """
        return self._seasons.get(int(threshold_f)) if float(threshold_f).is_integer() else None

    def single_dates(self, threshold_f: float, *, year: int) -> pd.DataFrame:
        """Give the last freeze of each past spring and the first of each past fall, set into one season.

        Parameters
        ----------
        threshold_f : float
            What counts as a freeze, degrees Fahrenheit.
        year : int
            The season they are set into.

        Returns
        -------
        DataFrame
            ``half`` and ``day``; no rows where there is no daily record.
        """
        parts = {half: self._part(half, threshold_f) for half in HALVES}
        days = {half: part.days for half, part in parts.items() if isinstance(part, FromSeasons)}
        numbers = np.concatenate([*days.values(), np.array([])])
        named = np.repeat(np.array(list(days), dtype=object), [len(part) for part in days.values()])
        return pd.DataFrame({"half": named, "day": dates_of(numbers, year).astype("datetime64[s]")})

    def working(self, half: Half, threshold_f: float, risk: float, *, year: int) -> tuple[Step, ...]:
        """Give the steps that lead to one date.

        Parameters
        ----------
        half, threshold_f, risk, year
            As in `date`.

        Returns
        -------
        tuple of Step
            The last step's result is the date, None when freezes are rarer than the risk.

        Raises
        ------
        InputProblem
            When `date` would refuse.
        """
        part, day = self._part(half, threshold_f), self._day(half, threshold_f, risk)
        return freeze_steps.to_date(part, threshold_f, risk, day, year=year, typed=self.kind == "typed")

    def with_night_offset(self, offset_c: float) -> FreezeDates:
        """Give the dates of the same source for a plot.

        Parameters
        ----------
        offset_c : float
            What the plot's nights add to the station's, degrees Celsius; it takes the place of an earlier one.

        Returns
        -------
        FreezeDates
            Counted anew from a record, read between the thresholds of normals; typed dates stay, and it is said.
        """
        if self._station is not None:
            return FreezeDates.from_station(self._station, latitude=self.latitude, night_offset_c=offset_c)
        if self._normals is not None:
            return FreezeDates(**from_published(self._normals, self.latitude, offset_c))
        told = (said for said in self.assumptions if said.key not in OFFSET_KEYS)
        return replace(self, night_offset_c=offset_c, assumptions=(*told, offset_said(offset_c, applied=False)))

    def _part(self, half: Half, threshold_f: float) -> FromSeasons | Published:
        if half not in HALVES:
            raise InputProblem("climate.half", half=half)
        known = self._halves.get((half, int(threshold_f))) if float(threshold_f).is_integer() else None
        return known or UNKNOWN[half]

    def _day(self, half: Half, threshold_f: float, risk: float) -> float | None:
        part = self._part(half, threshold_f)
        if part.knows(checked_risk(risk)):
            return part.day(risk)
        named = {
            "event": Said(_WHAT[half]),
            "threshold": Quantity(f_to_c(float(threshold_f)), "degC"),
            "where": self.comes_from,
        }
        if part.state == "every_month":
            raise InputProblem("climate.every_month", **named)
        if isinstance(part, FromSeasons):
            raise InputProblem("climate.too_few_years", n=part.n_usable, **named)
        raise InputProblem("climate.freeze_unknown", tenths=f"{risk * 10:g}", **named)


_WHAT: dict[Half, str] = {"spring": "climate.freeze.last", "fall": "climate.freeze.first"}
