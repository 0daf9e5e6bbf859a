"""Small invented records and plots for the tests of the season."""

from types import SimpleNamespace

import numpy as np
import pandas as pd

from gardenlib.plot import Planting, Plot
from gardenlib.season import PastWeather
from gardenlib.site import FreezeDates, Warmth, lay_out

CROPS = ("cabbage_main", "broccoli", "kale", "radish", "pea", "tomato", "bean_bush", "basil", "lettuce_leaf", "garlic")
_MEANS = [10 - 14 * float(np.cos(month / 6 * np.pi)) for month in range(12)]
MONTHLY = [(month, mean + 6, mean - 6) for month, mean in enumerate(_MEANS, 1)]


def record(seed=1, years=3, *, south=False, rain=True, gaps=0, spread=4.0, level=8.0):
    """Make a daily record of whole tenths of a degree."""
    rng = np.random.default_rng(seed)
    days = pd.date_range("2001-01-01", f"{2000 + years + south}-12-31", unit="s")
    wave = np.cos(2 * np.pi * (days.day_of_year - 15 - 182 * south) / 365.25)
    low = np.clip(level - 12 * wave + rng.normal(0, spread, len(days)), -60.0, 45.0).round(1)
    daily = pd.DataFrame(
        {"tmin_c": low, "tmax_c": np.clip(low + rng.uniform(2, 16, len(days)), low, 50.0).round(1)}, index=days
    )
    if rain:
        daily["rain_mm"] = np.where(rng.random(len(days)) < 0.3, rng.exponential(8, len(days)).round(1), 0.0)
    if gaps:
        daily.loc[days[rng.choice(len(days), gaps, replace=False)], list(daily)] = np.nan
    return daily


def station(daily, latitude=45.0):
    """Make a station of a record."""
    years = daily.index.year
    return SimpleNamespace(
        name="Invented", latitude=latitude, first_year=int(years.min()), last_year=int(years.max()), daily=daily
    )


def weather(daily, latitude=45.0, offset_c=0.0):
    """Lay a record out, its typical year invented too."""
    months = MONTHLY if latitude > 0 else [((month + 5) % 12 + 1, high, low) for month, high, low in MONTHLY]
    typical = Warmth.from_monthly(months, latitude=latitude, source="invented")
    return PastWeather(lay_out(daily, latitude), typical, latitude, night_offset_c=offset_c)


def freezes(latitude=45.0):
    """Give typed freeze dates."""
    spring, fall = ((5, 1), (10, 5)) if latitude > 0 else ((11, 1), (4, 5))
    return FreezeDates.typed(spring, fall, source="invented", latitude=latitude)


def plot(*plantings):
    """Make a plot of plantings, given as (crop, fields)."""
    made = [Planting(id=f"planting-{n}", crop=crop, **fields) for n, (crop, fields) in enumerate(plantings, 1)]
    return Plot(plantings=tuple(made))
