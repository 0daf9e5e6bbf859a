"""Tables to fill in after class: answers copied off the paper, or how many made which mistake."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from gardenlib.class_folder.sheet import Findings, read_rows
from gardenlib.homework.handed_in import ANSWER_COLUMNS
from gardenlib.homework.record import PackRecord
from gardenlib.plot.disk import put
from gardenlib.words import Said

__all__ = ["Tallied", "as_csv", "tally_from_csv", "write_templates"]

_TALLY_COLUMNS = ("question", "reason", "reason_id", "how_many")
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_MOST = 1000


@dataclass(frozen=True)
class Tallied:
    """How many gave one reason at a question."""

    question: str
    title: str
    reason: str
    reply: str
    n: int


def write_templates(
    folder: str | Path, pack: PackRecord, *, holders: Mapping[str, Sequence[str]] | None = None
) -> tuple[Path, Path]:
    """Write empty ``answers.csv`` and ``tally.csv`` for a pack.

    Parameters
    ----------
    folder : str or Path
        Where; files of these names are replaced.
    pack : PackRecord
        What was printed.
    holders : mapping of str to sequence of str, optional
        Ids of the learners who hold a sheet, by its code; else the learner that the record names.

    Returns
    -------
    tuple of Path
        The two files.
    """
    answers, tally = Path(folder) / "answers.csv", Path(folder) / "tally.csv"
    rows = [
        (who, sheet.code, blank.id, question.title, "")
        for sheet in pack.sheets
        for who in (holders or {}).get(sheet.code) or [sheet.learner]
        for question in sheet.questions
        for blank in question.blanks
    ]
    put(answers, as_csv(ANSWER_COLUMNS, rows))
    reasons = [(question, reply or title, reason, "") for (question, reason), (title, reply) in _reasons(pack).items()]
    put(tally, as_csv(_TALLY_COLUMNS, reasons))
    return answers, tally


def tally_from_csv(path: str | Path, pack: PackRecord) -> tuple[list[Tallied], list[Said]]:
    """Read how many made which mistake.

    Parameters
    ----------
    path : str or Path
        The filled-in ``tally.csv``.
    pack : PackRecord
        What was printed.

    Returns
    -------
    tuple of (list of Tallied, list of Said)
        The counts, and what the instructor should know.
    """
    findings, counted, told = Findings(), [], list[Said]()
    known = _reasons(pack)
    for row in read_rows(Path(path), ("question", "reason_id", "how_many"), _TALLY_COLUMNS, findings):
        number = row.number_in("how_many", 0, _MOST)
        key = (row.cells.get("question", ""), row.cells.get("reason_id", ""))
        if number and key not in known:
            value = " ".join(key)[:40]
            told.append(Said("homework.handed.row", {"file": row.file, "row": row.number, "value": value}))
        elif number and number != int(number):
            row.refuse("how_many", Said("homework.handed.whole"))
        elif number:
            title, reply = known[key]
            counted.append(Tallied(key[0], title, key[1], "" if key[1] == "holds" else reply, int(number)))
    return counted, [*(Said(problem.key, problem.values) for problem in findings.problems), *findings.notes, *told]


def _reasons(pack: PackRecord) -> dict[tuple[str, str], tuple[str, str]]:
    """Give each question's possible reasons with the question's title and the reason in words."""
    found: dict[tuple[str, str], tuple[str, str]] = {}
    for sheet in pack.sheets:
        say = sheet.voice.say
        for question in sheet.questions:
            if not question.blanks:
                continue
            slips = {slip.id: slip.reply for blank in question.blanks for slip in blank.slips}
            reasons = {"holds": say("homework.reason.holds"), **slips}
            reasons |= {"other": say("homework.reason.other"), "nothing": say("homework.reason.nothing")}
            for reason, words in reasons.items():
                found.setdefault((question.id, reason), (question.title, words))
    return found


def as_csv(head: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """Write a table for a spreadsheet; a cell that could be read as a formula begins with an apostrophe."""
    written = io.StringIO()
    writer = csv.writer(written)
    writer.writerow(head)
    writer.writerows([f"'{cell}" if str(cell).startswith(_FORMULA) else cell for cell in row] for row in rows)
    return written.getvalue().encode("utf-8-sig")
