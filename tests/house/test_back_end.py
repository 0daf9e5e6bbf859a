"""Charts choose their back end in one place: what draws, what writes the chart, and what shows it."""

import ast
import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
# Each library of the back end, and the one module that may import it.
ONLY_IN = {
    "vl_convert": "gardenlib/charts/render.py",
    "altair": "gardenlib/charts/quick_altair.py",
    "IPython": "gardenlib/charts/view.py",
}


def _imported(code: str) -> Iterator[str]:
    """Give the libraries that a program's text imports, by any way of writing it."""
    for node in ast.walk(ast.parse(code)):
        if isinstance(node, ast.Import):
            yield from (alias.name.partition(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            yield (node.module or "").partition(".")[0]
        elif isinstance(node, ast.Call) and node.args and isinstance(node.args[0], ast.Constant):
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if called in {"import_module", "__import__"}:
                yield str(node.args[0].value).partition(".")[0]


@cache
def _importers() -> dict[str, list[str]]:
    """Find who imports each library: modules, and pages by their code cells."""
    programs = {path: path.read_text("utf-8") for path in sorted((ROOT / "gardenlib").rglob("*.py"))}
    for path in sorted((ROOT / "notebooks").rglob("*.ipynb")):
        cells = json.loads(path.read_text("utf-8"))["cells"]
        programs[path] = "\n".join("".join(cell["source"]) for cell in cells if cell["cell_type"] == "code")
    found: dict[str, list[str]] = {}
    for path, code in programs.items():
        for library in set(_imported(code)):
            found.setdefault(library, []).append(path.relative_to(ROOT).as_posix())
    return found


@pytest.mark.parametrize("library", ONLY_IN)
def test_one_module_alone_knows_a_back_end(library):
    """Another way to draw or show charts, such as one inside a browser, is put in at one place."""
    assert _importers()[library] == [ONLY_IN[library]]


@pytest.mark.parametrize(
    "code",
    [
        "import vl_convert",
        "import vl_convert as vlc",
        "from vl_convert import vegalite_to_svg",
        "def f():\n    import os, vl_convert",
        "import importlib\nimportlib.import_module('vl_convert')",
    ],
)
def test_the_search_finds_each_way_to_import(code):
    """However the import is written, it is seen."""
    assert "vl_convert" in set(_imported(code))
