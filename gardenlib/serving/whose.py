"""What a served page asks in its kernel: whose plot it is about.

The server starts kernels before anybody comes.  Such a kernel loads what the page needs and
waits.  When a learner is let in, the server writes the name of the learner's plot under the
kernel's id into a folder that is never served.  Nothing that a phone sends takes part in this.
"""

from __future__ import annotations

import os
import time
from contextlib import suppress
from datetime import date, timedelta
from functools import cache
from pathlib import Path

from gardenlib.problems import InputProblem
from gardenlib.serving.folders import CLASS, PLOT_FILE, SERVED, Folders

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
    klass = Path(os.environ[CLASS])
    load(klass)
    _draw()
    seat.with_suffix(WAITS).touch()
    while not seat.exists():
        if not folders.seats.exists():
            raise SystemExit
        time.sleep(_LOOK_S)
    name = seat.read_text("utf-8")
    seat.unlink()
    seat.with_suffix(WAITS).unlink()
    return folders.plot(name), klass


@cache
def load(class_path: Path) -> None:
    """Do once what takes long: load the parts of the pages and their words, and read the class and its weather.

    A kernel that is a copy has it done already.

    Parameters
    ----------
    class_path : path
        The class folder.
    """
    from gardenlib import panels
    from gardenlib.words import languages, texts

    for name in panels.__all__:
        getattr(panels, name)
    for language in languages():
        texts(language)
    today = date.today()  # noqa: DTZ011  the day it is here
    with suppress(InputProblem):  # the page itself says what is amiss
        _ = panels.Session("", Path(PLOT_FILE), class_path, today).place


def _draw() -> None:
    """Draw a picture: the first one takes long."""
    from gardenlib import charts
    from gardenlib.charts.drawing import Drawing

    today = date.today()  # noqa: DTZ011  any day
    charts.svg(Drawing(today, today + timedelta(days=1)).chart(40))
