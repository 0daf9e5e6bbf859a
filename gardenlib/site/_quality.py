"""Which values of a record cannot be, and are left out and counted."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.units import Quantity
from gardenlib.words import Said

# World records, WMO archive of weather and climate extremes: -89.2 degC (Vostok 1983), 56.7 degC (Furnace Creek 1913),
# 1825 mm of rain in 24 hours (Foc-Foc 1966).  Read from memory.
COLDEST_C, HOTTEST_C, WETTEST_MM = -90.0, 57.0, 1825.0

# A value far from its month: more than five times the middle half of all its Januaries (Februaries ...), and more
# than 20 degC, from their middle.  Ours; wider than the six standard deviations of NOAA's own check (from memory).
_SPREADS, _FAR_C, _ENOUGH = 5.0, 20.0, 20

_MANY, _MANY_FRACTION = 10, 0.05


def drop(rows: pd.DataFrame, file: str) -> tuple[pd.DataFrame, Counter[str], list[Said]]:
    """Sort a record, leave out repeated days and values that cannot be, and count them.

    Parameters
    ----------
    rows : DataFrame
        Columns line, date, tmin_c, tmax_c, rain_mm.
    file : str
        The file's name, for sentences.

    Returns
    -------
    tuple of (DataFrame, Counter, list of Said)
        The daily record by date, how many values were left out and why, and the sentences that say so.

    Raises
    ------
    InputProblem
        When one day stands twice with different values, when too much cannot be, or when nothing is left.
    """
    dropped: Counter[str] = Counter()
    notes: list[Said] = []
    if not rows["date"].is_monotonic_increasing:
        notes.append(Said("station.note.unsorted"))
        rows = rows.sort_values("date", kind="stable")
    rows, dropped["repeated"] = _once_a_day(rows, file)
    daily = rows.set_index("date")[["tmin_c", "tmax_c", "rain_mm"]].copy()
    low, high = daily["tmin_c"].to_numpy(copy=True), daily["tmax_c"].to_numpy(copy=True)
    n = int(np.isfinite(low).sum() + np.isfinite(high).sum())

    beyond_low, beyond_high = _beyond(low), _beyond(high)
    dropped["beyond_world"] = int(beyond_low.sum() + beyond_high.sum())
    if dropped["beyond_world"] >= _MANY and dropped["beyond_world"] > _MANY_FRACTION * n:
        raise InputProblem("station.unit_unfit", file=file, count=dropped["beyond_world"], total=n)
    low[beyond_low], high[beyond_high] = np.nan, np.nan

    crossed = low > high + 1e-9
    dropped["low_above_high"] = int(crossed.sum())
    if dropped["low_above_high"] >= _MANY and dropped["low_above_high"] > _MANY_FRACTION * len(daily):
        raise InputProblem("station.swapped", file=file, count=dropped["low_above_high"], total=len(daily))
    low[crossed], high[crossed] = np.nan, np.nan

    month = daily.index.month.to_numpy()  # type: ignore[attr-defined]
    odd_low, odd_high = _odd_for_month(low, month), _odd_for_month(high, month)
    dropped["odd_for_month"] = int(odd_low.sum() + odd_high.sum())
    if dropped["odd_for_month"]:
        notes.append(_odd_note(daily, odd_low, odd_high, dropped["odd_for_month"]))
    low[odd_low], high[odd_high] = np.nan, np.nan

    rain = daily["rain_mm"].to_numpy(copy=True)
    wrong_rain = (rain < 0) | (rain > WETTEST_MM)
    dropped["rain"] = int(wrong_rain.sum())
    rain[wrong_rain] = np.nan

    daily = daily.assign(tmin_c=low, tmax_c=high, rain_mm=rain)
    if not (np.isfinite(low).any() and np.isfinite(high).any()):
        raise InputProblem("station.nothing_left", file=file)
    return daily, dropped, notes


def _once_a_day(rows: pd.DataFrame, file: str) -> tuple[pd.DataFrame, int]:
    if rows["date"].is_unique:
        return rows, 0
    repeated = rows.duplicated(["date", "tmin_c", "tmax_c", "rain_mm"])
    rows = rows[~repeated]
    twice = rows["date"].duplicated()
    if twice.any():
        second = rows[twice].iloc[0]
        first = rows[rows["date"] == second["date"]].iloc[0]
        raise InputProblem(
            "station.two_values",
            file=file,
            day=second["date"].date().isoformat(),
            row=first["line"],
            other_row=second["line"],
        )
    return rows, int(repeated.sum())


def _beyond(temp_c: np.ndarray) -> np.ndarray:
    return (temp_c < COLDEST_C) | (temp_c > HOTTEST_C)


def _odd_for_month(temp_c: np.ndarray, month: np.ndarray) -> np.ndarray:
    odd = np.zeros(len(temp_c), dtype=bool)
    for number in range(1, 13):
        here = np.flatnonzero((month == number) & np.isfinite(temp_c))
        if len(here) < _ENOUGH:
            continue
        quarter, middle, three_quarters = np.percentile(temp_c[here], [25, 50, 75])
        far = max(_SPREADS * (three_quarters - quarter), _FAR_C)
        odd[here] = np.abs(temp_c[here] - middle) > far
    return odd


def _odd_note(daily: pd.DataFrame, odd_low: np.ndarray, odd_high: np.ndarray, n: int) -> Said:
    column, where = ("tmin_c", odd_low) if odd_low.any() else ("tmax_c", odd_high)
    at = int(np.argmax(where))
    day = daily.index[at].date()
    value = Quantity(float(daily[column].iloc[at]), "degC")
    return Said("station.dropped.odd_for_month", {"n": n, "value": value, "day": day, "year": day.year})
