"""Laying out pages and the demo class without writing over what a learner has changed."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from gardenlib.carried import INSTRUCTOR, carried
from gardenlib.words import Said

DEMO_CLASS = "demo_class"
NOTES = ".workbook"


def pages() -> list[tuple[Path, bytes]]:
    """Give the learners' pages that travel with the library, without outputs, by their place in the folder."""
    return _pages(".")


def instructor_pages() -> list[tuple[Path, bytes]]:
    """Give the instructor's pages in the same way; they have a folder of their own."""
    return _pages(INSTRUCTOR)


def _pages(part: str) -> list[tuple[Path, bytes]]:
    pages = []
    for source in sorted((carried("notebooks") / part).glob("*.ipynb")):
        tree = json.loads(source.read_text("utf-8"))
        for cell in tree["cells"]:
            if cell["cell_type"] == "code":
                cell["outputs"], cell["execution_count"] = [], None
        pages.append((Path(part) / source.name, (json.dumps(tree, indent=1, ensure_ascii=False) + "\n").encode()))
    return pages


def demo_files() -> list[tuple[Path, bytes]]:
    """Give the files of the invented demo class, by their place in the folder."""
    home = carried("data_demo")
    files = (
        path for path in sorted(home.rglob("*")) if path.is_file() and path.suffix in {".toml", ".csv", ".json", ".md"}
    )
    return [(DEMO_CLASS / path.relative_to(home), path.read_bytes()) for path in files]


def page_mark(data: bytes) -> str:
    """Mark a page by what a person writes in it; outputs and cell states leave it as it is."""
    try:
        cells = json.loads(data)["cells"]
        written: Any = [[cell["cell_type"], "".join(cell["source"])] for cell in cells]
    except (ValueError, KeyError, TypeError):
        return file_mark(data)
    return file_mark(json.dumps(written).encode())


def file_mark(data: bytes) -> str:
    """Mark a file by its bytes."""
    return hashlib.sha256(data).hexdigest()


def lay_out(folder: Path, items: list[tuple[Path, bytes]], mark: Callable[[bytes], str]) -> list[Said]:
    """Write what is missing or was left as it was; keep what was changed and put the new one beside it."""
    record = folder / NOTES / "laid_out.json"
    marks = _marks(record)
    told = []
    for name, data in items:
        target, key, new = folder / name, name.as_posix(), mark(data)
        there = mark(target.read_bytes()) if target.exists() else None
        if there in {None, new, marks.get(key)}:
            if there != new:
                _write(target, data)
            marks[key] = new
        elif new not in {marks.get(key), marks.get(f"{key} beside")}:
            beside = next(path for path in _names_beside(target) if not path.exists())
            _write(beside, data)
            marks[f"{key} beside"] = new
            told.append(Said("open.kept", {"page": key, "new": beside.name}))
    _write(record, json.dumps(marks, indent=1).encode())
    return told


def _marks(record: Path) -> dict[str, str]:
    try:
        return dict(json.loads(record.read_text("utf-8")))
    except (FileNotFoundError, ValueError):
        return {}


def _names_beside(path: Path) -> Iterator[Path]:
    yield path.with_name(f"{path.stem}_new{path.suffix}")
    number = 2
    while True:
        yield path.with_name(f"{path.stem}_new_{number}{path.suffix}")
        number += 1


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    being_written = path.with_name(f".{path.name}.writing")
    being_written.write_bytes(data)
    being_written.replace(path)
