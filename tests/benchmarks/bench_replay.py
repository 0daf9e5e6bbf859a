"""What a replay costs by seasons and plantings, against a plain loop over days.

Run: ``python tests/benchmarks/bench_replay.py``.  Never part of the tests.
"""

import sys
import time
from dataclasses import replace
from pathlib import Path

import invented_station
import numpy as np

from gardenlib.plot import Planting, Plot
from gardenlib.season import PastWeather, plan_dates, replay_planned
from gardenlib.site import FreezeDates

sys.path.insert(0, str(Path(__file__).parents[1] / "season"))
import oracle

RUNS, LIMIT_MS, YEAR = 9, 30, 2026
CROPS = ("cabbage_main", "lettuce_leaf", "pea", "tomato", "bean_bush", "kale")


def main():
    """Print one line a size; a third of the plantings is not watered."""
    print(f"median of {RUNS}, milliseconds; 40 seasons and 30 plantings must answer within {LIMIT_MS}")
    for years in (10, 20, 40, 80):
        made_up = invented_station.station(years)
        made_up.daily["rain_mm"] = np.random.default_rng(2).exponential(2, len(made_up.daily))
        weather = PastWeather.of(made_up)
        here = FreezeDates.from_station(made_up)
        for count in (6, 30, 120):
            plantings = tuple(
                Planting(id=str(n), crop=CROPS[n % len(CROPS)], watered=n % 3 > 0, plants=4) for n in range(count)
            )
            planned = plan_dates(Plot(plantings=plantings), here, year=YEAR, warmth=weather.warmth)
            took = invented_station.median_ms(lambda p=planned, w=weather: replay_planned(p, w, year=YEAR), RUNS)
            print(f"{years:>4} seasons {count:>4} plantings {took:8.1f}")
    made_up = invented_station.station(10)
    made_up.daily["rain_mm"] = 2.0
    weather = PastWeather.of(made_up)
    plantings = tuple(Planting(id=crop, crop=crop) for crop in CROPS)
    planned = plan_dates(Plot(plantings=plantings), FreezeDates.from_station(made_up), year=YEAR, warmth=weather.warmth)
    for watered in (True, False):
        some = [replace(one, watered=watered) for one in planned]
        fast = invented_station.median_ms(lambda p=some: replay_planned(p, weather, year=YEAR), RUNS)
        begun = time.perf_counter()
        oracle.replay(some, weather, YEAR)
        loop = (time.perf_counter() - begun) * 1000
        print(f"10 seasons, 6 plantings, watered {watered}: loop {loop:.0f}, ours {fast:.1f}, {loop / fast:.0f} times")


if __name__ == "__main__":
    main()
