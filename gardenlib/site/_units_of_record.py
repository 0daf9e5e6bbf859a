"""Which unit a record is in, whether it keeps to it, and its values in degrees Celsius."""

from __future__ import annotations

import numpy as np
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site._raw import Raw, Unit, UnitFrom
from gardenlib.units import MM_PER_INCH, c_to_f, f_to_c
from gardenlib.words import Said

_ABOVE_ANY_DEGREE = 140.0  # a day's value above this, either way, can only be tenths
_JUMP = {"F": 40.0, "C": 30.0, "tenths-C": 300.0}  # no month's typical high moves so far, in the file's unit
_SPAN_GROWS = 1.4
_HALF_STEP_F = 0.09  # half of a tenth of a degree Celsius, in Fahrenheit
_WHOLE_FRACTION = 0.99


def settle_unit(raw: Raw, unit: Unit | None, file: str) -> tuple[Unit, UnitFrom]:
    """Find the record's unit: from its form or header, from the user, or by a guess that is shown.

    Parameters
    ----------
    raw : Raw
        The record in the file's own unit.
    unit : {"F", "C", "tenths-C"} or None
        What the user says.
    file : str
        The file's name, for sentences.

    Returns
    -------
    tuple of (str, str)
        The unit, and ``format``, ``header``, ``user`` or ``guess``.

    Raises
    ------
    InputProblem
        When the user and the file disagree, or the values jump between two units.
    """
    if raw.temp_unit is not None:
        if unit is not None and unit != raw.temp_unit:
            raise InputProblem("station.unit_differs", file=file, said=unit, found=raw.temp_unit)
        settled: tuple[Unit, UnitFrom] = raw.temp_unit, raw.unit_from
    elif unit is not None:
        settled = unit, "user"
    else:
        settled = _guess(raw)
    _refuse_mixed(raw.rows, settled[0], file)
    return settled


def _guess(raw: Raw) -> tuple[Unit, UnitFrom]:
    rows = raw.rows
    values = rows[["tmin", "tmax"]].to_numpy()
    tenths = raw.whole and np.mean(np.abs(values[np.isfinite(values)]) > _ABOVE_ANY_DEGREE) > 0.02
    by_month = rows.groupby(rows["date"].dt.month)["tmax"].mean()
    warm = bool(by_month.max() > 50)
    if raw.archive_layout and raw.whole and (tenths or not warm or len(by_month) < 12):
        return "tenths-C", "format"
    if tenths:
        return "tenths-C", "guess"
    return ("F" if warm else "C"), "guess"


def _refuse_mixed(rows: pd.DataFrame, unit: Unit, file: str) -> None:
    """Refuse a record that jumps between units from day to day, from month to month or from year to year."""
    limit = _JUMP[unit]
    rows = rows.sort_values("date", kind="stable")
    date, tmin, tmax = rows["date"].to_numpy(), rows["tmin"].to_numpy(), rows["tmax"].to_numpy()
    high, low, span = np.diff(tmax), np.diff(tmin), tmax - tmin
    next_day = np.diff(date) == np.timedelta64(1, "D")
    # From Celsius to Fahrenheit both values leap up and the span between them grows by 1.8.
    leaps = next_day & (np.abs(high) > 0.8 * limit) & (np.abs(low) > 0.6 * limit) & (high * low > 0)
    leaps &= np.where(high > 0, span[1:] > _SPAN_GROWS * span[:-1], span[:-1] > _SPAN_GROWS * span[1:])
    if leaps.sum() >= 2 and leaps.sum() > 0.05 * next_day.sum():
        at = int(np.argmax(leaps))
        raise _mixed(rows, at + 1, float(abs(high[at])), file)
    month = date.astype("datetime64[M]")
    typical = pd.Series(tmax).groupby(month).median().dropna()
    if len(typical) < 2:
        return
    step = typical.diff().abs()
    follows = np.diff(typical.index.to_numpy().astype("datetime64[M]").astype(int), prepend=0) == 1
    earlier = typical.groupby(typical.index.month).transform("first")  # type: ignore[attr-defined]
    moved = np.maximum(step.where(follows, 0.0).fillna(0.0), (typical - earlier).abs())
    if moved.max() > limit:
        at = int(np.argmax(month == typical.index[int(np.argmax(moved))].to_datetime64().astype("datetime64[M]")))
        raise _mixed(rows, at, float(moved.max()), file)


def _mixed(rows: pd.DataFrame, at: int, jump: float, file: str) -> InputProblem:
    day = rows["date"].iloc[at].date().isoformat()
    return InputProblem("station.units_mixed", file=file, row=int(rows["line"].iloc[at]), day=day, jump=jump)


def to_si(raw: Raw, unit: Unit) -> tuple[pd.DataFrame, list[Said]]:
    """Bring a record to degrees Celsius and millimetres; whole Fahrenheit readings are given back their degree.

    Parameters
    ----------
    raw : Raw
        The record in the file's own unit.
    unit : {"F", "C", "tenths-C"}
        That unit.

    Returns
    -------
    tuple of (DataFrame, list of Said)
        Columns line, date, tmin_c, tmax_c, rain_mm, and what to tell the reader.

    Notes
    -----
    Observers in the United States read whole degrees Fahrenheit; the GHCN-Daily archive keeps tenths of a degree
    Celsius (NOAA NCEI, GHCN-Daily readme.txt, section III).  28 °F is stored as -2.2 °C, which reads back as 28.04 °F.
    """
    notes: list[Said] = []
    temp = raw.rows[["tmin", "tmax"]].to_numpy(dtype=float, copy=True)
    if unit == "tenths-C":
        temp /= 10
    else:
        temp[np.isin(temp, [-99.0, -99.9])] = np.nan  # a common sign for a missing value
    temp_c = f_to_c(temp) if unit == "F" else temp
    temp_f = temp if unit == "F" else c_to_f(temp)
    whole_f = np.rint(temp_f)
    off = np.abs(temp_f - whole_f)
    there = np.isfinite(off)
    if there.any() and np.mean(off[there] <= _HALF_STEP_F + 1e-6) >= _WHOLE_FRACTION:
        temp_c = f_to_c(whole_f)
        if np.max(off[there]) > 1e-6:
            notes.append(Said("station.note.whole_f"))
    rain_unit = raw.rain_unit or {"F": "in", "C": "mm", "tenths-C": "tenths-mm"}[unit]
    if raw.rain_unit is None and raw.rows["rain"].notna().any() and unit != "tenths-C":
        notes.append(Said(f"station.note.rain_{rain_unit}"))
    factor = {"in": MM_PER_INCH, "mm": 1.0, "tenths-mm": 0.1}[rain_unit]
    rows = raw.rows[["line", "date"]].assign(
        tmin_c=temp_c[:, 0], tmax_c=temp_c[:, 1], rain_mm=raw.rows["rain"] * factor
    )
    return rows, notes
