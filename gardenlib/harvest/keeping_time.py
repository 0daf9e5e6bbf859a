"""How long a crop stays good in a store of one temperature, and in one store after another."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from gardenlib.checks import checked_between
from gardenlib.harvest.keeping_rows import Series, in_days, readable_days, rows_for, series_of
from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.units import Quantity, Range
from gardenlib.working import Answer, Notes, Value

if TYPE_CHECKING:
    from gardenlib.tables import Crop

TEMP_C = (-40.0, 60.0)
EDGE_C = 0.06
"""Whole degrees Fahrenheit and tenths of degrees Celsius of the same temperature differ by so much."""


@dataclass(frozen=True, kw_only=True)
class StorageLife(Answer):
    """How long a crop stays good, by one source.

    Parameters
    ----------
    crop : str
        Crop id.
    temp_c : float
        Temperature of the store, degrees Celsius.
    days : Range
        Shortest and longest life, days.
    source, form : str
        Key of the source, and the form that it prints, empty where it names none.
    published : Series
        All that the source prints for this form.
    """

    crop: str
    temp_c: float
    days: Range
    source: str
    form: str
    published: Series

    @property
    def whole_weeks(self) -> int:
        """Whole weeks of the shortest life, in whole days as it is read: what may be counted on."""
        return round(self.days.low) // 7


def days_between(
    temp_c: npt.ArrayLike, points_temp_c: npt.ArrayLike, points_days: npt.ArrayLike
) -> npt.NDArray[np.float64]:
    """Interpolate storage lives: the logarithm of days runs straight from one printed temperature to the next.

    Parameters
    ----------
    temp_c : array
        Temperatures asked for, degrees Celsius.
    points_temp_c : array
        Printed temperatures, rising, degrees Celsius.
    points_days : array
        Printed lives at these, days.

    Returns
    -------
    array
        Days; nan outside the printed temperatures.

    Notes
    -----
    Common practice, no source; the printed points themselves are given back as they are.

    Examples
    --------
    >>> days_between([0.0, 5.0, 6.0], [0.0, 5.0], [24.5, 14.0]).round(1).tolist()
    [24.5, 14.0, nan]
    """
    temps, logs = np.asarray(points_temp_c, float), np.log(np.asarray(points_days, float))
    found = np.exp(np.interp(np.asarray(temp_c, float), temps, logs, np.nan, np.nan))
    return np.asarray(np.round(found, 9))


def storage_life(crop: str | Crop, temp_c: float, *, form: str | None = None, source: str | None = None) -> StorageLife:
    """Tell how long a crop stays good at one temperature, by one published source.

    Parameters
    ----------
    crop : str or Crop
        What is stored.
    temp_c : float
        Temperature of the store, degrees Celsius.
    form : str, optional
        A form that the source prints, such as ``topped``.
    source : str, optional
        Key of the source; without it the one that prints the most temperatures for the crop is taken.

    Returns
    -------
    StorageLife
        Shortest and longest life with the working.

    Raises
    ------
    InputProblem
        When nothing is published for the crop, form or source, or the temperature lies outside the printed ones.

    Notes
    -----
    How long it stays good, not how long it stays safe. Sources: the keys in ``tables.table("storage_life")``; between
    two printed temperatures of one source the logarithm of days runs straight (common practice, no source).

    Examples
    --------
    >>> storage_life("cabbage_main", 4.0).days
    Range(low=14.0, high=42.0, unit='days')
    """
    plant, notes = as_crop(crop), Notes()
    temp = checked_between(temp_c, "temp_c", *TEMP_C)
    series = _chosen(plant, form, source)
    span = series.temp_c
    if not span.low - EDGE_C <= temp <= span.high + EDGE_C:
        raise InputProblem("keep.outside", crop=plant.name, temp=Quantity(temp, "degC"), span=span)
    at = min(max(temp, span.low), span.high)
    temps = [point.temp_c for point in series.points]
    low = float(days_between(at, temps, [point.low_days for point in series.points]))
    high = float(days_between(at, temps, [point.high_days for point in series.points]))
    life = Range(low, high, "days")
    _explain(plant, series, at, life, notes)
    return StorageLife(
        crop=plant.id,
        temp_c=temp,
        days=life,
        source=series.source,
        form=series.form,
        published=series,
        **notes.parts(),
    )


def _chosen(plant: Crop, form: str | None, source: str | None) -> Series:
    known = series_of(plant.id)
    if not known:
        raise InputProblem("keep.no_figure", crop=plant.name)
    fitting = [
        series
        for series in known
        if (source is None or series.source == source) and (form is None or series.form == form)
    ]
    if not fitting:
        if source is not None and all(series.source != source for series in known):
            sources = ", ".join(dict.fromkeys(series.source for series in known))
            raise InputProblem("keep.no_source", crop=plant.name, value=str(source)[:40], known=sources)
        forms = [series.form or "-" for series in known if source in {None, series.source}]
        raise InputProblem("keep.no_form", crop=plant.name, value=str(form)[:40], known=", ".join(dict.fromkeys(forms)))
    return fitting[0]


def _explain(plant: Crop, series: Series, temp: float, life: Range, notes: Notes) -> None:
    """Write down the printed figures, the step between them, and what else must be known."""
    colder = [point for point in series.points if point.temp_c <= temp][-1]
    warmer = next(point for point in series.points if point.temp_c >= temp)
    for point in dict.fromkeys((colder, warmer)):
        printed = Range(point.low_days, point.high_days, "days")
        at = {"at": Quantity(point.temp_c, "degC")}
        notes.step("keep.printed", "as printed", at, printed, series.source)
    if colder != warmer:
        part = (temp - colder.temp_c) / (warmer.temp_c - colder.temp_c)
        for key, first, last, found in (
            ("keep.shortest", colder.low_days, warmer.low_days, life.low),
            ("keep.longest", colder.high_days, warmer.high_days, life.high),
        ):
            given: dict[str, Value] = {
                "colder": in_days(first),
                "warmer": in_days(last),
                "part": Quantity(100 * part, "percent"),
            }
            notes.step(key, "colder * (warmer / colder) ^ part", given, in_days(found), "common_practice")
    notes.say("keep.good_not_safe")
    if series.source == "dpird_brassica_2017" and len(series.points) > 1:
        notes.say("keep.damp_falls_too", series.source)
    own = [row for row in rows_for("storage_life", plant.id) if row["crops"] == plant.id]
    if own and len(series.crops) > 1:
        span = Range(min(row["low_days"] for row in own), max(row["high_days"] for row in own), "days")
        notes.say("keep.kind_apart", *(row["source"] for row in own), crop=plant.name, span=readable_days(span))
