"""Read NCEI's by-station climate normals: the published freeze dates of one station."""

from __future__ import annotations

import csv
import os
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import numpy as np

from gardenlib.problems import InputProblem
from gardenlib.site._file import read_text
from gardenlib.site.freeze import Half, day_numbers, six_months_on
from gardenlib.site.freeze_half import Published, State
from gardenlib.words import Said

NORMALS_THRESHOLDS_F = (36, 32, 28, 24, 20, 16)
_ELEMENT = re.compile(r"ANN-TMIN-PRB(LST|FST|GSL)-T(\d\d)FP(\d\d)")
_SHARE = re.compile(r"ANN-TMIN-PRBOCC-LSTH0(\d\d)")
_PERIOD = re.compile(r"(1981-2010|1991-2020|2006-2020)")
# Values of the older layout and flags of the newer one, after NCEI's two readme files.
_SPECIAL = {
    "-9999": "missing",
    "-8888": "missing",
    "-7777": "zero",
    "-6666": "rare",
    "-5555": "doubtful",
    "-4444": "always",
}
_FLAGS = {"M": "missing", "V": "always", "X": "zero", "Y": "few", "Z": "doubtful"}
_HALF: Mapping[str, Half] = {"LST": "spring", "FST": "fall"}


@dataclass(frozen=True)
class Normals:
    """The freeze normals of one station.

    Parameters
    ----------
    file, station_id, name : str
        Name of the file, and the station's id and name.
    latitude : float
        Degrees, south negative.
    longitude, elevation_m : float or None
        Degrees, west negative, and metres.
    period : str
        The years covered, as NCEI names them; empty where neither file name nor layout tells.
    halves : mapping of (str, int) to Published
        By half and threshold in degrees Fahrenheit.
    length_days : mapping of (int, float) to float
        Freeze-free days reached or passed, by threshold in degrees Fahrenheit and share of years.
    notes : tuple of Said
        What the file says about its own gaps.
    """

    file: str
    station_id: str
    name: str
    latitude: float
    longitude: float | None
    elevation_m: float | None
    period: str
    halves: Mapping[tuple[Half, int], Published]
    length_days: Mapping[tuple[int, float], float]
    notes: tuple[Said, ...]


def read_normals(path: str | os.PathLike[str]) -> Normals:
    """Read a by-station normals file of NCEI, in the layout of 1981-2010 or of 1991-2020.

    Parameters
    ----------
    path : path
        A CSV file with elements like ``ANN-TMIN-PRBLST-T32FP50``.

    Returns
    -------
    Normals
        The published dates.

    Raises
    ------
    InputProblem
        When the file cannot be read, holds no freeze dates or several stations, or when its dates run the wrong way.

    Notes
    -----
    Layouts, special values and flags: NCEI readme files of the supplemental normals 1981-2010 and of the by-station
    normals 1991-2020.  The direction is checked on reading: from 10 to 90 % the last freeze gets earlier, the first
    later and the season shorter.  Dates run over the year's end: a first freeze in January belongs to the next year.
    """
    file = Path(path).name
    text, odd = read_text(Path(path))
    row = _only_row(text, file)
    if not any(_ELEMENT.fullmatch(name) for name in row):
        raise InputProblem("climate.normals_no_dates", file=file)
    latitude = _coordinate(row, "LATITUDE")
    if latitude is None:
        raise InputProblem("climate.normals_latitude", file=file)
    older = any(name.endswith("_ATTRIBUTES") for name in row)
    shares = {int(m[1]): _share(row, name, older=older) for name in row if (m := _SHARE.fullmatch(name))}
    dates: dict[tuple[str, int], dict[float, float]] = {}
    kinds: dict[tuple[str, int], set[str]] = {}
    for name in row:
        if not (match := _ELEMENT.fullmatch(name)):
            continue
        key = match[1], int(match[2])
        value, kind = _value(row, name)
        kinds.setdefault(key, set()).add(kind)
        if kind == "value":
            number = _length(file, name, value) if key[0] == "GSL" else _day(file, name, value, key[0], latitude)
            dates.setdefault(key, {})[int(match[3]) / 100] = number
    _check_direction(file, dates)
    halves = {
        (_HALF[element], threshold): _published(
            _HALF[element], dates.get((element, threshold), {}), kind, shares.get(threshold)
        )
        for (element, threshold), kind in kinds.items()
        if element in _HALF
    }
    lengths = {(t, r): v for (element, t), points in dates.items() if element == "GSL" for r, v in points.items()}
    found = _PERIOD.search(file)
    return Normals(
        file=file,
        station_id=row.get("STATION", "").strip(),
        name=row.get("NAME", "").strip() or file,
        latitude=latitude,
        longitude=_coordinate(row, "LONGITUDE"),
        elevation_m=_coordinate(row, "ELEVATION"),
        period=found[1] if found else "1981-2010" if older else "",
        halves=halves,
        length_days=lengths,
        notes=(*odd, *_notes(row, kinds, shares)),
    )


def _only_row(text: str, file: str) -> dict[str, str]:
    try:
        rows = [row for row in csv.reader(text.splitlines()) if any(cell.strip() for cell in row)]
    except csv.Error as error:
        raise InputProblem("climate.normals_no_dates", file=file) from error
    if len(rows) < 2:
        raise InputProblem("climate.normals_no_dates", file=file)
    if len(rows) > 2:
        raise InputProblem("climate.normals_several", file=file, count=len(rows) - 1)
    return dict(zip((name.strip() for name in rows[0]), rows[1], strict=False))


def _coordinate(row: Mapping[str, str], name: str) -> float | None:
    try:
        value = float(row.get(name, ""))
    except ValueError:
        return None
    return None if value <= -999 or (name == "LATITUDE" and not -90 <= value <= 90) else value


def _value(row: Mapping[str, str], name: str) -> tuple[str, str]:
    """Give a cell and its kind: a value, or why there is none."""
    text = row[name].strip()
    flag = row.get(f"meas_flag_{name}", "").strip()
    if flag in _FLAGS:
        return text, _FLAGS[flag]
    special = _SPECIAL.get(text.removesuffix(".0").removesuffix("."))
    return text, special or ("value" if text else "missing")


def _share(row: Mapping[str, str], name: str, *, older: bool) -> float | None:
    text, kind = _value(row, name)
    if kind in ("zero", "rare"):
        return 0.0
    try:
        share = float(text) / (1000 if older else 100)
    except ValueError:
        return None
    return share if kind == "value" and 0 <= share <= 1 else None


def _day(file: str, name: str, text: str, element: str, latitude: float) -> float:
    match = re.fullmatch(r"(\d\d?)/(\d\d?)", text)
    try:
        if not match:
            raise ValueError(text)
        date(2000, int(match[1]), int(match[2]))
    except ValueError as error:
        raise InputProblem("climate.normals_date", file=file, element=name, value=text[:20]) from error
    return day_on_axis(int(match[1]), int(match[2]), _HALF[element], latitude)


def day_on_axis(month: int, day: int, half: Half, latitude: float) -> float:
    """Give the day number of a month and day within the twelve months that belong to a half.

    In the north a last freeze belongs to the months from August of the year before to July, a first freeze to
    those from August to July of the next year; in the south both lie six months on.
    """
    opening = (-5 if half == "spring" else 7) + six_months_on(latitude)
    years = -((month - 1 - opening) // 12)
    when = np.array([f"{2001 + years}-{month:02}-{28 if (month, day) == (2, 29) else day:02}"], dtype="datetime64[D]")
    return float(day_numbers(when, np.array([2001]))[0])


def _length(file: str, name: str, text: str) -> float:
    try:
        return float(text)
    except ValueError as error:
        raise InputProblem("climate.normals_date", file=file, element=name, value=text[:20]) from error


def _check_direction(file: str, dates: Mapping[tuple[str, int], Mapping[float, float]]) -> None:
    for (element, threshold), points in dates.items():
        values = [points[risk] for risk in sorted(points)]
        rising = element == "FST"
        if values != sorted(values, reverse=not rising):
            raise InputProblem("climate.normals_direction", file=file, element=f"ANN-TMIN-PRB{element}-T{threshold}F")


def _published(half: Half, points: Mapping[float, float], kinds: set[str], share: float | None) -> Published:
    if points and share != 0:
        return Published(half, points, "dates", 1.0 if share is None else share)
    state: State = "unknown"
    if kinds == {"always"}:
        state = "every_month"
    # "Too few values" means "too warm" only where the share of freezing years says so too.
    elif kinds == {"rare"} or (kinds == {"few"} and share is not None and share < 0.1):
        state = "never"
    return Published(half, {}, state)


def _notes(
    row: Mapping[str, str], kinds: Mapping[tuple[str, int], set[str]], shares: Mapping[int, float | None]
) -> tuple[Said, ...]:
    notes = []
    if any("doubtful" in kind for kind in kinds.values()):
        notes.append(Said("climate.normals.doubtful"))
    flags = {
        value.strip()[-1:]
        for name, value in row.items()
        if name.startswith("comp_flag_ANN-TMIN-PRB")
        or (name.startswith("ANN-TMIN-PRB") and name.endswith("_ATTRIBUTES"))
    }
    if flags & {"Q", "E", "P"}:
        notes.append(Said("climate.normals.short"))
    elif "R" in flags:
        notes.append(Said("climate.normals.filled"))
    if any(shares.get(threshold) is None for (_, threshold) in kinds):
        notes.append(Said("climate.normals.no_share"))
    return tuple(notes)
