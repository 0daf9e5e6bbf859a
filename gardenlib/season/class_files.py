"""What the table for the coordinator is counted from: a folder of plot files, and the table of heads."""

from __future__ import annotations

from datetime import date
from hashlib import sha256
from pathlib import Path
from re import search

from pydantic import ValidationError

from gardenlib.class_folder.sheet import Findings, Row, read_rows
from gardenlib.plot.disk import bytes_of
from gardenlib.plot.model import Plot
from gardenlib.problems import InputProblem
from gardenlib.season.typed import typed_day
from gardenlib.words import Said

MOST_FILES = 500
MOST_HEADS = 1000


def plots_in(folder: Path) -> tuple[list[Plot], list[Said]]:
    """Read the plot files as they are; copies and what cannot be read are named and skipped."""
    if not folder.is_dir():
        raise InputProblem("coord.folder", folder=str(folder))
    files = sorted(path for path in folder.glob("*.json") if path.is_file() and not path.name.startswith("."))
    if len(files) > MOST_FILES:
        raise InputProblem("coord.files", n=len(files), most=MOST_FILES)
    plots: list[Plot] = []
    left_out: list[Said] = []
    seen: dict[bytes, str] = {}
    for path in files:
        if search(r"\.(kept|damaged)-\d+$", path.stem):
            left_out.append(Said("coord.older", {"file": path.name}))
            continue
        try:
            data = bytes_of(path)
            plot = Plot.model_validate_json(data)
        except (InputProblem, ValidationError):
            left_out.append(Said("coord.unreadable", {"file": path.name}))
            continue
        if not {"version", "revision"} <= plot.model_fields_set:
            left_out.append(Said("coord.no_plot", {"file": path.name}))
        # Two learners may give the same three answers, but not keep the same log.
        elif plot.log and (same := seen.setdefault(sha256(data).digest(), path.name)) != path.name:
            left_out.append(Said("coord.copy", {"file": path.name, "first": same}))
        else:
            plots.append(plot)
    return plots, left_out


def heads_by_day(path: Path) -> dict[date, int]:
    """Read the table of heads; its first fault is told."""
    findings = Findings()
    heads: dict[date, int] = {}
    for row in read_rows(path, ["date", "heads"], ["date", "heads"], findings):
        day, number = _day(row), row.number_in("heads", 0, MOST_HEADS, needed=True)
        if number is not None and number != int(number):
            row.refuse("heads", Said("coord.mend_whole"))
        elif day in heads:
            row.refuse("date", Said("coord.mend_once"))
        elif day is not None and number is not None:
            heads[day] = int(number)
    if findings.problems:
        raise findings.problems[0]
    return heads


def _day(row: Row) -> date | None:
    text = row.text("date", needed=True)
    return row.findings.attempt(lambda: typed_day(text, what=row.where("date"))) if text else None
