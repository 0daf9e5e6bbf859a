"""An invented record and a stopwatch, shared by the benchmarks of the library."""

import time
from types import SimpleNamespace

import numpy as np
import pandas as pd


def station(years):
    """Make a station of invented days."""
    days = pd.date_range(f"{2026 - years}-01-01", "2025-12-31", name="date", unit="s")
    low = 8 - 12 * np.cos(2 * np.pi * (days.day_of_year - 15) / 365) + np.random.default_rng(1).normal(0, 4, len(days))
    daily = pd.DataFrame({"tmin_c": low, "tmax_c": low + 11}, index=days)
    return SimpleNamespace(name="Invented", latitude=45.0, first_year=2026 - years, last_year=2025, daily=daily)


def median_ms(call, runs):
    """Give the median time of some runs, after one to warm up."""
    call()
    took = []
    for _ in range(runs):
        start = time.perf_counter()
        call()
        took.append((time.perf_counter() - start) * 1000)
    return float(np.median(took))
