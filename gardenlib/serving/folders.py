"""Where everything of a served class lies; only `pages` is read by the part that talks to phones."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path

from gardenlib.plot.disk import write_whole
from gardenlib.problems import InputProblem

PLOT_FILE = "my_plot.json"
SERVED, CLASS = "GARDENLIB_SERVED", "GARDENLIB_CLASS"  # how kernels learn where these are


@dataclass(frozen=True)
class Folders:
    """The working folder of one served class; it is open to its owner alone.

    Parameters
    ----------
    home : Path
        The folder; codes, keys and plots lie beside the served pages, never among them.
    """

    home: Path

    @property
    def codes(self) -> Path:
        """The sealed list: whose code is which."""
        return self.home / "codes.csv"

    @property
    def secret(self) -> Path:
        """What signs the cookies, kept so that a restarted laptop knows its phones."""
        return self.home / "secret.key"

    @property
    def opened(self) -> Path:
        """Which pages were opened during the class."""
        return self.home / "opened.json"

    @property
    def hands(self) -> Path:
        """Hands that were counted in the room."""
        return self.home / "hands.json"

    @property
    def sheet(self) -> Path:
        """The sheet to print."""
        return self.home / "join_sheet.pdf"

    @property
    def pages(self) -> Path:
        """The copies of the pages that are served."""
        return self.home / "pages"

    @property
    def seats(self) -> Path:
        """Which waiting kernel belongs to whom, for a moment; never older than the server."""
        return self.home / "seats"

    def plot(self, name: str) -> Path:
        """Give a learner's plot file, alone in its folder, by the name of the plot."""
        return self.home / "plots" / name / PLOT_FILE

    def make(self) -> None:
        """Make the folders, closed to everybody else."""
        try:
            self.home.mkdir(parents=True, exist_ok=True)
            self.home.chmod(0o700)
            for fresh in (self.pages, self.seats):
                if fresh.exists():
                    shutil.rmtree(fresh)
                fresh.mkdir()
            (self.home / "plots").mkdir(exist_ok=True)
        except OSError as refusal:
            raise InputProblem("serving.unwritable", folder=str(self.home), why=refusal.strerror or "") from None


def put_closed(target: Path, data: bytes) -> None:
    """Write a file whole, readable by its owner alone."""
    try:
        write_whole({target: data}, closed=True)
    except OSError as refusal:
        raise InputProblem("serving.unwritable", folder=str(target.parent), why=refusal.strerror or "") from None
