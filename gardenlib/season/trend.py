"""Whether something came more or less often in the later half of the seasons than chance explains."""

from __future__ import annotations

from functools import cache

from gardenlib.sowing.chance import exact_range
from gardenlib.units import Range
from gardenlib.working import Notes, Value

SURE = 0.95
FEWEST_SEASONS = 20


@cache
def _left_open(hits: int, seasons: int) -> tuple[float, float]:
    return exact_range(hits, seasons, SURE)


def trend_of(halves: tuple[int, int, int, int], notes: Notes) -> int:
    """Tell whether the later half worked more or less often than chance explains."""
    before, n_before, after, n_after = halves
    if n_before + n_after < FEWEST_SEASONS:
        notes.say("replay.too_few", n=n_before + n_after, needed=FEWEST_SEASONS)
        return 0
    (low, high), (low_after, high_after) = _left_open(before, n_before), _left_open(after, n_after)
    trend = int(low_after > high) - int(high_after < low)
    given: dict[str, Value] = {
        "earlier": Range(10 * low, 10 * high, "of_ten"),
        "later": Range(10 * low_after, 10 * high_after, "of_ten"),
    }
    notes.step("replay.trend", "do the exact 95 % ranges of both halves touch?", given, None, "clopper_pearson_1934")
    if not trend:
        notes.say("replay.no_trend")
    return trend
