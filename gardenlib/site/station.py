"""A weather station's daily record, from the file as it was downloaded."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from types import MappingProxyType
from typing import get_args

import numpy as np
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site._archive_forms import DLY_LINE, LONG_LINE, read_dly_form, read_long_form
from gardenlib.site._csv_forms import read_csv_form
from gardenlib.site._file import read_text
from gardenlib.site._quality import drop
from gardenlib.site._raw import DateOrder, Raw, Unit, UnitFrom
from gardenlib.site._units_of_record import settle_unit, to_si
from gardenlib.words import Said

DROP_REASONS = ("missing", "flagged", "beyond_world", "low_above_high", "odd_for_month", "repeated", "rain")
ENOUGH_YEARS = 20  # fewer seasons give no quantile


@dataclass(frozen=True, eq=False)
class Station:
    """One station's daily record.

    Parameters
    ----------
    name, station_id : str
        What the file calls it; the file's own name where it says nothing.
    latitude, longitude : float or None
        Degrees, north and east positive; None where neither file nor user says it.
    elevation_m : float or None
        Metres above the sea.
    daily : DataFrame
        The days in the file, by ``date``: tmin_c, tmax_c in degrees Celsius, rain_mm; NaN where missing.
    notes : tuple of Said
        What a reader should know of this file.
    unit : {"F", "C", "tenths-C"}
        The unit of temperature in the file.
    unit_from : {"header", "user", "guess", "format"}
        How the unit was found.
    coldest, warmest : tuple of (date, float)
        The coldest low and the warmest high, degrees Celsius.
    first_year, last_year : int
        The first and the last calendar year.
    dropped : mapping of str to int
        How many values were left out, by reason.
    """

    name: str
    station_id: str
    latitude: float | None
    longitude: float | None
    elevation_m: float | None
    daily: pd.DataFrame = field(repr=False)
    notes: tuple[Said, ...] = field(repr=False)
    unit: Unit
    unit_from: UnitFrom
    coldest: tuple[date, float]
    warmest: tuple[date, float]
    first_year: int
    last_year: int
    dropped: Mapping[str, int]


def read_station(
    path: str | Path,
    *,
    unit: Unit | None = None,
    latitude: float | None = None,
    date_order: DateOrder | None = None,
) -> Station:
    r"""Read a station's daily record in any of the forms in which it is given away.

    Parameters
    ----------
    path : str or Path
        Daily-summaries CSV, GHCN-Daily access CSV, by-station CSV, ``.dly``, or a CSV with date, tmin and tmax.
    unit : {"F", "C", "tenths-C"}, optional
        Unit of temperature, where the file does not say it.
    latitude : float, optional
        Degrees, north positive; stands in place of the file's.
    date_order : {"DMY", "MDY"}, optional
        Whether day or month stands first, where the days cannot tell.

    Returns
    -------
    Station
        The record in degrees Celsius and millimetres, and what was left out.

    Raises
    ------
    InputProblem
        When the file is no daily record of one station; the sentence names file, row, value and mend.

    Notes
    -----
    Forms: NOAA NCEI, GHCN-Daily readme.txt, section III, and readme-by_station.txt.  A record with at least 99 %
    whole degrees Fahrenheit is read as whole degrees Fahrenheit.

    Examples
    --------
    >>> import tempfile
    >>> file = Path(tempfile.mkdtemp()) / "plot.csv"
    >>> _ = file.write_text("date,tmin_f,tmax_f\n2027-01-01,28,41\n2027-01-02,32,50\n")
    >>> station = read_station(file)
    >>> station.unit, station.unit_from, station.daily["tmax_c"].round(1).tolist()
    ('F', 'header', [5.0, 10.0])
    """
    path = Path(path)
    _check_options(unit, latitude, date_order)
    text, notes = read_text(path)
    raw = _read_rows(text, path.name, date_order)
    unit, unit_from = settle_unit(raw, unit, path.name)
    rows, unit_notes = to_si(raw, unit)
    raw.dropped["missing"] = _missing(rows) - raw.dropped["flagged"]
    daily, dropped, drop_notes = drop(rows, path.name)
    counts = Counter({reason: raw.dropped[reason] + dropped[reason] for reason in DROP_REASONS})
    first_year, last_year = daily.index[0].year, daily.index[-1].year
    gap = (daily.index[-1] - daily.index[0]).days + 1 - len(daily)
    notes += [*raw.notes, *unit_notes, *_count_notes(counts), *drop_notes]
    if gap:
        notes.append(Said("station.note.gaps", {"n": gap}))
    if last_year - first_year + 1 < ENOUGH_YEARS:
        notes.append(Said("station.note.short", {"n": last_year - first_year + 1, "enough": ENOUGH_YEARS}))
    return Station(
        name=raw.name or raw.station_id or path.stem,
        station_id=raw.station_id or path.stem,
        latitude=raw.latitude if latitude is None else float(latitude),
        longitude=raw.longitude,
        elevation_m=raw.elevation_m,
        daily=daily,
        notes=tuple(notes),
        unit=unit,
        unit_from=unit_from,
        coldest=_extreme(daily["tmin_c"], -1),
        warmest=_extreme(daily["tmax_c"], 1),
        first_year=first_year,
        last_year=last_year,
        dropped=MappingProxyType(dict(counts)),
    )


def _check_options(unit: str | None, latitude: float | None, date_order: str | None) -> None:
    for name, value, allowed in (("unit", unit, get_args(Unit)), ("date_order", date_order, get_args(DateOrder))):
        if value is not None and value not in allowed:
            raise InputProblem("station.option", name=name, value=value, allowed=", ".join(allowed))
    if latitude is not None and not -90 <= latitude <= 90:
        raise InputProblem("station.latitude", value=latitude)


def _read_rows(text: str, file: str, order: DateOrder | None) -> Raw:
    first_line = text[:1000].lstrip()
    if LONG_LINE.match(first_line):
        return read_long_form(text, file)
    if DLY_LINE.match(first_line):
        return read_dly_form(text, file)
    return read_csv_form(text, file, order)


def _missing(rows: pd.DataFrame) -> int:
    return int(rows[["tmin_c", "tmax_c"]].isna().to_numpy().sum())


def _count_notes(counts: Counter[str]) -> list[Said]:
    """Say what was left out; the value that is odd for its month has its own, fuller sentence."""
    return [
        Said(f"station.dropped.{reason}", {"n": counts[reason]})
        for reason in DROP_REASONS
        if counts[reason] > 0 and reason != "odd_for_month"
    ]


def _extreme(temp_c: pd.Series, sign: int) -> tuple[date, float]:
    values = temp_c.to_numpy() * sign
    at = int(np.nanargmax(values))
    return temp_c.index[at].date(), float(temp_c.iloc[at])
