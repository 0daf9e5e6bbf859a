"""What a served page asks in its kernel: whose plot it is about.

The server starts kernels before anybody comes.  Such a kernel loads what the page needs and
waits.  When a learner is let in, the server writes the name of the learner's plot under the
kernel's id into a folder that is never served.  Nothing that a phone sends takes part in this.
"""

from __future__ import annotations

import os
import time
from pathlib import Path

from gardenlib.serving.folders import CLASS, SERVED, Folders

WAITS = ".waits"
_LOOK_S = 0.04


def visitor() -> tuple[Path, Path]:
    """Make ready for a learner and wait until one comes.

    Returns
    -------
    tuple of (Path, Path)
        The learner's plot file and the class folder.

    Raises
    ------
    SystemExit
        When the server has gone.
    """
    folders = Folders(Path(os.environ[SERVED]))
    seat = folders.seats / os.environ["VOILA_KERNEL_ID"]
    _load()
    seat.with_suffix(WAITS).touch()
    while not seat.exists():
        if not folders.seats.exists():
            raise SystemExit
        time.sleep(_LOOK_S)
    name = seat.read_text("utf-8")
    seat.unlink()
    seat.with_suffix(WAITS).unlink()
    return folders.plot(name), Path(os.environ[CLASS])


def _load() -> None:
    """Load what takes longest: the panels, the data readers, and the program that draws."""
    from gardenlib import charts, panels  # noqa: F401
    from gardenlib.charts.quick_altair import alt  # noqa: F401
