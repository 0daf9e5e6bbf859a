"""Which class an instructor works with, and whether it is ready."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from gardenlib import class_check, class_folder
from gardenlib.carried import INSTRUCTOR
from gardenlib.class_folder import ClassFolder
from gardenlib.class_folder.reader import POINTER
from gardenlib.class_folder.settings import FILE
from gardenlib.classroom.pack_print import meeting_of
from gardenlib.homework import ground_for
from gardenlib.homework.ground import class_crops
from gardenlib.plot.disk import put
from gardenlib.problems import InputProblem
from gardenlib.words import Said


@dataclass(frozen=True)
class Looked:
    """What was found in a class folder: what stops printing, what can wait, and which meeting comes next."""

    klass: ClassFolder
    can_be_read: bool
    stops: tuple[Said, ...]
    can_wait: tuple[Said, ...]
    notes: tuple[Said, ...]
    next_session: int | None


def look(folder: Path, today: date) -> Looked:
    """Check a class folder and find its next meeting.

    Parameters
    ----------
    folder : Path
        The class folder.
    today : date
        Which day it is.

    Returns
    -------
    Looked
        Every finding of `class_check.report`, parted by whether sheets can be printed before it is mended, and what
        the sheets lack besides: a meeting, a crop, a bed.

    Raises
    ------
    InputProblem
        When the folder cannot be looked into.
    """
    try:
        klass, findings = class_folder.survey(folder)
        found = class_check.report(folder)
    except OSError as error:
        raise InputProblem("prepare.shut", folder=str(folder)[:200], why=error.strerror or str(error)) from None
    problems, meetings = len(findings.problems), klass.sessions
    lacks = [said for said in _lacks(klass, today) if said not in found.mend] if (folder / FILE).is_file() else []
    return Looked(
        klass=klass,
        can_be_read=not problems,
        stops=(*found.mend[:problems], *lacks),
        can_wait=found.mend[problems:],
        notes=found.notes,
        next_session=meetings.index(meeting_of(klass, None, today)) + 1 if meetings else None,
    )


def _lacks(klass: ClassFolder, today: date) -> Iterator[Said]:
    """Name what a sheet for all learners still lacks: a meeting, a crop, a measured bed."""
    if not klass.sessions:
        yield Said("prepare.no_meeting")
    try:
        if not class_crops(klass):
            yield Said("prepare.no_crops")
        ground_for(klass, code="", year=today.year)
    except InputProblem as problem:
        if problem.key != "problem.homework.no_crops":  # told above
            yield problem.said


def typed_folder(text: str, base: Path) -> Path:
    """Read a folder's name as people type or paste it: in quotes, from the home folder, or from `base`."""
    return (base / Path(text.strip().strip("\"'")).expanduser()).absolute()


def new_place(folder: Path, named: Path) -> Path:
    """Name the place for a new class folder: the one that was named, else one beside the learners' pages."""
    if not named.exists():
        return named
    return (folder.parent if folder.name == INSTRUCTOR else folder) / "my_class"


def remember(folder: Path, klass: Path) -> None:
    """Keep which class a folder of pages works with, if it was laid out and the class has its settings."""
    pointer = folder / POINTER
    if pointer.parent.is_dir() and (klass / FILE).is_file():
        put(pointer, f"{klass.expanduser().absolute()}\n".encode())
