"""Which pages are open for the class, which is the page for now, and how a page is opened while the class goes on.

A page's kernels wait before its link shows, so that many phones can open it at once.
"""

from __future__ import annotations

import asyncio
import json
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from jupyter_core.utils import ensure_async

from gardenlib.problems import InputProblem
from gardenlib.serving.folders import Folders, put_closed
from gardenlib.serving.pages import Page, lay_out_copies
from gardenlib.words import Voice

_LOOK_S = 0.2


@dataclass(frozen=True)
class Filling:
    """A page that is being made ready: how many kernels wait, and how many are to."""

    done: int
    wanted: int

    @property
    def whole(self) -> bool:
        """Tell whether all wait that are to."""
        return self.done >= self.wanted


class OpenPages:
    """The pages of a class.

    Parameters
    ----------
    folders : Folders
        Where copies of the pages and the list of open ones lie.
    known : sequence of Page
        All pages that can be opened.
    chosen : sequence of str
        Those that are open from the start.
    now : str
        The page for now, where none was chosen today.
    today : date
        The day; the page for now is kept for the day on which it was opened.
    most_ready : int
        How many kernels wait for the page for now.
    voice : Voice
        The class's voice.
    """

    def __init__(
        self,
        folders: Folders,
        known: Sequence[Page],
        chosen: Sequence[str],
        *,
        now: str,
        today: date,
        most_ready: int,
        voice: Voice,
    ) -> None:
        self._folders, self._today, self._most, self._voice = folders, today, most_ready, voice
        self.known = {page.name: page for page in known}
        kept = self._kept()
        self._chosen = frozenset(chosen)
        self._open = list(dict.fromkeys([*chosen, *(name for name in kept["pages"] if name in self.known)]))
        still = kept["day"] == today.isoformat() and kept["now"] in self._open
        self.now = self._next = kept["now"] if still else now
        self.ready = {name: most_ready if name == self.now else min(most_ready, 1) for name in self._open}
        self.came: set[str] = set()
        self._filling: dict[str, asyncio.Task[None]] = {}
        self._emptying: set[asyncio.Task[None]] = set()
        lay_out_copies(folders.pages, self._open, voice)

    def __contains__(self, name: str) -> bool:
        return name in self._open

    @property
    def pages(self) -> list[Page]:
        """The open pages, that for now first."""
        return [self.known[name] for name in sorted(self._open, key=lambda name: (name != self.now, name))]

    def _kept(self) -> dict[str, Any]:
        file = self._folders.opened
        if not file.exists():
            return {"pages": [], "now": "", "day": ""}
        try:
            found = json.loads(file.read_bytes())
            return {"pages": list(found["pages"]), "now": found["now"], "day": found["day"]}
        except (ValueError, KeyError, TypeError):
            raise InputProblem("serving.kept", file=str(file)) from None

    def _keep(self) -> None:
        added = [name for name in self._open if name not in self._chosen]
        kept = {"pages": added, "now": self.now, "day": self._today.isoformat()}
        put_closed(self._folders.opened, json.dumps(kept, indent=1).encode())

    # ---- opening a page --------------------------------------------------------------------

    def open(self, name: str, kernels: Any) -> None:
        """Make a page ready, then show it as the page for now; asked again, show it with the kernels that wait."""
        self._next = name
        if name in self._filling:
            self._filling.pop(name).cancel()
            self._show(name, kernels)
        elif name != self.now:
            if name not in self._open:
                lay_out_copies(self._folders.pages, [name], self._voice)
            # As many as have come in; where nobody has yet, as many as may.
            self.ready[name] = min(self._most, len(self.came) or self._most)
            _resize(kernels, name, self.ready[name])
            kernels.fill_if_needed(delay=0, notebook_name=_book(name))
            self._filling[name] = asyncio.ensure_future(self._when_ready(name, kernels))

    def filling(self, name: str, kernels: Any) -> Filling | None:
        """Tell how far a page is that is being made ready."""
        return _filled(kernels, name) if name in self._filling else None

    async def _when_ready(self, name: str, kernels: Any) -> None:
        while not _filled(kernels, name).whole:
            await asyncio.sleep(_LOOK_S)
        del self._filling[name]
        self._show(name, kernels)

    def _show(self, name: str, kernels: Any) -> None:
        if name not in self._open:
            self._open.append(name)
        before = self.now
        if name == self._next:
            self.now = name
        for left in {before, name} - {self.now}:
            self.ready[left] = min(self._most, 1)
            emptying = asyncio.ensure_future(_empty(kernels, left, self.ready[left]))
            self._emptying.add(emptying)
            emptying.add_done_callback(self._emptying.discard)
        self._keep()


async def on_pages(kernels: Any) -> Counter[str]:
    """Count the learners at each page whose kernel lives; a learner counts at the page opened last."""
    at = {}
    for kernel_id, seat in kernels.seats.given.items():
        if kernel_id in kernels and await ensure_async(kernels.is_alive(kernel_id)):
            at[seat.plot] = seat.page
    return Counter(at.values())


def _book(name: str) -> str:
    return f"{name}.ipynb"


def _resize(kernels: Any, name: str, size: int) -> None:
    kernels.kernel_pools_config = {**kernels.kernel_pools_config, _book(name): {"pool_size": size}}


def _filled(kernels: Any, name: str) -> Filling:
    started = [task for task in _pool(kernels, name) if task.done() and task.exception() is None]
    waiting = sum(kernels.seats.waits(task.result()["kernel_id"]) for task in started)
    return Filling(waiting, int(kernels.kernel_pools_config[_book(name)]["pool_size"]))


def _pool(kernels: Any, name: str) -> list[Any]:
    return list(kernels._pools.get(_book(name), ()))


async def _empty(kernels: Any, name: str, size: int) -> None:
    """End the kernels that wait for a page and are more than it needs now."""
    _resize(kernels, name, size)
    for task in _pool(kernels, name)[size:]:
        await asyncio.wait([task])
        if task in _pool(kernels, name) and task.exception() is None:  # nobody took it meanwhile
            await kernels.shutdown_kernel(task.result()["kernel_id"], now=True)
