"""How long 40 years of daily weather take: the water by week, all at once."""

from time import perf_counter

import numpy as np
import pandas as pd

from gardenlib import site

if __name__ == "__main__":
    days = pd.date_range("1981-01-01", "2020-12-31", name="date")
    warm = 10 - 12 * np.cos(2 * np.pi * (days.day_of_year - 20) / 365)
    daily = pd.DataFrame({"tmin_c": warm - 5, "tmax_c": warm + 5, "rain_mm": 1.0}, index=days)
    site.WeeklyWater.from_daily(daily, 40.0, year=2027)
    start = perf_counter()
    for _ in range(10):
        site.WeeklyWater.from_daily(daily, 40.0, year=2027)
    print(f"40 years by week: {(perf_counter() - start) * 100:.1f} ms")
