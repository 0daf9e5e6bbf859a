"""How long packs with keys take beside the bare Typst engine on the same pages, in one run; with the peak memory.

Run `python tests/benchmarks/bench_packs.py class:30 class:1000 plot:30 pair:30`: one class of each kind and size.
Each class is printed in a process of its own.  Every page that was written is then set once more by the engine
alone; the rest of the time is choosing, setting, proving and trying whether questions fit.
"""

import os
import pickle
import resource
import shutil
import sys
import tempfile
import time
from concurrent.futures import ProcessPoolExecutor
from datetime import date
from multiprocessing import get_context
from pathlib import Path

import typst

from gardenlib.classroom import pack
from gardenlib.sheets.printing import typefaces

DEMO = Path(__file__).resolve().parents[2] / "data_demo"
SHARE = 0.8  # of the whole that the engine alone shall take at least, for a thousand sheets


def invented_class(home, many):
    """Make a class of so many learners in two languages, each with a plot of its own size."""
    klass = Path(shutil.copytree(DEMO, home / "class"))
    head, shared = (klass / "plots.csv").read_text("utf-8").splitlines()[:2]
    plots = [f"plot-{n},Pellowby Hollow,{10 + n % 12},{3 + n % 5},8,tap,ground,2,no,,,,," for n in range(many)]
    (klass / "plots.csv").write_text("\n".join([head, shared, *plots, ""]), "utf-8")
    rows = [f"L{n},Invented {n},{'es' if n % 4 == 3 else 'en'},plot-{n}\n" for n in range(many)]
    (klass / "learners.csv").write_text("id,display_name,language,plot\n" + "".join(rows), "utf-8")
    return klass


def timed(kind, many):
    """Print a class; give the seconds of the whole, those of the engine alone on what was written, and the peak."""
    bare, written = typst.compile, 0
    with tempfile.TemporaryDirectory() as scratch, (Path(scratch) / "asked").open("w+b") as asked:

        def engine(*args, **form):
            pickle.dump((args, {name: value for name, value in form.items() if name != "font_paths"}), asked)
            return bare(*args, **form)

        klass, out = invented_class(Path(scratch), many), Path(scratch) / "out"
        typst.compile = engine
        start = time.perf_counter()
        pack(klass, out, today=date(2027, 2, 1), session=2, kind=kind)
        whole = time.perf_counter() - start
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        wanted = {path.read_bytes() for path in out.rglob("*.pdf")}
        asked.seek(0)
        alone = 0.0
        while wanted:
            args, form = pickle.load(asked)  # noqa: S301 - our own file of a moment ago
            start = time.perf_counter()
            made = bare(*args, font_paths=typefaces(), **form)
            spent = time.perf_counter() - start
            if made in wanted:  # not one of the trials
                wanted.remove(made)
                alone, written = alone + spent, written + 1
    return whole, alone, written, peak


if __name__ == "__main__":
    for named in sys.argv[1:] or ("class:30", "class:300", "plot:30", "pair:30"):
        kind, _, many = named.partition(":")
        with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as process:
            whole, alone, written, peak = process.submit(timed, kind, int(many)).result()
        load, share = os.getloadavg()[0], alone / whole
        print(f"{kind}, {many} learners: {whole:.1f} s for {written} files, keys too; the engine alone {alone:.1f} s")
        print(f"  engine alone / whole {share:.2f} (1,000 class sheets: {SHARE}); peak {peak:.0f} MB; load {load:.1f}")
