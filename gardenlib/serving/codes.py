"""Plot codes: four pairs of digits, each good for one plot; the list of them is the instructor's.

A code never names a file: the list gives the plot's name, and that was counted out when the code was made.
"""

from __future__ import annotations

import csv
import hmac
import io
import re
import secrets
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass

from gardenlib.class_folder import Learner
from gardenlib.problems import InputProblem
from gardenlib.serving.folders import Folders, put_closed

DIGITS = 8
_COLUMNS = ["plot", "code", "learner", "name"]


@dataclass(frozen=True)
class Place:
    """One place in the class: a plot, its code, and the learner it was made for, if any."""

    plot: str
    code: str
    learner: str = ""
    name: str = ""

    @property
    def pairs(self) -> str:
        """The code as it is printed and typed."""
        return " ".join(self.code[at : at + 2] for at in range(0, DIGITS, 2))


def digits_of(typed: str) -> str:
    """Read a code as it was typed, with or without gaps; empty when it cannot be one."""
    digits = re.sub(r"[\s.,_/-]+", "", typed[:64])
    return digits if re.fullmatch(r"[0-9]{8}", digits) else ""


def same_word(typed: str, word: str) -> bool:
    """Compare a class word in constant time; case and outer blanks do not count."""
    return hmac.compare_digest(_plain(typed[:500]), _plain(word))


def _plain(word: str) -> bytes:
    return unicodedata.normalize("NFKC", word).casefold().strip().encode()


def place_of_code(typed: str, places: Sequence[Place]) -> Place | None:
    """Find the place of a code; every code of the class is compared, in constant time."""
    given, found = digits_of(typed).encode(), None
    for place in places:
        if hmac.compare_digest(place.code.encode(), given):
            found = place
    return found


def keep_places(folders: Folders, learners: Sequence[Learner], wanted: int) -> list[Place]:
    """Read the sealed list and add what is missing: a place for each learner, and free ones up to a number."""
    places = read_places(folders)
    known = {place.learner for place in places}
    new = [learner for learner in learners if learner.id not in known]
    free = max(0, wanted - len(places) - len(new))
    taken = {place.code for place in places}
    for learner in (*new, *[None] * free):
        code = _fresh(taken)
        plot = f"plot_{len(places) + 1:02d}"
        places.append(Place(plot, code, learner.id if learner else "", learner.name if learner else ""))
    put_closed(folders.codes, _written(places))
    return places


def _fresh(taken: set[str]) -> str:
    while (code := f"{secrets.randbelow(10**DIGITS):0{DIGITS}d}") in taken:
        pass
    taken.add(code)
    return code


def read_places(folders: Folders) -> list[Place]:
    """Read the sealed list; none where there is no list yet."""
    if not folders.codes.exists():
        return []
    places = []
    with folders.codes.open(encoding="utf-8-sig", newline="") as file:
        for number, row in enumerate(csv.DictReader(file), start=2):
            plot, code = row.get("plot") or "", digits_of(row.get("code") or "")
            if not (re.fullmatch(r"plot_[0-9]{2,4}", plot) and code):
                raise InputProblem("serving.codes_row", file=folders.codes.name, row=number)
            places.append(Place(plot, code, row.get("learner") or "", row.get("name") or ""))
    if len({place.plot for place in places}) < len(places) or len({place.code for place in places}) < len(places):
        raise InputProblem("serving.codes_twice", file=folders.codes.name)
    return places


def _written(places: Sequence[Place]) -> bytes:
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(_COLUMNS)
    writer.writerows([place.plot, place.pairs, place.learner, place.name] for place in places)
    return text.getvalue().encode()
