"""The two forms of the GHCN-Daily archive without a header: the long CSV and fixed-width ``.dly``.

Source: NOAA NCEI, readme-by_station.txt and GHCN-Daily readme.txt, section III (record layout).
"""

from __future__ import annotations

import re

import numpy as np
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site._csv_forms import read_table
from gardenlib.site._dates import dates
from gardenlib.site._raw import Raw, numbers, one_station

LONG_LINE = re.compile(r'"?[A-Z0-9_-]{11}"?,"?\d{8}"?,"?[A-Z0-9]{4}"?,')
DLY_LINE = re.compile(r"[A-Z0-9_-]{11}\d{4}[01]\d[A-Z0-9]{4}[ \d-]{4}\d")

_LONG = ["id", "date", "element", "value", "mflag", "qflag", "sflag", "obstime"]
_ELEMENTS = {"TMIN": "tmin", "TMAX": "tmax", "PRCP": "rain"}
_RECORD = 269
_DAYS = 31
_PADDING = -9999


def read_long_form(text: str, file: str) -> Raw:
    """Read the by-station or by-year CSV: one row a day and element.

    Parameters
    ----------
    text : str
        The file's text.
    file : str
        Its name, for sentences.

    Returns
    -------
    Raw
        The record, in tenths of a degree Celsius and of a millimetre.

    Raises
    ------
    InputProblem
        When a row is cut short, a day or value is none, or there are several stations.
    """
    table = read_table(text, file, separator=",", names=_LONG, first_line=1)
    station_id = one_station(table["id"], file)
    table = table[table["element"].isin(_ELEMENTS)]
    if table.empty:
        raise InputProblem("station.no_elements", file=file)
    values, _ = numbers(table["value"], column="value", file=file)
    return _raw(
        pd.DataFrame(
            {
                "line": table.index,
                "date": dates(table["date"], order=None, file=file),
                "element": table["element"].to_numpy(),
                "value": values,
                "flagged": (table["qflag"].str.strip() != "").to_numpy(),
            }
        ),
        station_id,
        file,
    )


def read_dly_form(text: str, file: str) -> Raw:
    """Read the fixed-width form: one record a month and element.

    Parameters
    ----------
    text : str
        The file's text.
    file : str
        Its name, for sentences.

    Returns
    -------
    Raw
        The record, in tenths of a degree Celsius and of a millimetre.

    Raises
    ------
    InputProblem
        When a record has not its 269 characters, a value is none, a day does not exist, or there are several stations.
    """
    lines = [(number, line) for number, line in enumerate(text.split("\n"), 1) if line.strip()]
    for number, line in lines:
        if len(line) != _RECORD or not line.isascii():
            raise InputProblem("station.dly_cut", file=file, row=number, found=len(line), n=_RECORD)
        if not DLY_LINE.match(line):
            raise InputProblem("station.dly_line", file=file, row=number, value=line[:21])
    station_id = one_station(pd.Series([line[:11] for _, line in lines]), file)
    lines = [(number, line) for number, line in lines if line[17:21] in _ELEMENTS]
    if not lines:
        raise InputProblem("station.no_elements", file=file)
    numbers_of_line = np.array([number for number, _ in lines])
    letters = np.array([line for _, line in lines], dtype=f"S{_RECORD}").view("S1").reshape(len(lines), _RECORD)
    days = np.ascontiguousarray(letters[:, 21:].reshape(len(lines), _DAYS, 8))
    values = _whole_numbers(np.ascontiguousarray(days[:, :, :5]).view("S5")[:, :, 0], numbers_of_line, file)
    months = np.array([f"{line[11:15]}-{line[15:17]}" for _, line in lines])
    start = pd.to_datetime(pd.Series(months), format="%Y-%m", errors="coerce")
    if start.isna().any():
        at = int(np.argmax(start.isna()))
        raise InputProblem("station.no_such_day", file=file, row=int(numbers_of_line[at]), value=str(months[at]))
    exists = np.arange(1, _DAYS + 1) <= start.dt.days_in_month.to_numpy()[:, None]
    if (stray := ~exists & (values != _PADDING)).any():
        at, day = np.argwhere(stray)[0]
        named = f"{months[at]}-{day + 1}"
        raise InputProblem("station.no_such_day", file=file, row=int(numbers_of_line[at]), value=named)
    date = start.to_numpy().astype("datetime64[D]")[:, None] + np.arange(_DAYS)
    record, _ = np.nonzero(exists)
    value = values[exists].astype(float)
    value[value == _PADDING] = np.nan
    return _raw(
        pd.DataFrame(
            {
                "line": numbers_of_line[record],
                "date": date[exists].astype("datetime64[s]"),
                "element": np.array([line[17:21] for _, line in lines])[record],
                "value": value,
                "flagged": ((days[:, :, 6] != b" ") & (days[:, :, 6] != b""))[exists],
            }
        ),
        station_id,
        file,
    )


def _whole_numbers(cells: np.ndarray, lines: np.ndarray, file: str) -> np.ndarray:
    try:
        return cells.astype(int)
    except ValueError:
        for line, row in zip(lines, cells, strict=True):
            for cell in row:
                if not re.fullmatch(rb" *-?\d+", cell):
                    raise InputProblem(
                        "station.not_a_number", file=file, row=int(line), column="VALUE", value=cell.decode()
                    ) from None
        raise


def _raw(long: pd.DataFrame, station_id: str | None, file: str) -> Raw:
    """Turn one row a day and element into one row a day."""
    told_twice = int(long.duplicated(["date", "element", "value", "flagged"]).sum())
    long = long.drop_duplicates(["date", "element", "value", "flagged"])
    twice = long.duplicated(["date", "element"])
    if twice.any():
        second = long[twice].iloc[0]
        first = long[(long["date"] == second["date"]) & (long["element"] == second["element"])].iloc[0]
        raise InputProblem(
            "station.two_values", file=file, day=second["date"].date().isoformat(), row=first["line"],
            other_row=second["line"],
        )  # fmt: skip
    flagged = (long["flagged"] & long["value"].notna()).to_numpy()
    rain = (long["element"] == "PRCP").to_numpy()
    long = long.assign(value=long["value"].mask(flagged))
    rows = pd.DataFrame({"line": long.groupby("date")["line"].first()})
    for element, kind in _ELEMENTS.items():
        of = long[long["element"] == element]
        rows[kind] = pd.Series(of["value"].to_numpy(), index=of["date"].to_numpy())
    raw = Raw(
        rows.reset_index(),
        temp_unit="tenths-C",
        unit_from="format",
        rain_unit="tenths-mm",
        station_id=station_id,
    )
    raw.dropped.update(flagged=int((flagged & ~rain).sum()), rain=int((flagged & rain).sum()), repeated=told_twice)
    return raw
