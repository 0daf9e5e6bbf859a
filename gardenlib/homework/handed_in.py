"""Work that was handed in, and the answers in plot files; what cannot be used is told, the rest goes on."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

from pydantic import ValidationError

from gardenlib.homework.marking import MarkedSheet, marked_sheet
from gardenlib.homework.record import PackRecord, SheetRecord
from gardenlib.plot import Plot
from gardenlib.plot.disk import bytes_of
from gardenlib.problems import InputProblem
from gardenlib.words import Said

ANSWER_COLUMNS = ("learner", "sheet_code", "blank_id", "question", "answer")
_COPY = re.compile(r"(?:[ _-]*(?:\(\d+\)|copy(?:[ _-]*\d+)?))+$", re.IGNORECASE)
_MOST_FILES = 500
_TABLES = frozenset(("answers.csv", "tally.csv"))
PAGE = "page"
"""Code of a sheet that is printed for nobody, so that the numbers of a plot stay; answers under it are not marked."""


@dataclass
class HandedIn:
    """Answers by learner and sheet code, then by blank, and what the instructor should know of them."""

    answers: dict[tuple[str, str], dict[str, str]] = field(default_factory=dict)
    told: list[Said] = field(default_factory=list)

    def add(self, other: HandedIn) -> None:
        """Take in more; an answer that is there already stays, and that is told."""
        self.told += other.told
        for (learner, code), given in other.answers.items():
            mine = self.answers.setdefault((learner, code), {})
            if any(mine.get(blank, text) != text for blank, text in given.items()):
                self.told.append(Said("homework.handed.both_ways", {"learner": learner, "code": code}))
            self.answers[learner, code] = {**given, **mine}

    def marked(self, pack: PackRecord) -> Iterator[MarkedSheet]:
        """Mark each sheet that was handed in."""
        sheets = {sheet.code: sheet for sheet in pack.sheets}
        for (learner, code), given in sorted(self.answers.items()):
            yield marked_sheet(sheets[code], given, learner=learner)


def plot_key(code: str, blank_id: str) -> str:
    """Name the entry of a plot file's answers that holds the answer to a blank."""
    return f"homework.{code}.{blank_id}"


class _Work(NamedTuple):
    """What one plot file holds for one sheet."""

    file: str
    plot: Plot
    answers: dict[str, str]

    def same_household(self, other: _Work) -> bool:
        """Tell whether two files seem to be one learner's."""
        mine, others = self.plot, other.plot
        return (mine.site, mine.beds, mine.household) == (others.site, others.beds, others.household)

    def beside(self, other: _Work) -> Said:
        """Say which of two files counts: the later revision, and of two alike the one that comes after."""
        names = {"file": other.file, "first": self.file}
        if self.answers == other.answers:
            return Said("homework.handed.same", names)
        if self.plot.revision == other.plot.revision:
            return Said("homework.handed.differ", names)
        later = max(self, other, key=lambda work: work.plot.revision)
        return Said("homework.handed.twice", {**names, "used": later.file})


def answers_from_plots(folder: str | Path, pack: PackRecord) -> HandedIn:
    """Read the answers out of plot files.

    Parameters
    ----------
    folder : str or Path
        Where the files were put; they are read and never changed.
    pack : PackRecord
        What was printed.

    Returns
    -------
    HandedIn
        Of a plot that was handed in twice, the later revision; a file that cannot be read is told.  Files of a
        class sheet with like names, such as ``my_plot (1)``, are two learners' where site, beds or household differ.
    """
    found = HandedIn()
    keys = {plot_key(sheet.code, blank): (sheet, blank) for sheet in pack.sheets for blank in sheet.blanks()}
    works: dict[tuple[str, str], _Work] = {}
    there = [path for path in Path(folder).iterdir() if not path.name.startswith(".")]
    there.sort(key=lambda path: (_COPY.sub("", path.stem), len(path.stem), path.name))
    files = [path for path in there if path.suffix.casefold() == ".json"]
    if others := [path.name for path in there if path not in files and path.name not in _TABLES]:
        names = ", ".join(others[:12])
        found.told.append(Said("homework.handed.not_read", {"n": len(others), "files": names}))
    if len(files) > _MOST_FILES:
        raise InputProblem("homework.many_files", n=len(files), most=_MOST_FILES)
    for path in files:
        try:
            plot = Plot.model_validate_json(bytes_of(path))
        except (InputProblem, ValidationError):
            found.told.append(Said("homework.handed.damaged", {"file": path.name}))
            continue
        _taken(path, plot, keys, works, found.told)
    found.answers = {who: work.answers for who, work in works.items()}
    return found


def _taken(
    path: Path,
    plot: Plot,
    keys: dict[str, tuple[SheetRecord, str]],
    before: dict[tuple[str, str], _Work],
    told: list[Said],
) -> None:
    given: dict[tuple[str, str], dict[str, str]] = {}
    strange = False
    for key, entry in plot.answers.items():
        text = entry.get("text") if isinstance(entry, dict) else entry
        if key in keys and isinstance(text, str):
            sheet, blank = keys[key]
            given.setdefault((sheet.learner, sheet.code), {})[blank] = text
        elif key.startswith("homework.") and not key.startswith(plot_key(PAGE, "")):
            strange = True
    if strange:
        told.append(Said("homework.handed.other_sheet", {"file": path.name}))
    if not given and not strange:
        told.append(Said("homework.handed.no_answers", {"file": path.name}))
    for (learner, code), answers in given.items():
        work, who = _Work(path.name, plot, answers), (learner or _COPY.sub("", path.stem), code)
        first = before.get(who)
        if first is not None and not learner and not first.same_household(work):
            told.append(Said("homework.handed.alike", {"file": work.file, "first": first.file}))
            who, first = (path.stem, code), None
        if first is not None:
            told.append(first.beside(work))
        if first is None or work.plot.revision >= first.plot.revision:
            before[who] = work
