"""How long the weeks of 40 plantings over 40 seasons take.

Run: ``python tests/benchmarks/bench_supply.py``.  Never part of the tests.
"""

from datetime import date, timedelta
from time import perf_counter

import numpy as np

from gardenlib.harvest import Further, Stand, carry_on, supply_by_week, weekly_supply
from gardenlib.units import Range

RUNS, LIMIT_MS = 9, 100


def main():
    """Print one line a number of seasons."""
    print(f"median of {RUNS}, milliseconds; 40 plantings, 52 weeks, 40 seasons must take less than {LIMIT_MS}")
    rng = np.random.default_rng(1)
    for seasons in (1, 10, 40, 160):
        first = rng.uniform(100, 280, (seasons, 40))
        last = first + rng.uniform(7, 60, (seasons, 40))
        amounts, keeps = rng.uniform(1, 30, 40), rng.integers(0, 26, 40)
        took = []
        for _ in range(RUNS):
            start = perf_counter()
            supply = supply_by_week(amounts, first, last, np.arange(0, 364, 7))
            carry_on(supply, np.full(52, 20.0), keeps)
            took.append(1000 * (perf_counter() - start))
        print(f"{seasons:4d} seasons: {np.median(took):7.2f}")
    print(f"the answer for 40 plantings with two windows for one more: {_answer(rng):.2f}")


def _answer(rng):
    """Time what a panel asks: the weeks of one season and the best week for one more planting."""
    day = date(2027, 4, 1)
    stands = [
        Stand(
            Range(5, 20, "servings"), first, first + timedelta(days=int(rng.integers(7, 60))), int(rng.integers(0, 26))
        )
        for first in (day + timedelta(days=int(n)) for n in rng.integers(0, 180, 40))
    ]
    windows = [Further(start, start + timedelta(days=90), stands[0]) for start in (day, date(2027, 7, 1))]
    took = []
    for _ in range(RUNS):
        start = perf_counter()
        weekly_supply(stands, 90, (date(2027, 1, 1), date(2027, 12, 31)), need_from=day, need_weeks=40, further=windows)
        took.append(1000 * (perf_counter() - start))
    return np.median(took)


if __name__ == "__main__":
    main()
