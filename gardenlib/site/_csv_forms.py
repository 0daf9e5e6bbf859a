"""Station files with a header: daily summaries, the archive's wide form, and date,tmin,tmax."""

from __future__ import annotations

import csv
import io
import re
from contextlib import suppress
from typing import cast

import numpy as np
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site._dates import dates
from gardenlib.site._raw import DateOrder, RainUnit, Raw, Unit, numbers, one_station
from gardenlib.words import Said

_VALUE = re.compile(r"(tmin|tmax|rain|prcp)(?:(?:[\s_]+|\s*(?=[(\[]))[(\[]?\s*([^)\]]+?)\s*[)\]]?)?")
_TEMP_UNITS: dict[str, Unit] = {
    **dict.fromkeys(("f", "degf", "fahrenheit"), "F"),
    **dict.fromkeys(("c", "degc", "celsius"), "C"),
    **dict.fromkeys(("tenthsc", "tenthsofc", "tenthsdegc", "tenthsofdegc"), "tenths-C"),
}
_RAIN_UNITS: dict[str, RainUnit] = {
    **dict.fromkeys(("in", "inch", "inches"), "in"),
    **dict.fromkeys(("mm", "millimeter", "millimeters", "millimetre", "millimetres"), "mm"),
}
_ARCHIVE_START = ["station", "date", "latitude", "longitude", "elevation", "name"]
_SEPARATORS = {",": None, ";": "station.note.semicolons", "\t": "station.note.tabs"}


def read_csv_form(text: str, file: str, order: DateOrder | None) -> Raw:
    """Read a station file that has a header.

    Parameters
    ----------
    text : str
        The file's text.
    file : str
        Its name, for sentences.
    order : {"DMY", "MDY"} or None
        Order of day and month, where the user gave it.

    Returns
    -------
    Raw
        The record in the file's own units.

    Raises
    ------
    InputProblem
        When columns, rows, days or numbers are not those of one station's daily record.
    """
    start = len(text) - len(text.lstrip())
    blank = text.count("\n", 0, start)
    head = text[text.rfind("\n", 0, start) + 1 :].split("\n", 1)[0]
    separator = max(_SEPARATORS, key=lambda mark: len(_cells(head, mark)))
    header = [name.strip().lower() for name in _cells(head, separator)]
    columns, temp_unit, rain_unit = _columns(header, file)
    used = {*columns.values(), *(f"{name}_attributes" for name in columns.values()), *_ARCHIVE_START}
    if twice := [name for name in header if name in used and header.count(name) > 1]:
        raise InputProblem("station.column_twice", file=file, column=twice[0])
    table = read_table(text, file, separator=separator, names=header, first_line=blank + 2, skip=blank + 1)
    if table.empty:
        raise InputProblem("station.no_rows", file=file)
    raw = Raw(
        pd.DataFrame({"line": table.index, "date": dates(table[columns["date"]], order=order, file=file)}),
        temp_unit=temp_unit,
        unit_from="header" if temp_unit else "guess",
        rain_unit=rain_unit,
        archive_layout=header[:6] == _ARCHIVE_START and "tmin_attributes" in header,
    )
    _fill(raw, table, columns, file)
    _where(raw, table, file)
    if (note := _SEPARATORS[separator]) is not None:
        raw.notes.insert(0, Said(note))
    return raw


def read_table(
    text: str, file: str, *, separator: str, names: list[str], first_line: int, skip: int = 0
) -> pd.DataFrame:
    """Read delimited text as text; the index is the row in the file, blank rows are left out."""
    width = len(names)
    end = text.find("\n", len(text.rstrip()))
    body = text if end < 0 else text[:end]  # without blank rows at the end
    try:
        table = pd.read_csv(
            io.BytesIO(body.encode()),
            sep=separator,
            header=None,
            names=list(range(width)),
            skiprows=skip,
            dtype=object,
            keep_default_na=False,
            skip_blank_lines=False,
        )
    except pd.errors.EmptyDataError:
        raise InputProblem("station.no_rows", file=file) from None
    except pd.errors.ParserError:
        table = None
    if table is None or not isinstance(table.index, pd.RangeIndex):
        raise _ragged(text, file, separator, width, skip)
    table.index = pd.RangeIndex(first_line, first_line + len(table))
    table.columns = pd.Index(names)
    if (table.iloc[:, 0] == "").any():
        table = table[(table != "").any(axis=1)]
    cells = _cells(body[body.rfind("\n") + 1 :], separator)
    if len(cells) < width and len(table):  # shorter rows before the last leave values out, and count as missing
        raise InputProblem("station.short_row", file=file, row=table.index[-1], found=len(cells), n=width)
    return table


def _cells(line: str, separator: str) -> list[str]:
    """Take one row apart; a row too long for the csv module is no row of a station's file."""
    try:
        return next(csv.reader([line], delimiter=separator), [])
    except csv.Error:
        return line.split(separator)


def _ragged(text: str, file: str, separator: str, width: int, skip: int) -> InputProblem:
    """Find the row that does not fit the header."""
    reader = csv.reader(io.StringIO(text), delimiter=separator)
    with suppress(csv.Error):  # a cell of more than a hundred thousand letters: a quote was never closed
        for row in reader:
            if reader.line_num > skip and len(row) > width:
                return InputProblem("station.long_row", file=file, row=reader.line_num, found=len(row), n=width)
    return InputProblem("station.open_quote", file=file)


def _columns(header: list[str], file: str) -> tuple[dict[str, str], Unit | None, RainUnit | None]:
    """Find the columns that are needed and what their names say of the units."""
    found: dict[str, str] = {"date": "date"} if "date" in header else {}
    temp_units: dict[str, Unit] = {}
    rain_unit: RainUnit | None = None
    strange: dict[str, str] = {}
    for name in header:
        match = _VALUE.fullmatch(name)
        if match is None:
            continue
        kind, unit = match[1].replace("prcp", "rain"), re.sub(r"[\s_.°]|º", "", match[2] or "")
        if unit and unit not in (_RAIN_UNITS if kind == "rain" else _TEMP_UNITS):
            strange[kind] = name[:40]
            continue
        if kind in found:
            raise InputProblem("station.column_twice", file=file, column=kind)
        found[kind] = name
        if kind == "rain":
            rain_unit = _RAIN_UNITS.get(unit)
        elif unit:
            temp_units[name] = _TEMP_UNITS[unit]
    missing = [name for name in ("date", "tmin", "tmax") if name not in found]
    if missing and missing[0] in strange:
        raise InputProblem("station.header_unit", file=file, column=strange[missing[0]])
    if missing:
        key = "normals_file" if any("-tmin-" in name for name in header) else "columns"
        seen = ", ".join(header)
        raise InputProblem(f"station.{key}", file=file, missing=", ".join(missing), found=seen[:80])
    if len(set(temp_units.values())) > 1:
        one, two = temp_units
        raise InputProblem("station.header_mixed", file=file, column=one, other=two)
    return found, next(iter(temp_units.values()), None), rain_unit


def _fill(raw: Raw, table: pd.DataFrame, columns: dict[str, str], file: str) -> None:
    """Put the numbers beside the days; what its source has flagged becomes missing, and is counted."""
    commas = False
    for kind in ("tmin", "tmax", "rain"):
        if kind not in columns:
            raw.rows[kind] = np.nan
            continue
        values, comma = numbers(table[columns[kind]], column=columns[kind], file=file, trace=kind == "rain")
        commas |= comma
        if kind != "rain":
            raw.whole &= bool(np.all(values[np.isfinite(values)] % 1 == 0))
        flags = columns[kind] + "_attributes"
        if flags in table:
            flagged = _flagged(table[flags]) & np.isfinite(values)
            values[flagged] = np.nan
            raw.dropped["rain" if kind == "rain" else "flagged"] += int(flagged.sum())
        raw.rows[kind] = values
    if commas:
        raw.notes.append(Said("station.note.decimal_commas"))


def _flagged(attributes: pd.Series) -> np.ndarray:
    """Tell where the second comma part, the quality flag, is not blank."""
    bad = [cell for cell in attributes.unique() if len(parts := cell.split(",")) > 1 and parts[1].strip()]
    return cast(np.ndarray, attributes.isin(bad).to_numpy())


def _where(raw: Raw, table: pd.DataFrame, file: str) -> None:
    """Read which station it is and where it stood last."""
    if "station" in table:
        raw.station_id = one_station(table["station"], file)
    if "name" in table:
        raw.name = "".join(filter(str.isprintable, table["name"].iloc[-1])).strip() or None
    for name, limit in (("latitude", 90.0), ("longitude", 180.0), ("elevation", 9000.0)):
        if name in table:
            value = float(numbers(table[name].iloc[-1:], column=name, file=file)[0][0])
            if abs(value) > limit:
                raise InputProblem("station.place", file=file, row=table.index[-1], column=name, value=value)
            setattr(raw, "elevation_m" if name == "elevation" else name, value if np.isfinite(value) else None)
