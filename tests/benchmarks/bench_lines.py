"""A bed in lines: the share of what is possible in small beds, and time against the number of plants.

Run: ``python tests/benchmarks/bench_lines.py``.  Never part of the tests.
"""

import sys
from pathlib import Path

import invented_station
import numpy as np

from gardenlib import beds

sys.path.append(str(Path(__file__).parent.parent / "beds"))
from counted_out import most_plants

IN = 0.0254
CROPS = ["tomato", "cabbage_main", "carrot", "pea", "lettuce_leaf"]


def bed(length, width, wanted, daily=()):
    """Set out (crop, plants, spacing in inches)."""
    plantings = [(crop, plants, None, False, crop in daily) for crop, plants, _ in wanted]
    spacing = {crop: apart * IN for crop, _, apart in wanted}
    return beds.lines(length * IN, width * IN, plantings, latitude=44, spacing_m=spacing)


def main():
    """Print the share of the most that can be counted out, then milliseconds for 40 to 1,000 plants."""
    shares, fewer = [], 0
    for number in range(100):
        dice = np.random.default_rng(number)
        wanted = [(crop, int(dice.integers(1, 7)), 2 * int(dice.integers(2, 10))) for crop in CROPS[:3]]
        length, width = 2 * int(dice.integers(15, 40)), 2 * int(dice.integers(8, 20))
        crops, plants = most_plants(length, width, tuple((n, s) for _, n, s in wanted))
        found = bed(length, width, wanted)
        fewer += len(found.counts) < crops
        shares.append(found.placed / plants if plants else 1.0)
    print(f"100 small beds: share of the most possible {np.mean(shares):.3f}, least {min(shares):.2f}")
    print(f"as many or more: {np.mean(np.array(shares) >= 1):.2f}; a crop fewer: {fewer}")
    for each in (8, 20, 50, 100, 200):
        wanted = [(crop, each, 3 + 3 * place) for place, crop in enumerate(CROPS)]
        took = invented_station.median_ms(lambda w=wanted: bed(480, 60, w), 3)
        reach = invented_station.median_ms(lambda w=wanted: bed(480, 96, w, CROPS[3:]), 3)
        print(f"{5 * each:>5} plants {took:8.1f} ms, {reach:8.1f} ms with crops picked daily, 8 ft wide", end=" ")
        print("(at most 1000 for 40, 2000 for 500)")


if __name__ == "__main__":
    main()
