"""Kernels as copies of one process that has loaded everything: they start at once and share its memory.

Python's own fork server makes the copies.  It is there on Linux and used there alone; elsewhere
each kernel loads everything by itself.
"""

from __future__ import annotations

import asyncio
import os
import threading
from multiprocessing import get_context
from multiprocessing.context import ForkServerProcess
from typing import Any

from jupyter_client.provisioning.local_provisioner import LocalProvisioner

from gardenlib.serving.kernel_copy import be_a_kernel

_ONE_THREAD = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}  # a process with threads is not copied whole
_NO_DEBUGGING = {"PYDEVD_DISABLE_FILE_VALIDATION": "1"}
_FORKS = get_context("forkserver")
_FORKS.set_forkserver_preload(["gardenlib.serving.shared_start"])
_ONE_AT_A_TIME = threading.Lock()


class Copies(LocalProvisioner):
    """Starts a kernel as a copy."""

    process: Any = None

    async def launch_kernel(self, cmd: list[str], **how: Any) -> Any:
        """Start a kernel; the first waits until everything is loaded."""
        self.process = await asyncio.to_thread(_start, cmd[cmd.index("-f") :], str(how["cwd"]), how["env"])
        self.pid = self.process.pid
        return self.connection_info


class _Copy:
    """A copy, asked as `subprocess.Popen` is asked."""

    stdin = stdout = stderr = None

    def __init__(self, process: ForkServerProcess) -> None:
        self._process = process
        self.pid = process.pid

    def poll(self) -> int | None:
        return self._process.exitcode

    def wait(self) -> int | None:
        self._process.join()
        return self.poll()

    def send_signal(self, number: int) -> None:
        if self.pid is not None and self.poll() is None:
            os.kill(self.pid, number)


def _start(arguments: list[str], folder: str, env: dict[str, str]) -> _Copy:
    with _ONE_AT_A_TIME:
        os.environ.update(_ONE_THREAD | _NO_DEBUGGING)  # for the process that all share; it begins with the first
        plain = {str.__str__(name): value for name, value in env.items()}  # some names bring their program along
        process = _FORKS.Process(target=be_a_kernel, args=(arguments, folder, plain, os.getpid()), daemon=True)
        process.start()
    return _Copy(process)
