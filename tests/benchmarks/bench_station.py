"""How long ``gardenlib station FILE`` takes, beside a bare ``pandas.read_csv(FILE)``; a plain script, not a test.

Run ``python tests/benchmarks/bench_station.py``.  It writes invented daily-summaries files of 1 to 150 years, runs both
sides turn by turn as whole processes and prints their medians, their ratio and the growth with years; then what
importing the library adds to importing pandas.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np
import pandas as pd

YEARS = (1, 10, 30, 90, 150)
RUNS = 9
ENV = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}


def write(path: Path, years: int) -> None:
    """Write an invented record in the form of daily summaries, whole degrees Fahrenheit."""
    days = pd.date_range("1870-01-01", periods=round(years * 365.25))
    rng = np.random.default_rng(1)
    low = np.rint(45 - 25 * np.cos(2 * np.pi * (days.day_of_year - 20) / 365) + rng.normal(0, 7, len(days)))
    high = low + np.rint(np.abs(rng.normal(20, 5, len(days))))
    with path.open("w") as file:
        file.write('"STATION","NAME","LATITUDE","LONGITUDE","ELEVATION","DATE","PRCP","TMAX","TMIN"\n')
        for day, one, two in zip(days.strftime("%Y-%m-%d"), low.astype(int), high.astype(int), strict=True):
            file.write(f'"USC00999999","INVENTED, XX US","41.1","-96.1","300.0","{day}","0.00","{two}","{one}"\n')


def seconds(*words: str) -> float:
    """Time one whole process."""
    start = time.perf_counter()
    subprocess.run([sys.executable, *words], env=ENV, stdout=subprocess.DEVNULL, check=True)
    return time.perf_counter() - start


def beside(one: tuple[str, ...], two: tuple[str, ...]) -> tuple[float, float]:
    """Give the medians of two commands that are run turn by turn, after one run of each to warm up."""
    times = [(seconds(*one), seconds(*two)) for _ in range(RUNS + 1)][1:]
    return statistics.median(t for t, _ in times), statistics.median(t for _, t in times)


def main() -> None:
    """Print both sides for each length of record, and the imports."""
    print(f"{'years':>5} {'MB':>5} {'read_csv s':>11} {'station s':>10} {'ratio':>6}")
    with tempfile.TemporaryDirectory() as folder:
        for years in YEARS:
            path = Path(folder) / f"{years}.csv"
            write(path, years)
            bare, ours = beside(
                ("-c", f"import pandas; pandas.read_csv({str(path)!r})"),
                ("-m", "gardenlib.cli", "station", str(path)),
            )
            print(
                f"{years:5} {path.stat().st_size / 1e6:5.1f} {bare:11.3f} {ours:10.3f} {ours / bare:6.2f}", flush=True
            )
    for name in ("gardenlib", "gardenlib.site"):
        bare, ours = beside(("-c", "import pandas"), ("-c", f"import pandas, {name}"))
        print(f"import pandas {bare:.3f} s; with {name} {ours:.3f} s; added {ours - bare:.3f} s")


if __name__ == "__main__":
    main()
