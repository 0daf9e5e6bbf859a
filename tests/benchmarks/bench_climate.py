"""What the site's answers cost, and how the cost grows with the years of the record.

Run: ``python tests/benchmarks/bench_climate.py``.  Never part of the tests.
"""

import time
from types import SimpleNamespace

import numpy as np
import pandas as pd

from gardenlib.site import FreezeDates, Warmth, daylength_hours, degree_days, zone_from_station

RUNS = 7
LIMIT_MS = 100


def station(years):
    """Make a station of invented days."""
    days = pd.date_range(f"{2026 - years}-01-01", "2025-12-31", name="date", unit="s")
    low = 8 - 12 * np.cos(2 * np.pi * (days.day_of_year - 15) / 365) + np.random.default_rng(1).normal(0, 4, len(days))
    daily = pd.DataFrame({"tmin_c": low, "tmax_c": low + 11}, index=days)
    return SimpleNamespace(name="Invented", latitude=45.0, first_year=2026 - years, last_year=2025, daily=daily)


def median_ms(call):
    """Give the median time of some runs, after one to warm up."""
    call()
    took = []
    for _ in range(RUNS):
        start = time.perf_counter()
        call()
        took.append((time.perf_counter() - start) * 1000)
    return float(np.median(took))


def main():
    """Print one line a record length."""
    print(f"median of {RUNS}, milliseconds; a change must answer within {LIMIT_MS}")
    print(f"{'years':>5} {'freezes':>8} {'one date':>9} {'curve':>7} {'zone':>7} {'warmth':>7} {'degree days':>12}")
    for years in (1, 10, 30, 90, 150):
        made_up = station(years)
        freezes = FreezeDates.from_station(made_up)
        low, high = made_up.daily["tmin_c"].to_numpy(), made_up.daily["tmax_c"].to_numpy()
        calls = (
            lambda made_up=made_up: FreezeDates.from_station(made_up),
            lambda freezes=freezes: (
                freezes.state("spring", 32) == "dates" and freezes.date("spring", 32, 0.1, year=2027)
            ),
            lambda freezes=freezes: freezes.curve("spring", 32, year=2027),
            lambda made_up=made_up: zone_from_station(made_up),
            lambda made_up=made_up: Warmth.from_station(made_up),
            lambda low=low, high=high: degree_days(low, high, 10.0, 30.0),
        )
        took = [median_ms(call) for call in calls]
        print(
            f"{years:>5} " + " ".join(f"{ms:{width}.2f}" for ms, width in zip(took, (8, 9, 7, 7, 7, 12), strict=True))
        )
    months = [(m, 25.0, 15.0) for m in range(1, 13)]
    print(f"monthly curve {median_ms(lambda: Warmth.from_monthly(months, latitude=45.0, source='invented')):.2f}")
    print(
        f"daylength of a year {median_ms(lambda: daylength_hours(45.0, pd.date_range('2025-01-01', periods=365))):.2f}"
    )


if __name__ == "__main__":
    main()
