"""A folder that is there whole or not at all; what lay in its place is kept beside it."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from gardenlib.carried import carried
from gardenlib.class_folder import Meeting
from gardenlib.homework.ground import SheetKind
from gardenlib.homework.record import RECORD
from gardenlib.plot.disk import free_name
from gardenlib.problems import InputProblem

PACKS = "packs"


def packs_home(class_dir: Path, beside: Path) -> Path:
    """Give the folder of a class's packs: in its own, or `beside` the page for the class inside the program."""
    inside = class_dir.resolve() == carried("data_demo").resolve()
    return (beside if inside else class_dir) / PACKS


def pack_name(meeting: Meeting, kind: SheetKind) -> str:
    """Name the folder of a meeting's pack."""
    return f"{meeting.date.isoformat()}-{kind}"


@contextmanager
def whole_folder(target: Path, *, sign: Path = RECORD) -> Iterator[tuple[Path, list[Path]]]:
    """Build a folder beside its place and put it there at the end.

    Parameters
    ----------
    target : Path
        Where the folder belongs.
    sign : Path
        The file by which an earlier folder of ours is known; any other folder that holds files is left alone.

    Yields
    ------
    tuple of (Path, list of Path)
        The folder to write into, and an empty list that gets the name under which an earlier pack is kept.
    """
    target = target.absolute()
    _refuse_other_files(target, sign)
    try:
        new = [folder for folder in target.parents if not folder.exists()]
        target.parent.mkdir(parents=True, exist_ok=True)
        building = Path(tempfile.mkdtemp(prefix=f".{target.name}.", dir=target.parent))
    except OSError as error:
        raise _unwritable(target, error) from None
    kept: list[Path] = []
    try:
        yield building, kept
        building.chmod(0o755)
        if target.exists():
            kept.append(target.rename(free_name(target, "before")))
        try:
            building.rename(target)
        except OSError:
            for old in kept:
                old.rename(target)
            raise
    except OSError as error:
        raise _unwritable(target, error) from None
    finally:
        shutil.rmtree(building, ignore_errors=True)
        for folder in new:
            with suppress(OSError):  # it holds the pack
                folder.rmdir()


def _refuse_other_files(target: Path, sign: Path) -> None:
    try:
        if target.exists() and not (target.is_dir() and ((target / sign).exists() or not any(target.iterdir()))):
            raise InputProblem("pack.holds_files", folder=str(target))
    except OSError as error:
        raise _unwritable(target, error) from None


def _unwritable(target: Path, error: OSError) -> InputProblem:
    return InputProblem("pack.unwritable", folder=str(target), why=error.strerror or str(error))
