"""What naming texture classes costs, and how the cost grows with the number of mixes.

Run: ``python tests/benchmarks/bench_texture.py``.  Never part of the tests.
"""

import invented_station
import numpy as np

from gardenlib import charts, soil
from gardenlib.charts.triangle import OUTLINES, texture_triangle

RUNS = 5
LIMIT_MS = 1000


def main():
    """Print one line a number of mixes, then one for a jar's answer and one for its picture."""
    print(f"median of {RUNS}, milliseconds; a million mixes must take at most {LIMIT_MS}")
    for count in (1, 1000, 10_000, 100_000, 1_000_000):
        mixes = np.random.default_rng(1).dirichlet([1, 1, 1], count).T * 100
        print(f"{count:>9} mixes {invented_station.median_ms(lambda m=mixes: soil.texture_classes(*m), RUNS):8.2f}")
    jar = soil.jar_texture((45, 66, 75), given="marks")
    mix = (jar.sand_pct, jar.silt_pct, jar.clay_pct)
    names, parts = {name: name for name in OUTLINES}, {part: part for part in ("sand", "silt", "clay")}
    answer = invented_station.median_ms(lambda: soil.jar_texture((45, 66, 75), given="marks"), RUNS)
    look = {"chosen": jar.texture, "near": jar.neighbours, "point": mix, "corners": jar.corners}
    picture = invented_station.median_ms(lambda: charts.svg(texture_triangle(names, parts, **look)), RUNS)
    print(f"a jar's answer  {answer:8.2f}\nits picture     {picture:8.2f}")


if __name__ == "__main__":
    main()
