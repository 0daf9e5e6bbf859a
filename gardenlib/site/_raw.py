"""What every form of station file is brought to before its units are settled."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.words import Said

Unit = Literal["F", "C", "tenths-C"]
UnitFrom = Literal["header", "user", "guess", "format"]
RainUnit = Literal["in", "mm", "tenths-mm"]
DateOrder = Literal["DMY", "MDY"]

_BLANKS = {"", "-", ".", "m", "na", "n/a", "nan", "nil", "none", "null", "missing"}
_CODES = [-99999, -9999, -9999.9, -999, -999.9, 999, 999.9, 9999, 99999]  # no thermometer reads these, in any unit
_MEND = str.maketrans({",": ".", "−": "-"})


@dataclass
class Raw:
    """A record as its file gives it: values in the file's own units.

    Parameters
    ----------
    rows : DataFrame
        Columns line (row in the file), date, tmin, tmax, rain; a missing value is NaN.
    temp_unit : str or None
        The unit, where header or form says it; `unit_from` says which.
    archive_layout : bool
        The columns stand in the order of the GHCN-Daily archive, whose values are tenths of a degree.
    whole : bool
        All temperatures are whole numbers.
    """

    rows: pd.DataFrame
    temp_unit: Unit | None = None
    unit_from: UnitFrom = "guess"
    rain_unit: RainUnit | None = None
    archive_layout: bool = False
    whole: bool = True
    station_id: str | None = None
    name: str | None = None
    latitude: float | None = None
    longitude: float | None = None
    elevation_m: float | None = None
    dropped: Counter[str] = field(default_factory=Counter)
    notes: list[Said] = field(default_factory=list)


def numbers(text: pd.Series, *, column: str, file: str, trace: bool = False) -> tuple[np.ndarray, bool]:
    """Read a column of text as numbers.

    Parameters
    ----------
    text : Series of object
        The cells as text; the index is the row in the file.
    column, file : str
        What to name in the sentence when a cell is no number.
    trace : bool
        Whether a T stands for a trace of rain, too little to measure.

    Returns
    -------
    tuple of (array of float, bool)
        The values, NaN where missing, and whether decimal commas were met.

    Raises
    ------
    InputProblem
        When a cell holds neither a number nor a sign for a missing value.
    """
    codes, cells = pd.factorize(text.to_numpy(dtype=object))  # a long record has few different values
    words = pd.Series(cells, dtype=object).str.strip()
    values = pd.to_numeric(words, errors="coerce").to_numpy(dtype=float, copy=True)
    if trace:
        values[(words == "T").to_numpy()] = 0.0
    odd = ~np.isfinite(values)
    values[odd] = pd.to_numeric(words[odd].str.translate(_MEND), errors="coerce")
    commas = bool(words[odd].str.contains(",").any())
    bad = ~np.isfinite(values) & ~words.str.casefold().isin(_BLANKS).to_numpy()
    if bad.any():
        at = int(np.argmax(bad[codes]))
        value = text.iloc[at].strip()[:40]
        raise InputProblem("station.not_a_number", file=file, row=text.index[at], column=column, value=value)
    values[~np.isfinite(values) | np.isin(values, _CODES)] = np.nan
    return values[codes], commas


def one_station(ids: pd.Series, file: str) -> str | None:
    """Give the only station's id; several are refused by name, none is None."""
    names = [name.strip() for name in ids.unique() if name.strip()]
    if len(names) > 1:
        some = ", ".join(names[:3]) + (", ..." if len(names) > 3 else "")
        raise InputProblem("station.several", file=file, n=len(names), names=some)
    return names[0] if names else None
