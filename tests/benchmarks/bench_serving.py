"""A class at a served page: how long learners wait, what it takes of memory, and whether anything is lost.

Run as ``python tests/benchmarks/bench_serving.py --learners 30 --minutes 2``, or with ``--minutes 10 --leave`` for
learners who leave (hanging up without a word, or closing the page, or with their kernel killed) and come back.
Each learner comes in through the door with a code, opens the page, and moves one control about every three seconds;
measured is the time from the value to the picture that belongs to it.  The same learners then do the same at a bare
Voila page with one slider and one HTML.  Learners, server and kernels share this computer's processors; the drawing
on a phone's own screen is not in the times.  Everything stays on 127.0.0.1.  Never part of the tests.
"""

from __future__ import annotations

import argparse
import asyncio
import os
import random
import socket
import subprocess
import sys
import time
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory

import nbformat
import psutil

sys.path.insert(0, str(Path(__file__).parents[1] / "serving"))
from serving_harness import KERNEL, Class, Phone, free_port, kernel_process, served
from serving_visit import Gone, Visit

LIMIT_MS, LIMIT_GB, GROWTH = 300, 8.0, 1.15
PAUSE_S, LOOK_S, LEAVES, PATIENCE_S = 3.0, 10.0, 0.05, 120
MOST_LEARNERS, MOST_MINUTES = 60, 30
BARE = """
import ipywidgets
slider = ipywidgets.IntSlider(value=3, min=0, max=50)
picture = ipywidgets.HTML("<p>3</p>")
slider.observe(lambda change: setattr(picture, "value", f"<p>{change.new}</p>"), "value")
ipywidgets.VBox([ipywidgets.VBox([slider]), ipywidgets.HTML(), picture]).add_class("gl-panel")
"""


@dataclass
class Measured:
    """What one side gave."""

    ready_s: list[float] = field(default_factory=list)
    waits_ms: list[float] = field(default_factory=list)
    memory: list[tuple[float, int, float, float, float]] = field(default_factory=list)
    left: Counter = field(default_factory=Counter)
    trouble: list[str] = field(default_factory=list)
    lost: list[str] = field(default_factory=list)


class Learner:
    """One learner with a phone; `kept` is the last number that the page acknowledged, `sent` the last that was sent."""

    def __init__(self, number: int, phone: Phone, page: str, measured: Measured) -> None:
        self.number, self.phone, self.page, self.measured = number, phone, page, measured
        self.kept = self.sent = 0
        self.may_stand: set[int] = set()
        self.rolled = random.Random(number)  # noqa: S311  the same class in each run

    async def stay(self, until: float, *, leaves: bool) -> None:
        """Be in class; whatever goes astray is written down, and the learner comes back."""
        while time.monotonic() < until:
            try:
                await self._visit(until, leaves=leaves)
            except (Gone, OSError, TimeoutError, TypeError) as trouble:  # a page without a kernel gives a TypeError
                self.measured.trouble.append(f"learner {self.number}: {trouble!r}")
                await asyncio.sleep(1)

    async def _visit(self, until: float, *, leaves: bool) -> None:
        began = time.monotonic()
        await asyncio.to_thread(self.phone.open, self.page)
        visit = await Visit.begin(self.phone)
        self.measured.ready_s.append(time.monotonic() - began)
        try:
            await visit.uncover()
            if (shown := visit.number) is not None and not self.kept <= shown <= self.sent:
                self.measured.lost.append(f"learner {self.number} sees {shown}, kept {self.kept}")
            while time.monotonic() < until:
                value = visit.another(self.rolled)
                self.may_stand.add(value)
                self.measured.waits_ms.append(1000 * await visit.move(value))
                self.may_stand = {value}
                await asyncio.sleep(PAUSE_S * self.rolled.uniform(0.5, 1.5))
                if leaves and self.rolled.random() < LEAVES and until - time.monotonic() > PAUSE_S:
                    await self._keep(visit)
                    await self._leave(visit)
                    return
            await self._keep(visit)
        finally:
            await visit.close()

    async def _keep(self, visit: Visit) -> None:
        if visit.number is not None:
            self.sent += 1
            await visit.keep(self.sent)
            self.kept = self.sent

    async def _leave(self, visit: Visit) -> None:
        way = self.rolled.choice(("hung up", "closed the page", "kernel killed", "hung up while saving"))
        self.measured.left[way] += 1
        if way == "hung up while saving" and visit.number is not None:
            self.sent += 1
            await visit.send_number(self.sent)
        if way.startswith("hung up"):
            visit.hang_up()
        elif way == "closed the page":
            await asyncio.to_thread(self.phone.ask, "POST", f"/voila/api/shutdown/{self.phone.kernel}", "")
        else:
            with suppress(psutil.Error, LookupError):  # ended already
                kernel_process(self.phone.klass.server.pid, self.phone.kernel).kill()
        await asyncio.sleep(self.rolled.uniform(1, 8))


def _tree(pid: int) -> list[psutil.Process]:
    server = psutil.Process(pid)
    return [server, *server.children(recursive=True)]


def _memory(pid: int, began: float) -> tuple[float, int, float, float, float]:
    """Give seconds since the beginning, number of kernels, and RSS, USS and PSS in GB."""
    found = []
    for process in _tree(pid):
        with suppress(psutil.Error):
            found.append(process.memory_full_info())
    sums = (sum(getattr(one, name) for one in found) / 1e9 for name in ("rss", "uss", "pss"))
    return (time.monotonic() - began, len(_kernels(pid)), *sums)


def _kernels(pid: int) -> list[psutil.Process]:
    """Give the kernels: what is below the server, or below the process that they are copies of."""
    server = psutil.Process(pid)
    return [one for child in server.children() for one in child.children()] or server.children()


def _settle(pid: int, longest_s: float = 300.0) -> float:
    """Wait until the kernels that wait have loaded, told by their processors' time; say how long it took."""
    began, busy = time.monotonic(), True
    while busy and time.monotonic() - began < longest_s:
        before = _worked(pid)
        time.sleep(3)
        busy = _worked(pid) - before > 0.6
    return time.monotonic() - began


def _worked(pid: int) -> float:
    total = 0.0
    for process in _tree(pid):
        with suppress(psutil.Error):
            times = process.cpu_times()
            total += times.user + times.system
    return total


async def _class(klass: Class, learners: list[Learner], measured: Measured, asked: argparse.Namespace) -> None:
    asyncio.get_running_loop().set_default_executor(ThreadPoolExecutor(len(learners) + 4))
    began = time.monotonic()
    until = began + asked.arrive + 60 * asked.minutes

    async def arrive(learner: Learner) -> None:
        await asyncio.sleep(learner.rolled.uniform(0, asked.arrive))
        await learner.stay(until, leaves=asked.leave)

    async def watch() -> None:
        while True:
            measured.memory.append(await asyncio.to_thread(_memory, klass.server.pid, began))
            await asyncio.sleep(LOOK_S)

    watching = asyncio.create_task(watch())
    await asyncio.wait_for(asyncio.gather(*map(arrive, learners)), 60 * asked.minutes + asked.arrive + 180)
    watching.cancel()
    measured.memory.append(_memory(klass.server.pid, began))


def _our_side(home: Path, asked: argparse.Namespace) -> Measured:
    measured, count = Measured(), asked.learners
    options = ("--places", str(count), "--ready", str(count))
    with served(home, *options, pages=(asked.page,)) as klass:
        print(f"{asked.page}: kernels loaded after {_settle(klass.server.pid):.0f} s", flush=True)
        learners = []
        for number, code in enumerate(klass.codes[:count], start=1):
            phone = Phone(klass)
            phone.patience_s = PATIENCE_S
            if phone.join(code).status != 303:
                raise RuntimeError(f"learner {number} was not let in")
            learners.append(Learner(number, phone, asked.page, measured))
        asyncio.run(_class(klass, learners, measured, asked))
        from gardenlib import plot

        for learner in learners:
            file = klass.plot(learner.number)
            saved = plot.read(file) if file.exists() else plot.empty()
            kept = saved.site.tap_steps or 0
            left = [one["controls"] for one in saved.answers.values() if isinstance(one, dict) and "controls" in one]
            if not learner.kept <= kept <= learner.sent:
                measured.lost.append(f"plot {learner.number} holds {kept}, kept was {learner.kept}")
            if not any(learner.may_stand & set(controls.values()) for controls in left):
                measured.lost.append(f"plot {learner.number} does not hold {learner.may_stand}")
    return measured


class BarePhone(Phone):
    """A phone at plain Voila, which has no door."""

    def open(self, page: str = ""):
        """Open the one page."""
        answer = self.get("/")
        self.kernel = KERNEL.search(answer.text)[1]
        return answer


@contextmanager
def _bare_class(home: Path, count: int):
    book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(BARE.strip())])
    book.metadata.kernelspec = {"name": "python3", "display_name": "Python 3", "language": "python"}
    nbformat.write(book, home / "bare.ipynb")
    klass = Class(home, free_port())
    command = [sys.executable, "-m", "voila", "bare.ipynb", f"--port={klass.port}", "--no-browser"]
    command += ["--preheat_kernel=True", f"--pool_size={count}", "--Voila.log_level=ERROR"]
    with (home / "bare.log").open("wb") as log:
        klass.server = subprocess.Popen(command, stdout=log, stderr=log, cwd=home)
        try:
            _wait_for_port(klass.port)
            yield klass
        finally:
            for process in reversed(_tree(klass.server.pid)):
                process.kill()
            klass.server.wait(10)


def _wait_for_port(port: int, longest_s: float = 120.0) -> None:
    until = time.monotonic() + longest_s
    while time.monotonic() < until:
        with suppress(OSError), socket.create_connection(("127.0.0.1", port), 5):
            return
        time.sleep(0.2)
    raise RuntimeError("plain Voila did not start")


def _bare_side(home: Path, asked: argparse.Namespace) -> Measured:
    measured = Measured()
    with _bare_class(home, asked.learners) as klass:
        print(f"bare Voila: kernels loaded after {_settle(klass.server.pid):.0f} s", flush=True)
        asked = argparse.Namespace(**{**vars(asked), "leave": False, "minutes": min(2.0, asked.minutes)})
        learners = [Learner(number, BarePhone(klass), "", measured) for number in range(1, asked.learners + 1)]
        asyncio.run(_class(klass, learners, measured, asked))
    return measured


def _told(name: str, one: Measured) -> None:
    waits, (_, kernels, rss, uss, pss) = sorted(one.waits_ms), max(one.memory, key=lambda look: look[3])
    print(f"\n{name}: {len(one.ready_s)} pages opened, {len(waits)} values moved")
    if one.ready_s:
        print(f"  page ready      median {median(one.ready_s):6.1f} s    worst {max(one.ready_s):6.1f} s")
    if len(waits) > 1:
        p95 = quantiles(waits, n=20, method="inclusive")[-1]
        print(f"  value to picture median {median(waits):5.0f} ms   p95 {p95:6.0f} ms   worst {waits[-1]:6.0f} ms")
    print(f"  memory at most  RSS {rss:.2f} GB, USS {uss:.2f} GB, PSS {pss:.2f} GB with {kernels} kernels")
    for line in one.trouble[:10]:
        print(f"  astray: {line}")


def _kept_up(one: Measured, asked: argparse.Namespace) -> bool:
    """Say whether memory and kernels stayed as they were and nothing was lost."""
    begin = asked.arrive
    first = [look for look in one.memory if begin <= look[0] < begin + 60]
    last = [look for look in one.memory if look[0] >= one.memory[-1][0] - 60]
    small, large = (median(look[4] for look in looks) for looks in (first, last))
    print(f"  PSS in the first minute {small:.2f} GB, in the last {large:.2f} GB ({large / small - 1:+.0%})")
    most = max(look[1] for look in one.memory)
    print(f"  kernels in the first minute {first[0][1]}, in the last {last[-1][1]}, at most {most}")
    print(f"  left: {dict(one.left)}; answers lost: {len(one.lost)}")
    for line in one.lost[:10]:
        print(f"  lost: {line}")
    return large <= GROWTH * small and not one.lost


def main() -> int:
    """Measure both sides in one run; 1 when a target is missed."""
    parse = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parse.add_argument("--learners", type=int, default=30)
    parse.add_argument("--minutes", type=float, default=1.0)
    parse.add_argument("--arrive", type=float, default=20.0, help="seconds within which the learners come in")
    parse.add_argument("--page", default="01_site_and_zone")
    parse.add_argument("--leave", action="store_true", help="learners leave and come back")
    asked = parse.parse_args()
    if not (1 <= asked.learners <= MOST_LEARNERS and 0 < asked.minutes <= MOST_MINUTES and 0 <= asked.arrive <= 300):
        parse.error(f"at most {MOST_LEARNERS} learners, {MOST_MINUTES} minutes, 300 s to come in")
    print(f"{asked.learners} learners, {os.cpu_count()} processors shared by learners, server and kernels")
    print(f"load before: {os.getloadavg()}")
    with TemporaryDirectory(prefix="gs") as home:
        ours = _our_side(Path(home), asked)
        _told(asked.page, ours)
        fine = _kept_up(ours, asked)
        print(f"load between: {os.getloadavg()}", flush=True)
        _told("bare Voila", _bare_side(Path(home), asked))
    print(f"load after: {os.getloadavg()}")
    p95 = quantiles(ours.waits_ms, n=20, method="inclusive")[-1]
    most = max(look[4] for look in ours.memory)
    print(f"\ntargets: p95 {p95:.0f} of {LIMIT_MS} ms; PSS {most:.2f} of {LIMIT_GB} GB; kept up: {fine}")
    return int(p95 > LIMIT_MS or most > LIMIT_GB or not fine)


if __name__ == "__main__":
    sys.exit(main())
