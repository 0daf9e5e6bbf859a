"""Who has which kernel: a kernel answers to one learner, and a learner has few."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from gardenlib.serving.folders import Folders, put_closed
from gardenlib.serving.whose import WAITS

MOST_KERNELS = 2
_NEXT = ".next"


@dataclass(frozen=True)
class Seat:
    """A learner at a page."""

    plot: str
    page: str


class Seats:
    """The kernels that have been given to learners, in the order in which they were given.

    Parameters
    ----------
    folders : Folders
        Where a waiting kernel is told whose it is.
    """

    def __init__(self, folders: Folders) -> None:
        self._folders = folders
        self._given: dict[str, Seat] = {}
        self._came: set[Seat] = set()
        self._left: set[str] = set()
        self._set_off: set[str] = set()

    def give(self, kernel_id: str, seat: Seat) -> list[str]:
        """Give a kernel to a learner; name the learner's kernels that are left, and the oldest that are too many."""
        put_closed(self._next(kernel_id), seat.plot.encode())
        self._given[kernel_id] = seat
        self._came.add(seat)
        own = [kernel for kernel, given in self._given.items() if given.plot == seat.plot]
        return [kernel for kernel in own if kernel in self._left or kernel in own[:-MOST_KERNELS]]

    def set_off(self, kernel_id: str) -> None:
        """Tell a kernel whose it is, so that it begins."""
        self._next(kernel_id).rename(self._folders.seats / kernel_id)
        self._set_off.add(kernel_id)

    def _next(self, kernel_id: str) -> Path:
        return self._folders.seats / f"{kernel_id}{_NEXT}"

    def line(self, kernel_id: str, *, is_open: bool) -> None:
        """Note that a learner's page has opened its line to a kernel, or that the last such line was closed."""
        if is_open:
            self._left.discard(kernel_id)
        elif kernel_id in self._given:
            self._left.add(kernel_id)

    @property
    def given(self) -> dict[str, Seat]:
        """Who has which kernel, in the order in which they were given."""
        return dict(self._given)

    def belongs(self, kernel_id: str, plot: str) -> bool:
        """Tell whether a kernel answers to this learner."""
        seat = self._given.get(kernel_id)
        return seat is not None and seat.plot == plot

    def leave(self, kernel_id: str) -> None:
        """Forget a kernel that is gone."""
        self._given.pop(kernel_id, None)
        self._left.discard(kernel_id)
        self._set_off.discard(kernel_id)
        for name in (kernel_id, f"{kernel_id}{WAITS}", f"{kernel_id}{_NEXT}"):
            with suppress(OSError):  # a disk that has gone takes the file with it
                (self._folders.seats / name).unlink()

    def waits(self, kernel_id: str) -> bool:
        """Tell whether a kernel has loaded everything and waits for a learner, or has begun for one already."""
        return kernel_id in self._set_off or (self._folders.seats / f"{kernel_id}{WAITS}").exists()

    def came(self, coming: Seat) -> int:
        """Count the learners who have come to a page so far, with the one who comes."""
        return sum(seat.page == coming.page for seat in self._came | {coming})
