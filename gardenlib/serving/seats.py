"""Who has which kernel: a kernel answers to one learner, and a learner has few."""

from __future__ import annotations

from dataclasses import dataclass

from gardenlib.serving.folders import Folders, put_closed
from gardenlib.serving.whose import WAITS

MOST_KERNELS = 2


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

    def give(self, kernel_id: str, seat: Seat) -> list[str]:
        """Give a kernel to a learner; name the learner's oldest kernels that are now too many."""
        self._given[kernel_id] = seat
        put_closed(self._folders.seats / kernel_id, seat.plot.encode())
        own = [kernel for kernel, given in self._given.items() if given.plot == seat.plot]
        return own[:-MOST_KERNELS]

    def belongs(self, kernel_id: str, plot: str) -> bool:
        """Tell whether a kernel answers to this learner."""
        seat = self._given.get(kernel_id)
        return seat is not None and seat.plot == plot

    def leave(self, kernel_id: str) -> None:
        """Forget a kernel that is gone."""
        self._given.pop(kernel_id, None)
        for name in (kernel_id, f"{kernel_id}{WAITS}"):
            (self._folders.seats / name).unlink(missing_ok=True)

    def waits(self, kernel_id: str) -> bool:
        """Tell whether a kernel has loaded everything and waits for a learner, or was given to one already."""
        return kernel_id in self._given or (self._folders.seats / f"{kernel_id}{WAITS}").exists()

    def on_page(self, page: str) -> int:
        """Count the learners at a page."""
        return len({seat.plot for seat in self._given.values() if seat.page == page})
