"""Pages in another language: the prose by cell beside the English page, the code the same."""

from __future__ import annotations

import copy
import json
import tomllib
from pathlib import Path
from typing import Any

from gardenlib.carried import carried

OPEN = '("{page}", '


def translated_pages(language: str, part: str = ".") -> list[tuple[Path, bytes]]:
    """Give the translated pages of one part, by their place in the working folder: ``03_beds.es.ipynb``."""
    home, pages = carried("notebooks"), []
    for source in sorted((home / part).glob("*.ipynb")):
        prose = home / language / f"{source.stem}.toml"
        if prose.is_file():
            tree = json.loads(source.read_text("utf-8"))
            made = translated(tree, tomllib.loads(prose.read_text("utf-8")), source.stem, language)
            name = Path(part) / f"{source.stem}.{language}.ipynb"
            pages.append((name, (json.dumps(made, indent=1, ensure_ascii=False) + "\n").encode()))
    return pages


def translated(tree: dict[str, Any], prose: dict[str, Any], page: str, language: str) -> dict[str, Any]:
    """Put the prose of a language into a page, which then opens in that language; outputs are left out."""
    made = copy.deepcopy(tree)
    for cell in made["cells"]:
        if cell["cell_type"] == "markdown":
            cell["source"] = prose[cell["id"]]["text"].splitlines(keepends=True)
        else:
            cell["outputs"], cell["execution_count"] = [], None
            begins = OPEN.format(page=page)
            source = "".join(cell["source"]).replace(begins, f'{begins}language="{language}", ')
            cell["source"] = source.splitlines(keepends=True)
    return made
