"""Opening pages without a server: kernels that are pretended."""

import asyncio
from datetime import date

import pytest

from gardenlib.problems import InputProblem
from gardenlib.serving.ask_open import OpenPages, on_pages
from gardenlib.serving.folders import Folders
from gardenlib.serving.pages import pages_for_learners
from gardenlib.serving.seats import Seat
from gardenlib.words import Voice

FIRST, NEXT, OTHER = "00_start_here", "03_beds", "02_soil"
DAY = date(2027, 3, 6)


class Kernels:
    """Kernels that start and load when told to; also their own seats."""

    def __init__(self, **sizes):
        self.kernel_pools_config = {f"{name}.ipynb": {"pool_size": size} for name, size in sizes.items()}
        self._pools, self.loaded, self.ended, self.given, self.dead = {}, set(), [], {}, set()
        self.seats = self

    def fill_if_needed(self, *, delay, notebook_name):
        """Start what is missing."""
        pool = self._pools.setdefault(notebook_name, [])
        while len(pool) < self.kernel_pools_config[notebook_name]["pool_size"]:
            started = asyncio.get_running_loop().create_future()
            started.set_result({"kernel_id": f"{notebook_name}{len(pool)}"})
            pool.append(started)

    async def shutdown_kernel(self, kernel_id, *, now):
        """End one that waits."""
        self.ended.append(kernel_id)
        for name, pool in self._pools.items():
            self._pools[name] = [task for task in pool if task.result()["kernel_id"] != kernel_id]

    def waits(self, kernel_id):
        """Tell whether it has loaded."""
        return kernel_id in self.loaded

    def __contains__(self, kernel_id):
        return kernel_id in self.given

    def is_alive(self, kernel_id):
        """Tell whether it lives."""
        return kernel_id not in self.dead


def _pages(home, *, ready=2, today=DAY):
    folders = Folders(home)
    folders.make()
    return OpenPages(folders, pages_for_learners(), [FIRST], now=FIRST, today=today, most_ready=ready, voice=Voice())


async def _settle():
    await asyncio.sleep(0.3)


def test_link_shows_when_all_kernels_wait(tmp_path):
    """The page stays closed while one of its kernels still loads; then it is the page for now and the other shrinks."""

    async def steps():
        opened, kernels = _pages(tmp_path), Kernels(**{FIRST: 2})
        kernels.fill_if_needed(delay=0, notebook_name=f"{FIRST}.ipynb")
        opened.open(NEXT, kernels)
        kernels.loaded = {f"{NEXT}.ipynb0"}
        await _settle()
        assert NEXT not in opened
        found = opened.filling(NEXT, kernels)
        assert (found.done, found.wanted) == (1, 2)
        assert (tmp_path / "pages" / f"{NEXT}.ipynb").exists()
        kernels.loaded.add(f"{NEXT}.ipynb1")
        await _settle()
        assert [page.name for page in opened.pages] == [NEXT, FIRST]
        assert opened.filling(NEXT, kernels) is None
        assert opened.ready == {NEXT: 2, FIRST: 1}
        assert kernels.ended == [f"{FIRST}.ipynb1"]

    asyncio.run(steps())


def test_as_many_wait_as_have_come_in(tmp_path):
    """Five learners are in, so five kernels are started where thirty might be."""

    async def steps():
        opened, kernels = _pages(tmp_path, ready=30), Kernels()
        opened.came.update("abcde")
        opened.open(NEXT, kernels)
        assert opened.filling(NEXT, kernels).wanted == 5
        assert opened.ready[NEXT] == 5

    asyncio.run(steps())


def test_asked_again_a_page_is_shown_at_once(tmp_path):
    """Who does not want to wait asks twice; the page opened last is the page for now."""

    async def steps():
        opened, kernels = _pages(tmp_path), Kernels()
        opened.open(OTHER, kernels)
        opened.open(NEXT, kernels)
        opened.open(NEXT, kernels)
        assert opened.now == NEXT
        kernels.loaded = {f"{OTHER}.ipynb0", f"{OTHER}.ipynb1"}
        await _settle()
        assert [page.name for page in opened.pages] == [NEXT, FIRST, OTHER]
        assert opened.ready[OTHER] == 1

    asyncio.run(steps())


def test_opened_pages_survive_a_restart_and_now_lasts_a_day(tmp_path):
    """After a restart the page is open and for now; on another day it is open, and the day's own page is for now."""

    async def steps():
        opened, kernels = _pages(tmp_path, ready=0), Kernels()
        opened.open(NEXT, kernels)
        await _settle()

    asyncio.run(steps())
    assert [page.name for page in _pages(tmp_path).pages] == [NEXT, FIRST]
    assert (tmp_path / "pages" / f"{NEXT}.ipynb").exists()
    later = _pages(tmp_path, today=date(2027, 3, 13))
    assert [page.name for page in later.pages] == [FIRST, NEXT]


@pytest.mark.parametrize("text", ["{", "[]", '{"pages": 3, "now": "", "day": ""}'])
def test_a_damaged_list_of_pages_is_named(tmp_path, text):
    """The class is not opened on a list that cannot be read."""
    (tmp_path / "opened.json").write_text(text, "utf-8")
    with pytest.raises(InputProblem) as told:
        _pages(tmp_path)
    assert told.value.key == "problem.serving.kept"


def test_learners_count_once_where_they_went_last():
    """A learner with two pages counts at the later one; one whose kernel died does not count."""
    kernels = Kernels()
    kernels.given = {
        "1": Seat("plot_01", FIRST),
        "2": Seat("plot_02", FIRST),
        "3": Seat("plot_01", NEXT),
        "4": Seat("plot_03", NEXT),
    }
    kernels.dead = {"4"}
    assert asyncio.run(on_pages(kernels)) == {FIRST: 1, NEXT: 1}
