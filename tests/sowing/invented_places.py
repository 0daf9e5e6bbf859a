"""Invented places for the sowing tests: a sine of daily lows with noise, and the months of the same year."""

from __future__ import annotations

from functools import cache
from types import SimpleNamespace

import numpy as np
import pandas as pd

from gardenlib.site import FreezeDates, Warmth

DAYS = pd.date_range("1991-01-01", "2020-12-31", name="date")


@cache
def place(mean_c: float, swing_c: float, *, latitude: float = 40.0, noise_c: float = 4.0, seed: int = 1) -> FreezeDates:
    """Make the freeze dates of an invented place from its yearly mean low and the swing around it."""
    phase = 15 if latitude >= 0 else 15 + 182
    low = mean_c - swing_c * np.cos(2 * np.pi * (DAYS.day_of_year - phase) / 365)
    low = low + np.random.default_rng(seed).normal(0, noise_c, len(DAYS))
    station = SimpleNamespace(
        name="Invented",
        latitude=latitude,
        first_year=1991,
        last_year=2020,
        daily=pd.DataFrame({"tmin_c": low}, index=DAYS),
    )
    return FreezeDates.from_station(station)


@cache
def warmth(mean_low_c: float, swing_c: float, *, latitude: float = 40.0, range_c: float = 12.0) -> Warmth:
    """Make the typical year of an invented place; days are `range_c` warmer than nights."""
    phase = 15 if latitude >= 0 else 15 + 182
    middle = [15 + 30.4 * month for month in range(12)]
    low = [mean_low_c - swing_c * np.cos(2 * np.pi * (day - phase) / 365) for day in middle]
    rows = [(month + 1, value + range_c, value) for month, value in enumerate(low)]
    return Warmth.from_monthly(rows, latitude=latitude, source="invented")
