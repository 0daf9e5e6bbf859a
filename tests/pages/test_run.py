"""Every page with the demo's class, with classes in six other climates, and alone in an empty folder."""

import importlib.util
import shutil
import sys
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

import nbformat
import pytest
import run_page

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "data_demo"
TODAY = "2027-02-20"
PAGES = {page.stem: page for page in sorted((ROOT / "notebooks").glob("0*.ipynb"))}
INSTRUCTOR = {page.stem: page for page in sorted((ROOT / "notebooks" / "instructor").glob("*.ipynb"))}
OTHERS = ("cold_short_season", "mild_coast", "warm_desert", "southern_hemisphere", "never_freezes", "mountain")
# The page that a climate changes most is run in all of them, the plan where it is turned round and where it never
# freezes; the results of every page in each, without a kernel, are looked at where classes are swapped
# (tests/class_folder/test_swap.py).
RUNS = [(name, place) for place in ("demo", "alone") for name in PAGES]
RUNS += [("01_site_and_zone", place) for place in OTHERS]
RUNS += [("07_season_plan", place) for place in ("southern_hemisphere", "never_freezes")]
RUNS += [(name, "alone") for name in INSTRUCTOR]  # they ask for no plot
# A choice that is answered by one sentence, without numbers.
ONE_SENTENCE = {"state"}
# How many things each page settles; page 04 settles one a crop.
ROWS = {
    "00_start_here": 3,
    "01_site_and_zone": 4,
    "02_soil": 4,
    "03_beds": 3,
    "04_sowing_calendar": 5,
    "05_pests": 11,
    "06_harvest_and_storage": 5,
    "07_season_plan": 3,
    "prepare_a_class": 4,
    "review_homework": 4,
}

_spec = importlib.util.spec_from_file_location("make_demo", DEMO / "make_demo.py")
make_demo = importlib.util.module_from_spec(_spec)
sys.modules["make_demo"] = make_demo
_spec.loader.exec_module(make_demo)


@pytest.fixture(scope="module")
def finished(tmp_path_factory):
    """Run all pages for all places in two worker processes; give the finished pages and their folders."""
    top = tmp_path_factory.mktemp("runs")
    classes = make_demo.other_sites(top / "classes")
    jobs = {}
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as workers:
        for name, place in RUNS:
            folder = top / place / name
            folder.mkdir(parents=True)
            parameters = {"today": TODAY}
            if place != "alone":
                shutil.copy(DEMO / "class_plot.json", folder / "my_plot.json")
            if place in classes:
                parameters["class_folder"] = str(classes[place])
            page = {**PAGES, **INSTRUCTOR}[name]
            jobs[place, name] = workers.submit(run_page.run_page, str(page), str(folder), parameters)
    return {key: (nbformat.read(job.result(), as_version=4), top / key[0] / key[1]) for key, job in jobs.items()}


def test_the_other_climates_are_the_ones_tried():
    """The six invented climates are those that the demo's script makes."""
    assert set(make_demo.OTHERS) == set(OTHERS)


@pytest.mark.parametrize(("name", "place"), RUNS)
def test_page_runs_and_settles_its_results(finished, name, place):
    """A page runs without error, prints nothing aside, logs no fault, and its last cell holds its results in words."""
    page, folder = finished[place, name]
    assert run_page.errors(page) == []
    assert [log.read_text() for log in folder.rglob("*.log")] == []
    rows = run_page.results(page)
    assert len(rows) == ROWS[name]
    for what, value in rows:
        assert what
        assert value
        assert not {"None", "nan", "NaT"} & set(value.split())
        assert "{" not in what + value


@pytest.mark.parametrize("name", PAGES)
def test_page_shows_every_panel_with_a_guess_stored(finished, name):
    """With the demo's plot, which holds a guess for every question, each panel shows more words than its title."""
    page, _ = finished["demo", name]
    silent = [
        cell.id
        for cell in page.cells
        if cell.cell_type == "code"
        and ".panel(session)" in cell.source
        and cell.id not in ONE_SENTENCE
        and "\n" not in "\n".join(run_page.said(cell))
    ]
    assert silent == []


def test_places_differ(finished):
    """The dates of page 01 are those of each place: no two of the seven climates settle the same."""
    settled = {place: tuple(run_page.results(finished[place, "01_site_and_zone"][0])) for place in ("demo", *OTHERS)}
    assert len(set(settled.values())) == len(settled)


def test_alone_takes_the_class_and_writes_nothing(finished):
    """Opened alone in an empty folder, a page takes the demo's class and leaves no plot file behind."""
    for name in (*PAGES, *INSTRUCTOR):
        _, folder = finished["alone", name]
        assert [path.name for path in folder.iterdir()] == ["finished.ipynb"]
