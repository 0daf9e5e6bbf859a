"""The pages that are served: chosen ones, as copies that ask whose plot they are about.

Their prose is that of the class's first language, and English where a page is not translated.
Panels speak the learner's own language once it is chosen on the first page.
"""

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
from gardenlib.working_folder.translated import translated_pages

_ASKS_WHOSE = "from gardenlib.serving import visitor\nplot_file, class_folder = visitor()\ntoday = None"
_FOR_LEARNERS = re.compile(r"[0-9]{2}_[a-z0-9_]+")
_RUN_IT = re.compile(r"^(\*\*[^*]+\*\*) .*\*Run All Cells\*.*$", re.MULTILINE)  # the menu's words in every language


@dataclass(frozen=True)
class Page:
    """One page that is served."""

    name: str
    title: str


def pages_for_learners(language: str = "en") -> list[Page]:
    """List all pages that can be served, each with its title in a language."""
    return [Page(name, _title(book) or name) for name, book in _books(language).items()]


def _books(language: str) -> dict[str, dict[str, Any]]:
    own = {path.name.removesuffix(f".{language}.ipynb"): data for path, data in translated_pages(language)}
    names = [(path.stem, data) for path, data in carried_pages() if _FOR_LEARNERS.fullmatch(path.stem)]
    return {name: json.loads(own.get(name, data)) for name, data in names}


def chosen_pages(klass: ClassFolder, asked: Sequence[str]) -> list[str]:
    """List the pages to serve: those asked for, else those of the class's meetings, else all for learners."""
    known = [page.name for page in pages_for_learners()]
    wanted = [name.removesuffix(".ipynb") for name in asked] or [meeting.page for meeting in klass.sessions]
    for name in wanted:
        if name not in known:
            raise InputProblem("open.no_page", page=name, pages=", ".join(known))
    return list(dict.fromkeys(wanted)) or known


def page_of_the_day(klass: ClassFolder, names: Sequence[str], today: date) -> str:
    """Find the page of the class's next meeting, today's included; the first page where there is none."""
    coming = sorted((meeting.date, meeting.page) for meeting in klass.sessions if meeting.date >= today)
    return next((page for _, page in coming if page in names), names[0])


def lay_out_copies(folder: Path, names: Sequence[str], voice: Voice) -> None:
    """Write the served copies of the pages."""
    books = _books(voice.language)
    for name in names:
        book = books[name]
        book["metadata"]["title"] = _title(book) or name
        for cell in book["cells"]:
            _change(cell, voice)
        (folder / f"{name}.ipynb").write_text(json.dumps(book, ensure_ascii=False), "utf-8")


def _change(cell: dict[str, Any], voice: Voice) -> None:
    source = "".join(cell["source"])
    if "parameters" in cell["metadata"].get("tags", []):
        source = _ASKS_WHOSE
    elif cell["cell_type"] == "code":
        source = source.replace("class_folder=class_folder, ", "class_folder=class_folder, served=True, ")
    else:
        how = voice.say("serving.how_pages_work")
        source = _RUN_IT.sub(lambda found: f"{found[1]} {how}", source)
    cell["source"] = source


def _title(book: dict[str, Any]) -> str:
    words = "\n".join("".join(cell["source"]) for cell in book["cells"] if cell["cell_type"] == "markdown")
    heading = re.search(r"^# (.+)$", words, re.MULTILINE)
    return heading[1].strip() if heading else ""
