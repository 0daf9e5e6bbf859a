"""Tries at the door: counted per address and for the class, and slowed down.

Source: common practice, no source, for the numbers.  An address may look again five times at
once; each further try makes it wait twice as long, one minute at most.  Where a router shows a
whole class as one address, each of the last thirty who came in from there allows two more.
Everybody's tries wait up to two seconds while many go astray.  Nobody is ever shut out, and who is in stays in.
"""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Callable

FREE_TRIES, LONGEST_WAIT_S = 5, 60.0
MORE_FOR_EACH, MOST_COUNTED = 2, 30
KEPT_S, MOST_ADDRESSES = 900.0, 4000
CLASS_FREE_TRIES, PAUSE_S, LONGEST_PAUSE_S = 60, 0.02, 2.0


class Tries:
    """Counts tries that did not find a plot.

    Parameters
    ----------
    now : callable
        The clock, in seconds.
    """

    def __init__(self, now: Callable[[], float] = time.monotonic) -> None:
        self._now = now
        self._by_address: dict[str, list[float]] = {}
        self._came_in: dict[str, deque[float]] = {}
        self._of_class: deque[float] = deque()

    def wait_s(self, address: str) -> float:
        """Tell how long an address must wait before its next try, in seconds."""
        tries = self._recent(address)
        free = FREE_TRIES + MORE_FOR_EACH * sum(at > self._now() - KEPT_S for at in self._came_in.get(address, ()))
        if len(tries) < free:
            return 0.0
        pause = min(LONGEST_WAIT_S, 2.0 ** min(len(tries) - free + 1, 10))
        return max(0.0, tries[-1] + pause - self._now())

    def pause_s(self) -> float:
        """Tell how long every try is held back at the moment, in seconds."""
        while self._of_class and self._of_class[0] < self._now() - KEPT_S:
            self._of_class.popleft()
        return min(LONGEST_PAUSE_S, PAUSE_S * max(0, len(self._of_class) - CLASS_FREE_TRIES))

    def begin(self, address: str) -> None:
        """Count a try before it is looked at, so that many at once count as many."""
        if len(self._by_address) >= MOST_ADDRESSES:
            self._forget_old()
        self._by_address.setdefault(address, []).append(self._now())
        self._of_class.append(self._now())

    def found(self, address: str) -> None:
        """Take back the try that found a plot; earlier ones stay counted."""
        if own := self._by_address.get(address):  # forgotten meanwhile, where very many addresses came
            own.pop()
            self._came_in.setdefault(address, deque(maxlen=MOST_COUNTED)).append(self._now())
        if self._of_class:
            self._of_class.pop()

    def _recent(self, address: str) -> list[float]:
        tries = [at for at in self._by_address.get(address, []) if at > self._now() - KEPT_S]
        if tries:
            self._by_address[address] = tries
        else:
            self._by_address.pop(address, None)
        return tries

    def _forget_old(self) -> None:
        for address in list(self._by_address):
            self._recent(address)
        while len(self._by_address) >= MOST_ADDRESSES:
            self._by_address.pop(next(iter(self._by_address)))
        self._came_in = {address: times for address, times in self._came_in.items() if address in self._by_address}
