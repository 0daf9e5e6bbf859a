"""The packs of a class, and what was handed in for one of them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from gardenlib.classroom.desk import Desk
from gardenlib.classroom.pack_folder import packs_home
from gardenlib.homework import PackRecord, tally_from_csv
from gardenlib.homework.record import HANDED_IN, RECORD
from gardenlib.homework.tally import Counts, make_folder, summed
from gardenlib.plot.disk import bytes_of, put
from gardenlib.problems import InputProblem
from gardenlib.words import Said, Voice


@dataclass(frozen=True)
class OpenPack:
    """A pack that is open for review: its record, what was counted by hand, and what else was handed in.

    Parameters
    ----------
    folder : Path
        The pack's folder.
    record : PackRecord
        What was printed.
    counts : mapping
        What stands in ``tally.csv``, by question and reason.
    files : int
        How many plot files were handed in.
    has_answers : bool
        Whether ``answers.csv`` was handed in.
    """

    folder: Path
    record: PackRecord
    counts: Counts
    files: int
    has_answers: bool

    @property
    def put_in(self) -> Path:
        """Where the work of the class lies."""
        return self.folder / HANDED_IN

    @property
    def tally(self) -> Path:
        """Where the counts lie."""
        return self.put_in / "tally.csv"

    @property
    def state(self) -> list[Said]:
        """Say what was handed in, for each of the three ways."""
        counted = sum(self.counts.values())
        return [
            Said("review.plot_files", {"n": self.files, "folder": str(self.put_in)}),
            Said("review.answers_there" if self.has_answers else "review.answers_missing"),
            Said("review.counted_so_far", {"n": counted}),
        ]


def open_pack(folder: Path, voice: Voice) -> OpenPack:
    """Open a pack's folder.

    Parameters
    ----------
    folder : Path
        The pack's folder.
    voice : Voice
        How the instructor is spoken to.

    Returns
    -------
    OpenPack
        Nothing in the folder is changed.

    Raises
    ------
    InputProblem
        When it is no pack, or its record cannot be read.
    """
    record, put_in = PackRecord.read(folder / RECORD), folder / HANDED_IN
    tally = put_in / "tally.csv"
    counts = summed(tally_from_csv(tally, record, voice=voice)[0]) if tally.exists() else {}
    there = put_in.iterdir() if put_in.is_dir() else ()
    files = sum(path.suffix.casefold() == ".json" and not path.name.startswith(".") for path in there)
    return OpenPack(folder, record, counts, files, (put_in / "answers.csv").exists())


def packs_of(desk: Desk) -> list[tuple[Said, Path]]:
    """List the packs of the class, the one printed last first, each with what it is called."""
    home = packs_home(desk.class_path, desk.folder)
    found = [_listed(path) for path in home.glob(f"*/{RECORD.as_posix()}")]
    found.sort(key=lambda one: one[0], reverse=True)
    return [(called, folder) for _, called, folder in found]


def _listed(path: Path) -> tuple[tuple[date, float], Said, Path]:
    """Give when a pack was printed, by its record and then by the clock, what it is called, and its folder."""
    folder = path.parents[1]
    try:
        record, clock = PackRecord.read(path), path.stat().st_mtime
    except (InputProblem, OSError):
        return (date.min, 0.0), Said("review.pack_unreadable", {"folder": folder.name}), folder
    values = {"session": record.session, "day": record.made_on, "folder": folder.name}
    return (record.made_on, clock), Said("review.pack", values), folder


def lay_out_answers(pack: OpenPack) -> Said:
    """Put the table for typed answers where it is marked from; one that lies there stays as it is."""
    target, template = pack.put_in / "answers.csv", pack.folder / "key" / "answers.csv"
    if target.exists():
        return Said("review.answers_stay", {"file": str(target)})
    data = bytes_of(template)
    make_folder(pack.put_in)
    put(target, data)
    return Said("review.answers_laid", {"file": str(target)})
