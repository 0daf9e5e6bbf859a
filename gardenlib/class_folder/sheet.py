"""Tables as spreadsheets save them: read kindly, and what cannot be read is named with its mend."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from gardenlib.class_folder.days import month_day
from gardenlib.problems import InputProblem
from gardenlib.words import Said

FILL_IN = "FILL-IN"
_LARGEST_MB = 8
_MOST_ROWS = 10_000
_LONGEST_CELL = 500
_END = "end of the table"
_NOT_TEXT = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"%PDF", b"\x89PNG", b"{\\rtf")
_YES = {"yes": True, "y": True, "true": True, "1": True, "no": False, "n": False, "false": False, "0": False, "": False}
T = TypeVar("T")


@dataclass
class Findings:
    """What was found while reading: what must be mended, what is to fill in, what is good to know."""

    problems: list[InputProblem] = field(default_factory=list)
    unset: list[Said] = field(default_factory=list)
    notes: list[Said] = field(default_factory=list)

    def attempt(self, make: Callable[[], T]) -> T | None:
        """Make something, or note why it cannot be made."""
        try:
            return make()
        except InputProblem as problem:
            self.problems.append(problem)
            return None

    def fill_in(self, where: Said, *, needed: bool) -> None:
        """Note a field that still has to be filled in."""
        if needed:
            self.problems.append(InputProblem("class.fill_in", where=where))
        else:
            self.unset.append(Said("problem.class.fill_in", {"where": where}))


@dataclass(frozen=True)
class Row:
    """One row of a table; `number` is its number in the spreadsheet."""

    file: str
    number: int
    cells: Mapping[str, str]
    findings: Findings
    decimal_comma: bool

    def where(self, column: str) -> Said:
        """Name the cell."""
        return Said("class.where", {"file": self.file, "row": self.number, "column": column})

    def refuse(self, column: str, mend: Said) -> None:
        """Note that a cell cannot be used."""
        value = self.cells.get(column, "")[:60]
        self.findings.problems.append(InputProblem("class.cell", where=self.where(column), value=value, mend=mend))

    def text(self, column: str, *, needed: bool = False) -> str:
        """Give the text of a cell; empty when it is to be filled in."""
        value = self.cells.get(column, "")
        if is_fill_in(value):
            self.findings.fill_in(self.where(column), needed=needed)
            return ""
        if len(value) > _LONGEST_CELL:
            self.refuse(column, Said("class.mend.shorter", {"most": _LONGEST_CELL}))
            return ""
        if needed and not value:
            self.findings.problems.append(InputProblem("class.empty", where=self.where(column)))
        return value

    def number_in(self, column: str, low: float, high: float, *, needed: bool = False) -> float | None:
        """Give a number between two limits, or None where the cell is empty."""
        text = self.text(column, needed=needed)
        if not text:
            return None
        value = number(text, decimal_comma=self.decimal_comma)
        if value is None:
            self.refuse(column, Said("class.mend.number"))
        elif not low <= value <= high:
            self.refuse(column, Said("class.mend.between", {"low": low, "high": high}))
            return None
        return value

    def month_day(self, column: str) -> tuple[int, int] | None:
        """Give a day of the year as (month, day), or None where the cell is empty."""
        text = self.text(column)
        return self.findings.attempt(lambda: month_day(text, what=self.where(column))) if text else None

    def choice(self, column: str, choices: Sequence[str], *, needed: bool = False) -> str:
        """Give one of a few words."""
        text = self.text(column, needed=needed)
        if text and text.lower() not in {choice.lower() for choice in choices}:
            self.refuse(column, Said("class.mend.choice", {"choices": ", ".join(choices)}))
            return ""
        return next((choice for choice in choices if choice.lower() == text.lower()), "")

    def yes(self, column: str) -> bool:
        """Give yes or no; an empty cell is no."""
        text = self.text(column).lower()
        if text not in _YES:
            self.refuse(column, Said("class.mend.choice", {"choices": "yes, no"}))
        return _YES.get(text, False)


def is_fill_in(text: str) -> bool:
    """Tell whether a field still waits to be filled in."""
    return text.strip().upper().startswith(FILL_IN)


def number(text: str, *, decimal_comma: bool) -> float | None:
    """Read a number with a decimal point or comma; None when it is none or may be two."""
    text = text.strip().replace("\N{MINUS SIGN}", "-")
    if re.fullmatch(r"[+-]?(\d+(\.\d*)?|\.\d+)", text):
        return float(text)
    thousands = re.fullmatch(r"[+-]?\d{1,3},\d{3}", text) and not decimal_comma
    if re.fullmatch(r"[+-]?\d+,\d+", text) and not thousands:
        return float(text.replace(",", "."))
    return None


def read_text(path: Path, findings: Findings) -> str | None:
    """Read a text file as editors and spreadsheets save it; None when it is not text."""
    try:
        data = path.read_bytes()
    except OSError:
        key = "class.locked" if path.exists() else "class.missing"
        findings.problems.append(InputProblem(key, file=path.name, folder=str(path.parent)))
        return None
    if len(data) > _LARGEST_MB * 1_000_000:
        findings.problems.append(InputProblem("class.too_large", file=path.name, most=_LARGEST_MB))
        return None
    if data.startswith(_NOT_TEXT):
        findings.problems.append(InputProblem("class.not_text", file=path.name))
        return None
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        text = data.decode("utf-16", errors="replace")
    else:
        try:
            text = data.decode("utf-8-sig")
        except UnicodeDecodeError:
            text = data.decode("cp1252", errors="replace")
            findings.notes.append(Said("class.old_letters", {"file": path.name}))
    if "\0" in text:
        findings.problems.append(InputProblem("class.not_text", file=path.name))
        return None
    return text


def read_rows(path: Path, needed: Sequence[str], known: Sequence[str], findings: Findings) -> Iterator[Row]:
    """Give the rows of a table that hold anything.

    Parameters
    ----------
    path : Path
        The file.
    needed, known : sequence of str
        Columns without which the table cannot be read, and all columns that are read.
    findings : Findings
        Where problems and notes go.

    Yields
    ------
    Row
        One row, its cells stripped.
    """
    text = read_text(path, findings)
    if text is None:
        return
    first = next((line for line in text.splitlines() if line.strip(" ,;\t")), "")
    comma = max(",;\t", key=first.count)
    try:
        lines = _lines(text, comma, path.name, findings)
    except csv.Error:
        findings.problems.append(InputProblem("class.not_text", file=path.name))
        return
    filled = [(number, cells) for number, cells in enumerate(lines, start=1) if any(cells)]
    header = [re.sub(r"[\s-]+", "_", name.lower()) for name in filled[0][1]] if filled else []
    named = [name for name in header if name]
    twice = sorted({name for name in named if named.count(name) > 1})
    missing = [name for name in needed if name not in named]
    if twice or missing or len(filled) > _MOST_ROWS + 1:
        key = "class.columns_twice" if twice else "class.columns_missing" if missing else "class.too_long"
        columns = ", ".join(twice or missing)
        findings.problems.append(InputProblem(key, file=path.name, columns=columns, most=_MOST_ROWS))
        return
    if extra := [name for name in named if name not in known]:
        findings.notes.append(Said("class.extra_columns", {"file": path.name, "columns": ", ".join(extra)}))
    for line_number, cells in filled[1:]:
        if beyond := [cell for cell, name in _beyond(cells, header) if not name and cell]:
            findings.problems.append(
                InputProblem("class.too_many_cells", file=path.name, row=line_number, value=beyond[0][:60])
            )
            continue
        yield Row(path.name, line_number, {n: c for c, n in _beyond(cells, header) if n}, findings, comma != ",")


def _lines(text: str, comma: str, file: str, findings: Findings) -> list[list[str]]:
    """Part a table into rows of stripped cells; where a quote mark is never closed, each line by itself."""
    *lines, last = csv.reader(io.StringIO(f"{text.rstrip()}\n{_END}"), delimiter=comma)
    if last != [_END]:
        findings.problems.append(InputProblem("class.open_quote", file=file, row=len(lines) + 1))
        lines = [next(csv.reader([line], delimiter=comma), []) for line in text.splitlines()]
    return [[cell.strip() for cell in line] for line in lines]


def _beyond(cells: list[str], header: list[str]) -> Iterator[tuple[str, str]]:
    for place, cell in enumerate(cells):
        yield cell, header[place] if place < len(header) else ""
