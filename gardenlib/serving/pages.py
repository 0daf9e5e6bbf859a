"""The pages that are served: chosen ones, as copies that ask whose plot they are about."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from gardenlib.class_folder import ClassFolder
from gardenlib.problems import InputProblem
from gardenlib.words import Voice
from gardenlib.working_folder.lay_out import pages as carried_pages

_ASKS_WHOSE = "from gardenlib.serving import visitor\nplot_file, class_folder = visitor()\ntoday = None"
_FOR_LEARNERS = re.compile(r"[0-9]{2}_[a-z0-9_]+")
_HOW = "**How these pages work.**"


@dataclass(frozen=True)
class Page:
    """One page that is served."""

    name: str
    title: str


def chosen_pages(klass: ClassFolder, asked: Sequence[str]) -> list[str]:
    """List the pages to serve: those asked for, else those of the class's meetings, else all for learners."""
    known = [path.stem for path, _ in carried_pages() if _FOR_LEARNERS.fullmatch(path.stem)]
    wanted = [name.removesuffix(".ipynb") for name in asked] or [meeting.page for meeting in klass.sessions]
    for name in wanted:
        if name not in known:
            raise InputProblem("open.no_page", page=name, pages=", ".join(known))
    return list(dict.fromkeys(wanted)) or known


def page_of_the_day(klass: ClassFolder, names: Sequence[str], today: date) -> str:
    """Find the page of the class's next meeting, today's included; the first page where there is none."""
    coming = sorted((meeting.date, meeting.page) for meeting in klass.sessions if meeting.date >= today)
    return next((page for _, page in coming if page in names), names[0])


def lay_out_copies(folder: Path, names: Sequence[str], voice: Voice) -> list[Page]:
    """Write the served copies of the pages."""
    books = {path.stem: json.loads(data) for path, data in carried_pages()}
    served = []
    for name in names:
        book = books[name]
        for cell in book["cells"]:
            _change(cell, voice)
        (folder / f"{name}.ipynb").write_text(json.dumps(book, ensure_ascii=False), "utf-8")
        served.append(Page(name, _title(book) or name))
    return served


def _change(cell: dict[str, Any], voice: Voice) -> None:
    if "parameters" in cell["metadata"].get("tags", []):
        cell["source"] = _ASKS_WHOSE
    elif cell["cell_type"] == "markdown":
        parts = "".join(cell["source"]).split("\n\n")
        how = f"{_HOW} {voice.say('serving.how_pages_work')}"
        cell["source"] = "\n\n".join(how if part.startswith(_HOW) else part for part in parts)


def _title(book: dict[str, Any]) -> str:
    words = "\n".join("".join(cell["source"]) for cell in book["cells"] if cell["cell_type"] == "markdown")
    heading = re.search(r"^# (.+)$", words, re.MULTILINE)
    return heading[1].strip() if heading else ""
