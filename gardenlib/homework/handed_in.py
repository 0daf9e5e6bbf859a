"""Work that was handed in, as plot files or typed off the paper; what cannot be used is told, the rest goes on."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from pydantic import ValidationError

from gardenlib.class_folder.sheet import Findings, read_rows
from gardenlib.homework.marking import MarkedSheet, marked_sheet
from gardenlib.homework.record import PackRecord, SheetRecord
from gardenlib.plot import Plot
from gardenlib.plot.disk import bytes_of
from gardenlib.problems import InputProblem
from gardenlib.words import Said

__all__ = ["ANSWER_COLUMNS", "HandedIn", "answers_from_csv", "answers_from_plots", "plot_key"]

ANSWER_COLUMNS = ("learner", "sheet_code", "blank_id", "question", "answer")
_COPY = re.compile(r"(?:[ _-]*(?:\(\d+\)|copy(?:[ _-]*\d+)?))+$", re.IGNORECASE)
_MOST_FILES = 500


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
        Of a plot that was handed in twice, the later revision; a file that cannot be read is told.
    """
    found = HandedIn()
    keys = {plot_key(sheet.code, blank): (sheet, blank) for sheet in pack.sheets for blank in sheet.blanks()}
    revisions: dict[tuple[str, str], tuple[int, str]] = {}
    files = sorted(path for path in Path(folder).glob("*.json") if path.is_file() and not path.name.startswith("."))
    if len(files) > _MOST_FILES:
        raise InputProblem("homework.many_files", n=len(files), most=_MOST_FILES)
    for path in files:
        try:
            plot = Plot.model_validate_json(bytes_of(path))
        except (InputProblem, ValidationError):
            found.told.append(Said("homework.handed.damaged", {"file": path.name}))
            continue
        _take(path, plot, keys, revisions, found)
    return found


def _take(
    path: Path,
    plot: Plot,
    keys: dict[str, tuple[SheetRecord, str]],
    revisions: dict[tuple[str, str], tuple[int, str]],
    found: HandedIn,
) -> None:
    given: dict[tuple[str, str], dict[str, str]] = {}
    strange = False
    for key, entry in plot.answers.items():
        text = entry.get("text") if isinstance(entry, dict) else entry
        if key in keys and isinstance(text, str):
            sheet, blank = keys[key]
            given.setdefault((sheet.learner or _COPY.sub("", path.stem), sheet.code), {})[blank] = text
        elif key.startswith("homework."):
            strange = True
    if strange:
        found.told.append(Said("homework.handed.other_sheet", {"file": path.name}))
    if not given and not strange:
        found.told.append(Said("homework.handed.no_answers", {"file": path.name}))
    for who, answers in given.items():
        before = revisions.get(who)
        if before is not None:
            later = path.name if plot.revision >= before[0] else before[1]
            found.told.append(Said("homework.handed.twice", {"file": path.name, "first": before[1], "used": later}))
        if before is None or plot.revision >= before[0]:
            revisions[who] = (plot.revision, path.name)
            found.answers[who] = answers


def answers_from_csv(path: str | Path, pack: PackRecord) -> HandedIn:
    """Read answers that were typed off the paper.

    Parameters
    ----------
    path : str or Path
        The filled-in ``answers.csv``.
    pack : PackRecord
        What was printed.

    Returns
    -------
    HandedIn
        Rows for another sheet, or for a blank that was not asked, are told and left out.
    """
    found, findings = HandedIn(), Findings()
    sheets = {sheet.code: sheet for sheet in pack.sheets}
    for row in read_rows(Path(path), ("sheet_code", "blank_id", "answer"), ANSWER_COLUMNS, findings):
        text, code, blank = (row.cells.get(name, "") for name in ("answer", "sheet_code", "blank_id"))
        if not text:
            continue
        sheet = sheets.get(code)
        where = {"file": row.file, "row": row.number}
        if sheet is None or blank not in sheet.blanks():
            value = code if sheet is None else blank
            found.told.append(Said("homework.handed.row", {**where, "value": value[:40]}))
            continue
        typed = row.cells.get("learner", "")[:80]
        if sheet.learner and typed and typed != sheet.learner:
            found.told.append(Said("homework.handed.other_learner", {**where, "code": code, "learner": typed[:40]}))
            continue
        answers = found.answers.setdefault((sheet.learner or typed, code), {})
        if answers.get(blank, text) != text:
            found.told.append(Said("homework.handed.row_twice", {**where, "value": blank}))
        answers[blank] = text
    found.told = [*(Said(problem.key, problem.values) for problem in findings.problems), *findings.notes, *found.told]
    return found
