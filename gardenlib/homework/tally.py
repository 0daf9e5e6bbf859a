"""Tables to fill in after class: answers copied off the paper, or how many made which mistake."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from gardenlib.class_folder.sheet import Findings, read_rows
from gardenlib.homework.handed_in import ANSWER_COLUMNS
from gardenlib.homework.reasons import Foreseen, foreseen
from gardenlib.homework.record import PackRecord
from gardenlib.plot.disk import bytes_of, free_name, put
from gardenlib.problems import InputProblem
from gardenlib.words import Said, Voice

Counts = Mapping[tuple[str, str], int]
"""How many answers by question and reason."""
MOST = 1000
_TALLY_COLUMNS = ("question", "reason", "reason_id", "how_many")
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


@dataclass(frozen=True)
class Tallied(Foreseen):
    """How many gave one reason at a question."""

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
    put(tally, _tally_table(pack, {}))
    return answers, tally


def _tally_table(pack: PackRecord, counts: Counts) -> bytes:
    rows = ((one.question, one.reply, one.reason, counts.get(key) or "") for key, one in foreseen(pack).items())
    return as_csv(_TALLY_COLUMNS, rows)


def keep_tally(path: str | Path, pack: PackRecord, counts: Counts, *, seen: Counts) -> Path | None:
    """Write how many made which mistake, whole or not at all.

    Parameters
    ----------
    path : str or Path
        The file ``tally.csv``, with its folder if that is not there.
    pack : PackRecord
        What was printed.
    counts : mapping
        How many answers by question and reason; those of questions that are not in the pack are not written.
    seen : mapping
        The counts that stood in the file when it was last read.

    Returns
    -------
    Path or None
        Where the file that stood there is kept: it held rows that cannot be used, or was changed since it was read.

    Raises
    ------
    InputProblem
        When the file cannot be written; then the one that stood there stays.
    """
    path, kept = Path(path), None
    make_folder(path.parent)
    if path.exists():
        there, told = tally_from_csv(path, pack)
        if told or summed(there) != {key: n for key, n in seen.items() if n}:
            kept = free_name(path, "before")
            put(kept, bytes_of(path))
    put(path, _tally_table(pack, counts))
    return kept


def make_folder(folder: Path) -> None:
    """Make a folder of a pack where it is not there yet."""
    try:
        folder.mkdir(exist_ok=True)
    except OSError:
        raise InputProblem("plot.unwritable", file=folder.name, folder=str(folder.parent)) from None


def summed(tally: Iterable[Tallied]) -> dict[tuple[str, str], int]:
    """Add up what was counted, by question and reason."""
    found: Counter[tuple[str, str]] = Counter()
    for row in tally:
        found[row.question, row.reason] += row.n
    return dict(found)


def tally_from_csv(
    path: str | Path, pack: PackRecord, *, voice: Voice | None = None
) -> tuple[list[Tallied], list[Said]]:
    """Read how many made which mistake.

    Parameters
    ----------
    path : str or Path
        The filled-in ``tally.csv``.
    pack : PackRecord
        What was printed.
    voice : Voice, optional
        How the person who counts is spoken to.

    Returns
    -------
    tuple of (list of Tallied, list of Said)
        The counts, and what the instructor should know.
    """
    findings, counted, told = Findings(), [], list[Said]()
    known = foreseen(pack, voice=voice)
    for row in read_rows(Path(path), ("question", "reason_id", "how_many"), _TALLY_COLUMNS, findings):
        number = row.number_in("how_many", 0, MOST)
        key = (row.cells.get("question", ""), row.cells.get("reason_id", ""))
        if number and key not in known:
            value = " ".join(key)[:40]
            told.append(Said("homework.handed.row", {"file": row.file, "row": row.number, "value": value}))
        elif number and number != int(number):
            row.refuse("how_many", Said("homework.handed.whole"))
        elif number:
            counted.append(Tallied(**vars(known[key]), n=int(number)))
    return counted, [*(problem.said for problem in findings.problems), *findings.notes, *told]


def as_csv(head: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """Write a table for a spreadsheet; a cell that could be read as a formula begins with an apostrophe."""
    written = io.StringIO()
    writer = csv.writer(written)
    writer.writerow(head)
    writer.writerows([f"'{cell}" if str(cell).startswith(_FORMULA) else cell for cell in row] for row in rows)
    return written.getvalue().encode("utf-8-sig")
