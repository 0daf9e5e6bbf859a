"""Serving a working folder with JupyterLab, to this computer alone."""

from __future__ import annotations

import os
import secrets
import signal
import socket
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

from gardenlib.carried import INSTRUCTOR
from gardenlib.problems import InputProblem
from gardenlib.words import Said, Voice
from gardenlib.working_folder.lay_out import instructor_pages, pages
from gardenlib.working_folder.prepare import LAB_SETTINGS, USER_SETTINGS, prepare

FIRST_PAGE = "00_start_here"
INSTRUCTOR_PAGE = f"{INSTRUCTOR}/prepare_a_class"
DEFAULT_FOLDER = Path("~/garden-workbook")
_LONGEST_SOCKET_PATH = 100


def open_pages(
    folder: str | Path | None = None,
    *,
    class_path: str | Path | None = None,
    instructor: bool = False,
    page: str | None = None,
    browser: bool = True,
    port: int | None = None,
) -> int:
    """Lay out the working folder and serve it with JupyterLab until it is stopped.

    Parameters
    ----------
    folder : str or Path, optional
        The working folder; ``garden-workbook`` in the home folder when none is given.
    class_path : str or Path, optional
        The class folder to work with.
    instructor : bool
        Whether to lay out the instructor's pages too, and open their first.
    page : str, optional
        The page to open, such as ``01_site_and_zone``; the first one when none is given.
    browser : bool
        Whether to open it in the browser; its address is printed in any case.
    port : int, optional
        Port of this computer; a free one when none is given.

    Returns
    -------
    int
        What JupyterLab returned when it stopped.

    Raises
    ------
    InputProblem
        When the folder cannot be laid out, there is no such page, or the port is taken.
    """
    ready = prepare(folder or DEFAULT_FOLDER, class_path=class_path, instructor=instructor)
    name = (page or (INSTRUCTOR_PAGE if instructor else FIRST_PAGE)).removesuffix(".ipynb")
    if not (ready.folder / f"{name}.ipynb").is_file():
        known = [*(instructor_pages() if instructor else []), *pages()]
        names = ", ".join(path.with_suffix("").as_posix() for path, _ in known)
        raise InputProblem("open.no_page", page=name, pages=names)
    port = _port(port)
    token = secrets.token_urlsafe(24)
    say = Voice().say
    for sentence in (*ready.told, Said("open.folder", {"folder": str(ready.folder)})):
        print(say(sentence))
    print(say("open.address", address=f"http://127.0.0.1:{port}/doc/tree/{name}.ipynb?token={token}"), flush=True)
    command = lab_command(ready.folder, name, port, browser=browser)
    return _serve(command, {**os.environ, "JUPYTER_TOKEN": token}, ready.folder)


def lab_command(folder: Path, page: str, port: int, *, browser: bool) -> list[str]:
    """Give the command that serves one working folder to this computer alone, without asking the internet."""
    command = [
        *(sys.executable, "-m", "gardenlib.working_folder.lab"),
        "--ServerApp.ip=127.0.0.1",
        f"--ServerApp.port={port}",
        "--ServerApp.port_retries=0",
        "--ServerApp.answer_yes=True",
        *lab_options(folder, page),
    ]
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        command.append("--allow-root")  # a machine set up by its administrator alone
    return command if browser else [*command, "--no-browser"]


def lab_options(folder: Path, page: str) -> list[str]:
    """Give the settings with which JupyterLab shows a working folder, on one laptop or behind a hub."""
    options = [
        f"--ServerApp.root_dir={folder}",
        "--ServerApp.log_level=ERROR",
        "--LabApp.log_level=ERROR",
        f"--LabApp.default_url=/doc/tree/{page}.ipynb",
        f"--LabApp.app_settings_dir={folder / LAB_SETTINGS}",
        f"--LabApp.user_settings_dir={folder / USER_SETTINGS}",
        "--LabApp.news_url=None",
        "--LabApp.extension_manager=readonly",
    ]
    if sys.platform != "win32" and _socket_path_length() < _LONGEST_SOCKET_PATH:
        options.append("--KernelManager.transport=ipc")
    return options


def _socket_path_length() -> int:
    from jupyter_core.paths import jupyter_runtime_dir

    return len(jupyter_runtime_dir()) + len("/kernel-01234567-0123-0123-0123-0123456789ab-ipc-1")


def _port(wanted: int | None) -> int:
    with socket.socket() as probe:
        if sys.platform != "win32":
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind(("127.0.0.1", wanted or 0))
        except (OSError, OverflowError):
            raise InputProblem("open.port", port=wanted) from None
        return int(probe.getsockname()[1])


def _serve(command: list[str], environment: Mapping[str, str], folder: Path) -> int:
    with subprocess.Popen(command, env=environment, cwd=folder) as server:  # noqa: S603  our own command
        stopped = False

        def stop(*_: object) -> None:
            nonlocal stopped
            stopped = True
            server.terminate()

        signal.signal(signal.SIGTERM, stop)
        while True:
            try:
                code = server.wait()
            except KeyboardInterrupt:  # JupyterLab hears the same key and stops
                continue
            return 0 if stopped else code
