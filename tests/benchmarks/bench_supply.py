"""How long the weeks of 40 plantings over 40 seasons take.

Run: ``python tests/benchmarks/bench_supply.py``.  Never part of the tests.
"""

from time import perf_counter

import numpy as np

from gardenlib.harvest import carry_on, supply_by_week

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


if __name__ == "__main__":
    main()
