"""What an even harvest costs, and how the cost grows with seasons and sowings.

Run: ``python tests/benchmarks/bench_even.py``.  Never part of the tests.
"""

from datetime import date

import invented_station

from gardenlib.site import FreezeDates, Warmth
from gardenlib.sowing import even_harvest, remaining_gap

RUNS = 15
LIMIT_MS = 20
FIRST = date(2027, 3, 20)


def median_ms(call):
    """Give the median time of the runs, milliseconds."""
    return invented_station.median_ms(call, RUNS)


def main():
    """Print one line a record length: known climate with 1, 10 and 30 sowings, and everything from the record."""
    print(f"median of {RUNS}, milliseconds; 40 seasons and 10 sowings must take at most {LIMIT_MS}")
    print(f"{'seasons':>7} {'1 sowing':>9} {'10':>7} {'30':>7} {'gap of two':>11} {'10, with climate':>17}")
    for years in (5, 20, 40, 80, 150):
        here = invented_station.station(years)
        known = {"warmth": Warmth.from_station(here), "freezes": FreezeDates.from_station(here)}
        took = [
            median_ms(lambda n=n, here=here, known=known: even_harvest("lettuce_leaf", here, FIRST, n, 6, **known))
            for n in (1, 10, 30)
        ]
        took.append(median_ms(lambda here=here, known=known: remaining_gap("lettuce_leaf", here, FIRST, 14, **known)))
        took.append(median_ms(lambda here=here: even_harvest("lettuce_leaf", here, FIRST, 10, 6)))
        print(f"{years:>7} " + " ".join(f"{ms:{wide}.1f}" for ms, wide in zip(took, (9, 7, 7, 11, 17), strict=True)))


if __name__ == "__main__":
    main()
