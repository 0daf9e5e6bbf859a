"""Counting the cold days after a day of setting out, over all years of a record at once."""

from __future__ import annotations

from datetime import date, datetime
from typing import TYPE_CHECKING

import numpy as np

from gardenlib.problems import InputProblem
from gardenlib.units import Quantity

if TYPE_CHECKING:
    import pandas as pd

MOST_WEEKS = 12
COLDEST_C, WARMEST_C = -10.0, 25.0


def check(set_out: date, weeks: int, days: int | None, below_c: float | None, daily: pd.DataFrame) -> None:
    """Refuse what cannot be counted with."""
    if not isinstance(set_out, date) or isinstance(set_out, datetime):
        raise InputProblem("bolting.set_out", value=set_out)
    if isinstance(weeks, bool) or not isinstance(weeks, int) or not 1 <= weeks <= MOST_WEEKS:
        raise InputProblem("bolting.weeks", value=str(weeks), high=MOST_WEEKS)
    if days is not None and (isinstance(days, bool) or not isinstance(days, int) or not 1 <= days <= weeks * 7):
        raise InputProblem("bolting.days", value=days, weeks=weeks, high=weeks * 7)
    if below_c is not None and (
        isinstance(below_c, bool) or not isinstance(below_c, int | float) or not COLDEST_C <= below_c <= WARMEST_C
    ):
        low, high = Quantity(COLDEST_C, "degC"), Quantity(WARMEST_C, "degC")
        raise InputProblem("bolting.below", value=str(below_c), low=low, high=high)
    if lacking := [name for name in ("tmin_c", "tmax_c") if name not in daily]:
        raise InputProblem("bolting.columns", value=", ".join(lacking))
    if daily.empty:
        raise InputProblem("bolting.empty")


def cold_days(daily: pd.DataFrame, set_out: date, weeks: int, below_c: float) -> pd.DataFrame:
    """Count cold and missing days of the weeks after setting out, for each year of the record at once."""
    import pandas as pd

    record = daily[["tmin_c", "tmax_c"]].sort_index()
    first, last = record.index[0], record.index[-1]
    mean_c = record.mean(axis=1, skipna=False).reindex(pd.date_range(first, last)).to_numpy()
    years = np.arange(first.year, last.year + 1)
    day = 28 if (set_out.month, set_out.day) == (2, 29) else set_out.day
    starts = pd.to_datetime({"year": years, "month": set_out.month, "day": day})
    places = (starts - first).dt.days.to_numpy()[:, None] + np.arange(7 * weeks)[None, :]
    inside = (places >= 0) & (places < len(mean_c))
    means = np.where(inside, mean_c[np.clip(places, 0, len(mean_c) - 1)], np.nan)
    # A tenth of a degree is the finest that records hold; the hair keeps a mean of just the limit from counting.
    cold = (means < below_c - 1e-6).sum(axis=1)
    return pd.DataFrame({"year": years, "cold_days": cold, "missing_days": np.isnan(means).sum(axis=1)})
