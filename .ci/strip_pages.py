"""Keep the committed pages small and steady: cell ids, text-only outputs, one layout of the file.

Usage: strip_pages.py            strip the pages in place
       strip_pages.py --check    say which pages are not stripped, and exit 1
       strip_pages.py --run      run the pages with the demo class, store what they say, strip
"""

from __future__ import annotations

import argparse
import itertools
import shutil
import sys
import tempfile
from pathlib import Path
from typing import Any

import nbformat

ROOT = Path(__file__).resolve().parent.parent
PAGES = ROOT / "notebooks"
DEMO_PLOT = ROOT / "data_demo" / "class_plot.json"
# The day on which the stored words hold; a page that is opened takes the day it is.
TODAY = "2027-02-20"
KERNEL = {
    "kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
}
CELL_METADATA = ("editable", "jupyter", "tags")


def stripped(page: nbformat.NotebookNode, name: str) -> str:
    """Give the page's file as it is committed.

    Cells are counted from 1, since a cell that was never counted is not compared.  A printed line, an error or
    a drawing without words is refused: a page shows sentences and tables.
    """
    page = nbformat.from_dict(page)
    page.metadata = nbformat.from_dict(KERNEL)
    page.nbformat, page.nbformat_minor = 4, 5
    ids = [cell.get("id") for cell in page.cells]
    if None in ids or len(set(ids)) != len(ids):
        raise SystemExit(f"{name}: every cell needs an id of its own")
    counted = itertools.count(1)
    for cell in page.cells:
        cell.metadata = nbformat.from_dict({key: cell.metadata[key] for key in CELL_METADATA if key in cell.metadata})
        if cell.cell_type == "code":
            cell.execution_count = next(counted)
            cell.outputs = [_text_only(output, f"{name}, cell {cell.id}") for output in cell.outputs]
    nbformat.validate(page)
    return nbformat.writes(page) + "\n"


def _text_only(output: nbformat.NotebookNode, where: str) -> nbformat.NotebookNode:
    if output.output_type not in {"display_data", "execute_result"} or "text/plain" not in output.data:
        raise SystemExit(f"{where}: a page shows only words and tables, but this output is {output.output_type}")
    kept: dict[str, Any] = {
        "output_type": output.output_type,
        "data": {"text/plain": output.data["text/plain"]},
        "metadata": {},
    }
    if output.output_type == "execute_result":
        kept["execution_count"] = None
    return nbformat.from_dict(kept)


def prepared(page: nbformat.NotebookNode, folder: Path) -> nbformat.NotebookNode:
    """Make a copy of the page for one day and put the demo's plot file beside it."""
    page = nbformat.from_dict(page)
    for cell in page.cells:
        if "parameters" in cell.metadata.get("tags", []):
            cell.source += f'\ntoday = "{TODAY}"'
    shutil.copy(DEMO_PLOT, folder / "my_plot.json")
    return page


def run(page: nbformat.NotebookNode) -> None:
    """Run a copy of the page with the demo's plot and class, and take over what its cells show."""
    from nbclient import NotebookClient

    with tempfile.TemporaryDirectory() as folder:
        copy = prepared(page, Path(folder))
        NotebookClient(copy, timeout=120, kernel_name="python3", resources={"metadata": {"path": folder}}).execute()
    for cell, done in zip(page.cells, copy.cells, strict=True):
        if cell.cell_type == "code":
            cell.outputs = done.outputs


def main(arguments: list[str]) -> int:
    """Strip, check or run all pages."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true", help="change nothing; exit 1 if a page is not stripped")
    parser.add_argument("--run", action="store_true", help="run the pages first")
    parser.add_argument("pages", nargs="*", type=Path, help="pages; all of notebooks/ when none is named")
    chosen = parser.parse_args(arguments)
    changed = []
    for path in chosen.pages or sorted(PAGES.rglob("*.ipynb")):
        before = path.read_text("utf-8")
        page = nbformat.reads(before, as_version=4)
        if chosen.run:
            run(page)
        after = stripped(page, path.name)
        if after != before:
            changed.append(path.name)
            if not chosen.check:
                path.write_text(after, "utf-8")
    if changed:
        print(", ".join(changed), "not stripped: run .ci/strip_pages.py" if chosen.check else "written")
    return int(bool(changed) and chosen.check)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
