"""Answers that were typed off the paper into a table; what cannot be used is told, the rest goes on."""

from __future__ import annotations

import re
from collections.abc import Collection
from pathlib import Path

from gardenlib.class_folder.sheet import Findings, read_rows
from gardenlib.homework.handed_in import ANSWER_COLUMNS, HandedIn
from gardenlib.homework.record import PackRecord
from gardenlib.words import Said

_AS_TEXT = re.compile(r"^'(?=[=+@\t\r-])")


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
        Rows for another sheet, or for a blank that was not asked, are told and left out.  A learner who got no such
        sheet when it was printed is told and marked.
    """
    found, findings, strangers = HandedIn(), Findings(), dict[tuple[str, str], Said]()
    any_text = False
    sheets = {sheet.code: (sheet, frozenset(sheet.blanks())) for sheet in pack.sheets}
    for row in read_rows(Path(path), ("sheet_code", "blank_id", "answer"), ANSWER_COLUMNS, findings):
        text, code, blank, who = (
            _AS_TEXT.sub("", row.cells.get(name, "")) for name in ("answer", "sheet_code", "blank_id", "learner")
        )
        if not text:
            continue
        any_text = True
        sheet, blanks = sheets.get(_code_of(code, sheets), (None, frozenset()))
        where = {"file": row.file, "row": row.number}
        if sheet is None or blank not in blanks:
            value = code if sheet is None else blank
            found.told.append(Said("homework.handed.row", {**where, "value": value[:40]}))
            continue
        holders = sheet.holders or (sheet.learner,)
        typed = next((one for one in holders if one.casefold() == who.casefold()), who[:80])
        if sheet.holders and typed not in sheet.holders:
            key = "no_learner" if not typed else "stranger"
            values = {**where, "code": sheet.code, "learner": typed[:40]}
            strangers.setdefault((typed, sheet.code), Said(f"homework.handed.{key}", values))
        if sheet.learner and typed and typed != sheet.learner:
            found.told.append(Said("homework.handed.other_learner", {**where, "code": code, "learner": typed[:40]}))
            continue
        answers = found.answers.setdefault((sheet.learner or typed, sheet.code), {})
        if answers.get(blank, text) != text:
            found.told.append(Said("homework.handed.row_twice", {**where, "value": blank}))
        answers[blank] = text
    problems = [problem.said for problem in findings.problems]
    if not (any_text or problems):
        problems.append(Said("homework.handed.no_answers", {"file": Path(path).name}))
    found.told = [*problems, *findings.notes, *found.told, *strangers.values()]
    return found


def _code_of(typed: str, codes: Collection[str]) -> str:
    """Read a code without its dashes, or one such as 04-12-27 that a spreadsheet took for a date.

    Of a date, one code has these numbers, in any order.
    """
    if re.fullmatch(r"\d\d ?\d\d ?\d\d", typed):
        return "-".join(re.findall(r"\d\d", typed))
    if not re.fullmatch(r"\d{1,4}([-/.])\d{1,2}\1\d{1,4}", typed) or typed in codes:
        return typed
    numbers = [sorted(int(number) % 100 for number in re.findall(r"\d+", text)) for text in (typed, *codes)]
    found = [code for code, those in zip(codes, numbers[1:], strict=True) if those == numbers[0]]
    return found[0] if len(found) == 1 else typed
