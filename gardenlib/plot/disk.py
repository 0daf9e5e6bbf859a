"""Bytes on the disk, written so that a crash at any moment leaves the old file or the new one.

Beside ``my_plot.json`` lie ``my_plot.json.bak`` (the save before the last) and three hidden
helpers: a lock, a second copy of the last save, and what is being written.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from filelock import FileLock, Timeout

from gardenlib.problems import InputProblem

LARGEST_BYTES = 5_000_000
_LOCK_SECONDS = 10.0


def put(target: Path, data: bytes) -> None:
    """Write a file whole, or say that it cannot be."""
    try:
        write_whole({target: data})
    except OSError:
        raise _unwritable(target) from None


def put_save(path: Path, data: bytes) -> None:
    """Write a save of a file with its copies: all of them, or none where the disk refuses."""
    try:
        before = {backup(path): path.read_bytes()} if path.exists() else {}
        write_whole({**before, beside(path, "last"): data, path: data})
    except OSError:
        raise _unwritable(path) from None


def write_whole(files: Mapping[Path, bytes], *, closed: bool = False) -> None:
    """Write files whole: all of them beside their places first, then each in its place.

    Parameters
    ----------
    files : mapping of Path to bytes
        What stands where, in the order in which they take their places.
    closed : bool
        Whether their owner alone can read them, from the first byte on.

    Raises
    ------
    OSError
        When the disk refuses.  Where one file could not be written, none has taken its place.
    """
    places = {beside(target, "writing"): target for target in files}
    try:
        for being_written, target in places.items():
            being_written.unlink(missing_ok=True)
            with open(being_written, "xb", opener=_closed if closed else None) as file:
                file.write(files[target])
                file.flush()
                os.fsync(file.fileno())
        for being_written, target in places.items():
            os.replace(being_written, target)  # noqa: PTH105  the name that says what happens to an old file
    except OSError:
        for being_written in places:
            with suppress(OSError):
                being_written.unlink()
        raise


def _closed(path: str, flags: int) -> int:
    return os.open(path, flags, 0o600)


def _unwritable(target: Path) -> InputProblem:
    return InputProblem("plot.unwritable", file=target.name, folder=str(target.parent))


def bytes_of(path: Path) -> bytes:
    """Read a file that is there and not too large."""
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise InputProblem("plot.too_large", file=path.name)
        return path.read_bytes()
    except OSError:
        raise InputProblem("plot.missing", file=path.name, folder=str(path.parent)) from None


def backup(path: Path) -> Path:
    """Name the save before the last."""
    return path.with_name(f"{path.name}.bak")


def beside(path: Path, word: str) -> Path:
    """Name a hidden helper of a file."""
    return path.with_name(f".{path.name}.{word}")


def free_name(path: Path, word: str) -> Path:
    """Name a copy that is not there yet."""
    number = 1
    while (name := path.with_name(f"{path.stem}.{word}-{number}{path.suffix}")).exists():
        number += 1
    return name


@contextmanager
def locked(path: Path) -> Iterator[None]:
    """Hold the file for one writer at a time."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        lock = FileLock(beside(path, "lock"), timeout=_LOCK_SECONDS)
        lock.acquire()
    except Timeout:
        raise InputProblem("plot.busy", file=path.name) from None
    except OSError:
        raise _unwritable(path) from None
    try:
        yield
    finally:
        lock.release()
