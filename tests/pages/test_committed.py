"""The pages as they are committed: their skeleton, their small files, and the words they store."""

import importlib.util
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import nbformat
import pytest

ROOT = Path(__file__).resolve().parents[2]
PAGES = sorted((ROOT / "notebooks").rglob("*.ipynb"))
_spec = importlib.util.spec_from_file_location("strip_pages", ROOT / ".ci" / "strip_pages.py")
strip_pages = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(strip_pages)

PARAMETERS = ["class_folder", "plot_file", "today"]
INSTRUCTOR = ROOT / "notebooks" / "instructor"
PARTS = (r"^# ", r"\d+ minutes", "able to", r"\*\*Bring\*\*", "## Key points")
LEARNERS_PARTS = ("## Check yourself", "## Sources")
by_page = pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)


def _code_cells(page):
    return [cell for cell in nbformat.read(page, as_version=4).cells if cell.cell_type == "code"]


@by_page
def test_page_is_stripped(page):
    """A committed page holds cell ids, text-only outputs and counts from 1, in one layout of the file."""
    text = page.read_text("utf-8")
    assert strip_pages.stripped(nbformat.reads(text, as_version=4), page.name) == text


@by_page
def test_page_has_the_skeleton(page):
    """First the parameters, all left open, then the session; last the results; cells only call the library."""
    cells = _code_cells(page)
    for_instructors = page.parent == INSTRUCTOR  # who has no plot of one's own
    parameters = [name for name in PARAMETERS if not (for_instructors and name == "plot_file")]
    assert "parameters" in cells[0].metadata.tags
    assert sorted(re.findall(r"[a-z_]{4,}(?=[ ,=])", cells[0].source.split("\n", 1)[1])) == parameters
    assert cells[0].source.count("None") == len(parameters)
    opened = "desk = classroom.open_desk" if for_instructors else "session = panels.open_page"
    assert f'{opened}("{page.stem}"' in cells[1].source
    assert (".results()" if for_instructors else "panels.results(session") in cells[-1].source
    for cell in cells:
        lines = [line for line in cell.source.splitlines() if not line.startswith("#")]
        assert cell.source.startswith("# ")  # what a reader sees of the folded cell
        assert len(lines) <= 3
        assert not re.search(r"^\s*(def|class|for|if|while|lambda)\b", "\n".join(lines), re.MULTILINE)
        assert cell.metadata.jupyter.source_hidden


@by_page
def test_page_tells_a_reader_what_to_expect(page):
    """A page names its minutes and its goals, what to bring and the key points; for learners also check and sources."""
    text = "\n".join(cell.source for cell in nbformat.read(page, as_version=4).cells if cell.cell_type == "markdown")
    for part in PARTS if page.parent == INSTRUCTOR else (*PARTS, *LEARNERS_PARTS):
        assert re.search(part, text, re.MULTILINE), part


def test_the_instructors_pages_are_among_them():
    """What holds for each page is asked of the instructor's pages too."""
    assert {page.stem for page in PAGES if page.parent == INSTRUCTOR} == {"prepare_a_class", "review_homework"}


def test_stored_words_still_hold(tmp_path):
    """Each page, run with the demo's plot on the day of the stored words, says what it said (nbval, strict)."""
    for page in PAGES:
        folder = tmp_path / page.stem
        folder.mkdir()
        nbformat.write(strip_pages.prepared(nbformat.read(page, as_version=4), folder), folder / page.name)
    shutil.copy(ROOT / "conftest.py", tmp_path)
    done = _nbval(tmp_path)
    assert done.returncode == 0, done.stdout[-4000:]


def test_a_changed_word_is_noticed(tmp_path):
    """A page whose stored result differs by one word fails the comparison."""
    page = nbformat.read(next(page for page in PAGES if page.stem.startswith("00")), as_version=4)
    last = [cell for cell in page.cells if cell.cell_type == "code"][-1]
    last.outputs[-1].data["text/plain"] += " and more"
    nbformat.write(strip_pages.prepared(page, tmp_path), tmp_path / "changed.ipynb")
    shutil.copy(ROOT / "conftest.py", tmp_path)
    done = _nbval(tmp_path)
    assert done.returncode == 1
    assert re.search(r"^1 failed, \d+ passed", done.stdout, re.MULTILINE)


def _nbval(folder):
    # Kernels over named sockets; no cache; the project's strict settings do not reach into the copy.
    command = [sys.executable, "-m", "pytest", "--nbval", "-q", "-p", "no:cacheprovider", "-c", os.devnull]
    command += ["--rootdir", str(folder), str(folder)]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
