"""Codes of the sheets of a pack: six digits, the same whenever a sheet is printed."""

from __future__ import annotations

import re
from hashlib import blake2b


class Codes:
    """Makes codes that differ within a pack.

    Parameters
    ----------
    *pack : str
        What tells the pack from others: the class, the day, the kind.
    """

    def __init__(self, *pack: str) -> None:
        self._pack = pack
        self._made: set[str] = set()

    def of(self, whose: str) -> str:
        """Make a code that no other sheet of the pack has; the same sheet has the same one whenever it is printed."""
        told = "|".join((*self._pack, whose))
        code, turn = _six_digits(told), 0
        while code in self._made:
            turn += 1
            code = _six_digits(f"{told}|{turn}")
        self._made.add(code)
        return code


def _six_digits(told: str) -> str:
    """Make six digits in pairs of a text."""
    number = int.from_bytes(blake2b(told.encode("utf-8", "surrogatepass"), digest_size=8).digest(), "big") % 1_000_000
    return "-".join(re.findall("..", f"{number:06d}"))
