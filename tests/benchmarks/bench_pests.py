"""What all pest models cost over a record, and how the cost grows with its years.

Run: ``python tests/benchmarks/bench_pests.py``.  Never part of the tests.
"""

from datetime import date

import invented_station

from gardenlib.pests import forecast, pest_names, sequential_plan
from gardenlib.site import Warmth, lay_out

RUNS, LIMIT_MS = 7, 50


def main():
    """Print one line a record length."""
    print(f"median of {RUNS}, milliseconds; all {len(pest_names())} pests over 40 years must answer within {LIMIT_MS}")
    for years in (11, 20, 40, 80, 150):
        made_up = invented_station.station(years)
        typical = Warmth.from_station(made_up)

        laid = lay_out(made_up.daily, 45.0)

        def all_pests(daily=laid, typical=typical):
            return [
                forecast(pest, daily, 2026, latitude=45.0, typical=typical, seen=date(2026, 4, 20))
                for pest in pest_names()
            ]

        def one_pest(daily=made_up.daily, typical=typical):
            return forecast("imported_cabbageworm", daily, 2026, latitude=45.0, typical=typical)

        each, one = (invented_station.median_ms(call, RUNS) for call in (all_pests, one_pest))
        print(f"{years:>5} years: all, record laid out {each:7.1f}   one, from the record {one:6.1f}")
    print(f"exact outcomes of the plan {invented_station.median_ms(lambda: sequential_plan().outcomes(0.1), RUNS):.2f}")


if __name__ == "__main__":
    main()
