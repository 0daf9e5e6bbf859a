"""Bytes on the disk, written so that a crash at any moment leaves the old file or the new one.

Beside ``my_plot.json`` lie ``my_plot.json.bak`` (the save before the last) and three hidden
helpers: a lock, the file that is being written, and a second copy of the last save.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from filelock import FileLock, Timeout

from gardenlib.problems import InputProblem

LARGEST_BYTES = 5_000_000
_LOCK_SECONDS = 10.0


def put(target: Path, data: bytes) -> None:
    """Write a file whole: a temporary file beside it first, then in its place."""
    being_written = beside(target, "writing")
    try:
        with being_written.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(being_written, target)  # noqa: PTH105  the name that says what happens to an old file
    except OSError:
        raise InputProblem("plot.unwritable", file=target.name, folder=str(target.parent)) from None


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
        raise InputProblem("plot.unwritable", file=path.name, folder=str(path.parent)) from None
    try:
        yield
    finally:
        lock.release()
