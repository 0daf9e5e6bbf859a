"""Being a kernel that is a copy of the process in which everything was loaded."""

from __future__ import annotations

import os
import select
import threading

NAME = "gardenlib-copies"
"""Under this name what makes copies stands among the entry points of the package."""

_AS_A_KERNEL = ["--ext=ipywidgets"]  # loaded before there was a kernel, they have not told one what they answer to


def be_a_kernel(arguments: list[str], folder: str, env: dict[str, str], server: int) -> None:
    """Be a kernel for as long as the server lives.

    Parameters
    ----------
    arguments : list of str
        What a kernel is told.
    folder : str
        The folder it works in.
    env : dict of str
        All of its environment.
    server : int
        The server's process.
    """
    from ipykernel.kernelapp import IPKernelApp

    os.setsid()  # Ctrl+C in the instructor's window is for the server
    os.chdir(folder)
    os.environ.clear()
    os.environ.update(env)
    threading.Thread(target=_end_with, args=(server,), daemon=True).start()
    IPKernelApp.launch_instance([*arguments, *_AS_A_KERNEL, f"--IPKernelApp.parent_handle={server}"])


def _end_with(server: int) -> None:
    """End this process when the server is gone, however it went."""
    select.select([os.pidfd_open(server)], [], [])
    os._exit(1)
