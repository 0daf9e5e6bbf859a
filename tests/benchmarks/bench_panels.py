"""How long each panel takes to answer a change, without a browser.

Run: ``python tests/benchmarks/bench_panels.py [PAGE]``, such as ``02``.  Never part of the tests.
"""

import importlib
import pkgutil
import shutil
import sys
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

import invented_station
import IPython.display

from gardenlib import panels
from gardenlib.carried import carried
from gardenlib.panels.panel import Panel, Spec

RUNS, LIMIT_MS = 7, 100


def specs(page):
    """Give each panel of a page, or of all."""
    for found in pkgutil.walk_packages(panels.__path__, "gardenlib.panels."):
        for value in vars(importlib.import_module(found.name)).values():
            if isinstance(value, Spec) and value.id.startswith(page):
                yield value


def main():
    """Print one line a panel."""
    IPython.display.display = lambda *_, **__: None
    page = sys.argv[1] if len(sys.argv) > 1 else ""
    print(f"median of {RUNS}, milliseconds; a change must answer within {LIMIT_MS}")
    with TemporaryDirectory() as scratch:
        path = Path(scratch) / "my_plot.json"
        shutil.copy(carried("data_demo") / "class_plot.json", path)
        session = panels.Session("bench", path, carried("data_demo"), date(2027, 2, 20))
        for spec in sorted({spec.id: spec for spec in specs(page)}.values(), key=lambda spec: spec.id):
            panel = Panel(session, spec)
            took = invented_station.median_ms(panel.redraw, RUNS)
            print(f"{spec.id:<20} {took:7.1f} {'  OVER' if took > LIMIT_MS else ''}")


if __name__ == "__main__":
    main()
