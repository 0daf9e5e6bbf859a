"""Degree days of a pest's model over many seasons at once, and the day on which a sum is reached."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from gardenlib.pests.models import PestEvent
from gardenlib.site import degree_days
from gardenlib.site.heat_sum import Method
from gardenlib.site.past_seasons import YEAR_DAYS

Array = npt.NDArray[np.float64]
NEVER = float(YEAR_DAYS)
"""Stands for a day that did not come before the season's end."""


def daily_sums(tmin_c: Array, tmax_c: Array, event: PestEvent) -> Array:
    """Give the degree days of each day in the way in which the event's source counts."""
    if event.method == "capped-average":
        # The high is cut at the upper threshold and the low left as it is, so the mean of the two is all that counts.
        tmax_c = np.minimum(tmax_c, np.inf if event.upper_c is None else event.upper_c)
        return np.asarray(degree_days(np.minimum(tmin_c, tmax_c), tmax_c, event.lower_c, method="average"))
    method: Method = "modified-average" if event.method == "modified-average" else "average"
    return np.asarray(degree_days(tmin_c, tmax_c, event.lower_c, event.upper_c, method=method))


def day_reached(daily: Array, total_c: float, start: int = 0) -> Array:
    """Find the first day of each season on which the sum since a start is at or above a total.

    Parameters
    ----------
    daily : array, shape (seasons, days)
        Degree days of each day.
    total_c : float
        The sum to be reached, degrees Celsius times days.
    start : int
        Place of the first day that counts.

    Returns
    -------
    array, shape (seasons,)
        Place of the day, or `NEVER`.
    """
    # A thousandth of a millionth: sums that are equal but for rounding count as reached.
    over = np.cumsum(daily[:, start:], axis=1) >= total_c - 1e-9
    return np.where(over.any(axis=1), start + over.argmax(axis=1), NEVER)
