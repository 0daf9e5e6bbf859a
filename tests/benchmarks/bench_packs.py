"""How long packs with keys take beside the bare Typst engine on the same pages, in one run; with the peak memory.

Run `python tests/benchmarks/bench_packs.py 30 300`: one class of each size.
"""

import resource
import shutil
import sys
import tempfile
import time
from datetime import date
from pathlib import Path

import typst

from gardenlib.classroom import pack

DEMO = Path(__file__).resolve().parents[2] / "data_demo"


def timed(many):
    """Print a class of so many learners; give the seconds of the whole and of the engine within it."""
    spent, bare = [], typst.compile

    def engine(*args, **form):
        start = time.perf_counter()
        try:
            return bare(*args, **form)
        finally:
            spent.append(time.perf_counter() - start)

    with tempfile.TemporaryDirectory() as scratch:
        klass = Path(shutil.copytree(DEMO, Path(scratch) / "class"))
        rows = "".join(f"L{number},Invented {number},en,\n" for number in range(many))
        (klass / "learners.csv").write_text("id,display_name,language,plot\n" + rows, "utf-8")
        typst.compile = engine
        start = time.perf_counter()
        try:
            pack(klass, Path(scratch) / "out", today=date(2027, 2, 1), session=2)
        finally:
            typst.compile = bare
        return time.perf_counter() - start, sum(spent)


for many in map(int, sys.argv[1:] or ("30", "300")):
    whole, engine_alone = timed(many)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    share = f"engine alone {engine_alone:.1f} s ({engine_alone / whole:.2f} of the whole)"
    print(f"{many} packs with keys: {whole:.1f} s; {share}; peak {peak:.0f} MB")
