"""Kernels for a class: started a few at a time, given to one learner, never started again behind a page's back."""

from __future__ import annotations

import asyncio
import os
from collections.abc import Coroutine
from contextlib import AsyncExitStack, suppress
from typing import Any

from jupyter_core.utils import ensure_async
from jupyter_server.services.kernels.kernelmanager import AsyncMappingKernelManager
from voila.utils import ENV_VARIABLE

from gardenlib.problems import InputProblem
from gardenlib.serving.seats import Seat, Seats

MESSAGES = ("comm_info_request", "comm_msg", "comm_close", "kernel_info_request")
"""What a page may send to its kernel: values of its controls, and nothing that runs."""

_AT_ONCE = max(2, os.cpu_count() or 2)
_BESIDE = _AT_ONCE // 2
_PAGES_AT_ONCE = _AT_ONCE - 1  # the server itself is at work on them too
_LONGEST_START_S, _LONGEST_TURN_S, _LOOK_S = 90.0, 10.0, 0.1
_FEWEST_SPARE = 2
_TRIES = 3
_QUIET = ["--HistoryManager.enabled=False", "--IPKernelApp.capture_fd_output=False"]  # nobody reads either


class Kernels(AsyncMappingKernelManager):  # type: ignore[misc]
    """The kernels below Voila's pools.

    The pools want all their kernels at once; here at most as many start together as there are
    processors, and the next begins when one has loaded everything.  Pages take turns in the same
    way: thirty that are made at once are all ready late, and who is at work meanwhile waits too.
    """

    def __init__(self, **settings: Any) -> None:
        self._starts = asyncio.Semaphore(_AT_ONCE)
        self._loading = 0
        self.asking = 0
        self.turns = asyncio.Semaphore(_PAGES_AT_ONCE)
        self._watching: set[asyncio.Task[None]] = set()
        super().__init__(**settings)

    @property
    def seats(self) -> Seats:
        """Who has which kernel."""
        seats: Seats = self.parent.served.seats
        return seats

    async def start_kernel(self, **how: Any) -> str:
        """Start a kernel when its turn has come."""
        async with AsyncExitStack() as way:
            if how.get("env", {}).get(ENV_VARIABLE.VOILA_PREHEAT) == "True":
                await self._until_quiet()
            self._loading += 1
            way.callback(self._less_loading)
            await way.enter_async_context(self._starts)
            kernel_id: str = await super().start_kernel(**{**how, "extra_arguments": _QUIET})
            self.meanwhile(self._make_way(kernel_id, way.pop_all()))
        return kernel_id

    async def shutdown_kernel(self, kernel_id: str, *how: Any, **more: Any) -> None:
        """End a kernel and forget whose it was."""
        await super().shutdown_kernel(kernel_id, *how, **more)
        self.seats.leave(kernel_id)

    def notify_connect(self, kernel_id: str) -> None:
        """Note that a page listens to a kernel."""
        super().notify_connect(kernel_id)
        self.seats.line(kernel_id, is_open=True)

    def notify_disconnect(self, kernel_id: str) -> None:
        """Note that a page hung up."""
        super().notify_disconnect(kernel_id)
        if not self._kernel_connections.get(kernel_id):
            self.seats.line(kernel_id, is_open=False)

    def end_soon(self, kernel_id: str) -> None:
        """End a kernel that nobody needs, and keep nobody waiting for that; it answers to nobody from now on."""
        self.seats.leave(kernel_id)
        if kernel_id in self:
            self.meanwhile(self.shutdown_kernel(kernel_id))

    def meanwhile(self, work: Coroutine[Any, Any, None]) -> None:
        """Do something beside all else."""
        task = asyncio.ensure_future(work)
        self._watching.add(task)
        task.add_done_callback(self._watching.discard)

    async def _make_way(self, kernel_id: str, way: AsyncExitStack) -> None:
        """Let the next kernel start once this one waits for its learner."""
        async with way:
            await self.loaded(kernel_id)

    def _less_loading(self) -> None:
        self._loading -= 1

    async def _until_quiet(self) -> None:
        """Keep out of a class's way, for a while at most.

        Beside a class half the processors load what nobody asks for yet, and none while pages keep all busy.
        """
        with suppress(TimeoutError):
            async with asyncio.timeout(_LONGEST_START_S):
                while self.seats.given and self._loading >= max(self.asking, 0 if self.turns.locked() else _BESIDE):
                    await asyncio.sleep(_LOOK_S)

    async def loaded(self, kernel_id: str) -> None:
        """Wait until a kernel has loaded everything or is gone, for a while at most."""
        with suppress(TimeoutError):
            async with asyncio.timeout(_LONGEST_START_S):
                while kernel_id in self and not self.seats.waits(kernel_id):
                    await asyncio.sleep(_LOOK_S)


class KernelsForOne:
    """The kernels as one learner's request sees them: whichever is taken is given to this learner.

    Parameters
    ----------
    kernels : kernel manager
        Voila's manager over `Kernels`.
    seat : Seat
        The learner and the page.
    """

    def __init__(self, kernels: Any, seat: Seat) -> None:
        self._kernels, self._seat = kernels, seat
        self._sent = asyncio.Event()

    def __getattr__(self, name: str) -> Any:
        return getattr(self._kernels, name)

    async def get_rendered_notebook(self, notebook_name: str, **how: Any) -> Any:
        """Take a kernel that waits; one that has died meanwhile is passed over."""
        for _ in range(_TRIES):
            self._kernels.asking += 1
            try:
                taken = await self._kernels.get_rendered_notebook(notebook_name=notebook_name, **how)
            finally:
                self._kernels.asking -= 1
            kernel_id = taken[2]
            if await ensure_async(self._kernels.is_alive(kernel_id)):
                await self._give(kernel_id)
                return taken
            await self._kernels.shutdown_kernel(kernel_id, now=True)
        raise RuntimeError(f"no kernel for {notebook_name} stays alive")

    async def start_kernel(self, **how: Any) -> str:
        """Start a kernel for this learner alone, where none waits."""
        kernel_id: str = await self._kernels.start_kernel(**how)
        await self._give(kernel_id)
        return kernel_id

    async def _give(self, kernel_id: str) -> None:
        try:
            surplus = self._kernels.seats.give(kernel_id, self._seat)
        except InputProblem:
            await self._kernels.shutdown_kernel(kernel_id, now=True)
            raise
        for one in surplus:
            self._kernels.end_soon(one)
        self._kernels.meanwhile(self._take_turn(kernel_id))

    async def _take_turn(self, kernel_id: str) -> None:
        """Set the kernel off when it is its turn, and keep the turn until the page was sent, for a while at most."""
        await self._kernels.loaded(kernel_id)
        async with self._kernels.turns:
            if self._kernels.seats.belongs(kernel_id, self._seat.plot):
                self._kernels.seats.set_off(kernel_id)
                with suppress(TimeoutError):
                    await asyncio.wait_for(self._sent.wait(), _LONGEST_TURN_S)

    def sent(self) -> None:
        """Note that the page was sent, or that nobody takes it any more."""
        self._sent.set()


def shrink_pool(kernels: Any, coming: Seat, ready: int) -> None:
    """Keep fewer kernels waiting for a page as its learners come in."""
    spare = max(min(ready, _FEWEST_SPARE), ready - kernels.seats.came(coming))
    pools = dict(kernels.kernel_pools_config)
    kernels.kernel_pools_config = {**pools, f"{coming.page}.ipynb": {"pool_size": spare}}
