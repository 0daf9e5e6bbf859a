"""Pages are made in turn, and kernels that shall wait for somebody load while nobody waits for a page."""

import asyncio

import pytest
from jupyter_server.services.kernels.kernelmanager import AsyncMappingKernelManager

from gardenlib.serving import kernels as k
from gardenlib.serving.folders import Folders
from gardenlib.serving.seats import Seat, Seats
from gardenlib.serving.whose import WAITS

POOLED, FOR_ONE = {"env": {"VOILA_PREHEAT": "True"}}, {"env": {"VOILA_PREHEAT": "False"}}


class Started(k.Kernels):
    """Our kernels without processes: each is a name."""

    seats = None

    async def get_rendered_notebook(self, notebook_name):
        """Start one of the kernels that shall wait, as Voila's pool does, and give it away at once."""
        return None, [], await self.start_kernel(**POOLED)

    async def is_alive(self, _):
        """Say that it lives."""
        return True


@pytest.fixture
def started(tmp_path, monkeypatch):
    """Give kernels of a class that is laid out in a folder, one page at a time."""
    names = iter("abcdefgh")

    async def start(_, **__):
        return next(names)

    monkeypatch.setattr(AsyncMappingKernelManager, "start_kernel", start)
    monkeypatch.setattr(Started, "__contains__", lambda _, __: True)
    monkeypatch.setattr(k, "_AT_ONCE", 3)
    monkeypatch.setattr(k, "_BESIDE", 1)
    monkeypatch.setattr(k, "_PAGES_AT_ONCE", 1)
    monkeypatch.setattr(k, "_LOOK_S", 0.001)
    folders = Folders(tmp_path / "served")
    folders.make()
    monkeypatch.setattr(Started, "seats", Seats(folders))
    return folders


def _loaded(folders, *names):
    for name in names:
        (folders.seats / f"{name}{WAITS}").touch()


def _begun(folders):
    return sorted(path.name for path in folders.seats.iterdir() if not path.suffix)


async def _while(holds):
    async with asyncio.timeout(5):
        while holds():
            await asyncio.sleep(0.001)


def test_the_next_page_is_made_when_one_was_sent(started):
    """Of three learners who come at once each begins when the one before has the page, in the order they came."""

    async def come():
        kernels = Started()
        learners = [k.KernelsForOne(kernels, Seat(f"plot_{n}", "page")) for n in (1, 2, 3)]
        for one in learners:
            await one.start_kernel(**FOR_ONE)
        assert _begun(started) == []  # nobody has loaded yet
        _loaded(started, "a", "b", "c")
        seen = []
        for count, one in enumerate(learners, start=1):
            await _while(lambda count=count: len(_begun(started)) < count)
            seen.append(_begun(started))
            await asyncio.sleep(0.02)
            assert _begun(started) == seen[-1]
            one.sent()
        return seen

    assert asyncio.run(come()) == [["a"], ["a", "b"], ["a", "b", "c"]]


def test_a_phone_that_takes_no_page_keeps_nobody_waiting(started, monkeypatch):
    """A turn ends after a while, whether the page was taken or not."""
    monkeypatch.setattr(k, "_LONGEST_TURN_S", 0.05)

    async def come():
        kernels = Started()
        for n in (1, 2):
            await k.KernelsForOne(kernels, Seat(f"plot_{n}", "page")).start_kernel(**FOR_ONE)
        _loaded(started, "a", "b")
        await _while(lambda: len(_begun(started)) < 2)

    asyncio.run(come())


def test_spare_kernels_let_a_page_be_made_first_and_come_one_by_one(started):
    """Beside a class at work a kernel that shall wait starts when no page is being made and no other one loads."""

    async def come():
        kernels, names = Started(), []
        learner = k.KernelsForOne(kernels, Seat("plot_1", "page"))
        names.append(await learner.start_kernel(**FOR_ONE))
        _loaded(started, "a")
        await _while(lambda: _begun(started) != ["a"])

        async def spare():
            names.append(await kernels.start_kernel(**POOLED))

        waiting = [asyncio.create_task(spare()) for _ in range(2)]
        await asyncio.sleep(0.03)
        assert names == ["a"]
        learner.sent()
        await _while(lambda: len(names) < 2)
        await asyncio.sleep(0.03)
        assert names == ["a", "b"]
        _loaded(started, "b")
        await asyncio.wait(waiting, timeout=5)
        assert names == ["a", "b", "c"]
        _loaded(started, "c")

    asyncio.run(come())


def test_a_kernel_that_somebody_asks_for_starts_at_once(started):
    """A learner for whom none waits any more does not wait until the others' pages are made."""

    async def come():
        kernels = Started()
        await k.KernelsForOne(kernels, Seat("plot_1", "page")).start_kernel(**FOR_ONE)
        _loaded(started, "a")
        await _while(lambda: _begun(started) != ["a"])
        taken = k.KernelsForOne(kernels, Seat("plot_2", "page")).get_rendered_notebook("page.ipynb")
        return (await asyncio.wait_for(taken, 5))[2]

    assert asyncio.run(come()) == "b"


def test_before_the_class_kernels_start_together(started):
    """While nobody is in, as many kernels load at once as shall; the next begins when one has loaded."""

    async def start():
        kernels = Started()
        tasks = [asyncio.create_task(kernels.start_kernel(**POOLED)) for _ in range(4)]
        await asyncio.sleep(0.05)
        done = sum(task.done() for task in tasks)
        _loaded(started, "b")
        await asyncio.wait(tasks, timeout=5)
        _loaded(started, "a", "c", "d")
        return done, sum(task.done() for task in tasks)

    assert asyncio.run(start()) == (3, 4)
