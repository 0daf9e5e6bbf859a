"""What the site's answers cost, and how the cost grows with the years of the record.

Run: ``python tests/benchmarks/bench_climate.py``.  Never part of the tests.
"""

import invented_station
import pandas as pd

from gardenlib.site import FreezeDates, Warmth, daylength_hours, degree_days, zone_from_station

RUNS = 7
LIMIT_MS = 100


def median_ms(call):
    """Give the median time of the runs, milliseconds."""
    return invented_station.median_ms(call, RUNS)


def main():
    """Print one line a record length."""
    print(f"median of {RUNS}, milliseconds; a change must answer within {LIMIT_MS}")
    print(f"{'years':>5} {'freezes':>8} {'one date':>9} {'curve':>7} {'zone':>7} {'warmth':>7} {'degree days':>12}")
    for years in (1, 10, 30, 90, 150):
        made_up = invented_station.station(years)
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
