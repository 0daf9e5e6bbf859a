"""Days as station files write them."""

from __future__ import annotations

import re
from typing import NoReturn

import numpy as np
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site._raw import DateOrder

_CLOCK = r"(?:[T ]\d{1,2}:\d{2}(?::\d{2}(?:\.0+)?)?Z?)?"
_PARTS = re.compile(r"(\d{1,4})([-/.])(\d{1,2})\2(\d{1,4})" + _CLOCK)
_FIRST_YEAR, _LAST_YEAR = 1700, 2199  # the oldest daily thermometer records begin in the 18th century


def dates(text: pd.Series, *, order: DateOrder | None, file: str) -> pd.DatetimeIndex:
    """Read a column of days.

    Parameters
    ----------
    text : Series of str
        The cells: year first (with or without dashes), or day and month before the year; the index is the row.
    order : {"DMY", "MDY"} or None
        Which of day and month stands first; None finds out from the days above 12.
    file : str
        What to name in the sentence when a cell is no day.

    Returns
    -------
    DatetimeIndex
        One day a cell.

    Raises
    ------
    InputProblem
        When a cell is no day, names a day that does not exist, or the order of day and month cannot be told.
    """
    lengths = set(map(len, text.to_numpy(dtype=object)))
    found = None
    if lengths == {10}:
        found = pd.to_datetime(text, format="%Y-%m-%d", errors="coerce")
    elif lengths == {8} and "".join(text.to_numpy(dtype=object)).isdigit():
        found = pd.to_datetime(text, format="%Y%m%d", errors="coerce")
    cells = text
    if found is None or found.isna().any():
        cells = text.str.strip()
        found = _by_parts(cells, order, file)
    days = pd.DatetimeIndex(found.to_numpy().astype("datetime64[s]"))
    outside = (days.year < _FIRST_YEAR) | (days.year > _LAST_YEAR)
    if outside.any():
        _refuse("year", cells, outside, file)
    return days


def _by_parts(cells: pd.Series, order: DateOrder | None, file: str) -> pd.Series:
    """Take each cell apart; the slow way, also the one that finds what is amiss."""
    compact = cells.str.fullmatch(r"\d{8}")
    spread = cells.where(~compact, cells.str.replace(r"(\d{4})(\d{2})(\d{2})", r"\1-\2-\3", regex=True))
    matches = [_PARTS.fullmatch(cell) for cell in spread]
    parts = np.array([(m[1], m[3], m[4]) if m else ("", "", "") for m in matches], dtype="U4")
    digits = np.char.str_len(parts)
    year_first = digits[:, 0] == 4
    year_last = (digits[:, 2] == 4) & (digits[:, 0] <= 2)
    if not (year_first | year_last).all():
        short = (digits[:, 0] > 0) & ~(year_first | year_last)
        if short.any():
            _refuse("short_year", cells, short, file)
        _refuse("no_day", cells, ~(year_first | year_last), file)
    first, second, third = parts.astype(int).T
    if year_last.any() and order is None:
        order = _order(year_last & (first > 12), year_last & (second > 12), cells, file)
    day_in_front = year_last & (order == "DMY")
    found = pd.to_datetime(
        pd.DataFrame(
            {
                "year": np.where(year_first, first, third),
                "month": np.where(year_first | day_in_front, second, first),
                "day": np.where(year_first, third, np.where(day_in_front, first, second)),
            },
            index=cells.index,
        ),
        errors="coerce",
    )
    if found.isna().any():
        _refuse("no_such_day", cells, found.isna().to_numpy(), file)
    return found


def _order(day_first: np.ndarray, month_first: np.ndarray, cells: pd.Series, file: str) -> DateOrder:
    """Find out whether day or month stands first; a place above 12 can only be a day."""
    if (day_first & month_first).any():
        _refuse("no_such_day", cells, day_first & month_first, file)
    if day_first.any() and month_first.any():
        one, two = int(np.argmax(day_first)), int(np.argmax(month_first))
        raise InputProblem(
            "station.orders_mixed",
            file=file,
            row=cells.index[one],
            value=cells.iloc[one],
            other_row=cells.index[two],
            other=cells.iloc[two],
        )
    if day_first.any():
        return "DMY"
    if not month_first.any():
        _refuse("order_unknown", cells, np.ones(len(cells), dtype=bool), file)
    return "MDY"


def _refuse(key: str, cells: pd.Series, where: np.ndarray, file: str) -> NoReturn:
    at = int(np.argmax(where))
    raise InputProblem(f"station.{key}", file=file, row=cells.index[at], value=cells.iloc[at][:40])
