"""The pages in other languages: whole, made from today's English, and opened in their own language."""

import hashlib
import json
import tomllib

import pytest

from gardenlib.carried import carried
from gardenlib.working_folder import prepare
from gardenlib.working_folder.translated import translated_pages

HOME = carried("notebooks")
PROSE = sorted(HOME.glob("*/*.toml"))
PAGES = sorted(path.stem for path in HOME.glob("*.ipynb"))
INSTRUCTOR = sorted(path.stem for path in HOME.glob("instructor/*.ipynb"))


def _page(name):
    return HOME / "instructor" / f"{name}.ipynb" if name in INSTRUCTOR else HOME / f"{name}.ipynb"


def _english(page):
    cells = json.loads(_page(page).read_text("utf-8"))["cells"]
    return {cell["id"]: "".join(cell["source"]) for cell in cells if cell["cell_type"] == "markdown"}


def test_every_page_is_in_spanish():
    """Each page has its prose in Spanish, the instructor's too."""
    assert [path.stem for path in PROSE if path.parent.name == "es"] == sorted([*PAGES, *INSTRUCTOR])


@pytest.mark.parametrize("path", PROSE, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_prose_is_whole_and_fresh(path):
    """Each cell of the page has its prose, made from the English that stands there today, with as many items."""
    prose = tomllib.loads(path.read_text("utf-8"))
    english = _english(path.stem)
    assert list(prose) == list(english)
    stale = [
        cell
        for cell, text in english.items()
        if hashlib.sha256(text.encode()).hexdigest()[:8] != prose[cell]["made_from"]
    ]
    assert stale == []
    for cell, text in english.items():
        assert prose[cell]["text"].count("\n- ") == text.count("\n- ")
        assert prose[cell]["text"].startswith("#")


def test_a_translated_page_has_the_same_code_and_opens_in_its_language():
    """Only prose and the language of the opening line differ; outputs are left out."""
    pages = [*translated_pages("es"), *translated_pages("es", "instructor")]
    assert len(pages) == len(PAGES) + len(INSTRUCTOR)
    for name, data in pages:
        cells = json.loads(data)["cells"]
        there = json.loads(_page(name.name.removesuffix(".es.ipynb")).read_text("utf-8"))["cells"]
        for cell, english in zip(cells, there, strict=True):
            assert cell["id"] == english["id"]
            if cell["cell_type"] == "code" and cell["id"] != "open":
                assert "".join(cell["source"]) == "".join(english["source"])
                assert cell["outputs"] == []
        opening = next("".join(cell["source"]) for cell in cells if cell["id"] == "open")
        assert 'language="es"' in opening


def test_a_class_with_two_languages_has_both_pages(tmp_path):
    """The working folder of a class that names Spanish holds each page twice; one that does not, once."""
    klass = tmp_path / "class"
    klass.mkdir()
    for path in carried("data_demo").rglob("*"):
        if path.is_file() and path.suffix in {".toml", ".csv", ".json"}:
            target = klass / path.relative_to(carried("data_demo"))
            target.parent.mkdir(exist_ok=True)
            target.write_bytes(path.read_bytes())
    settings = (klass / "class.toml").read_text("utf-8")
    (klass / "class.toml").write_text(settings.replace('languages = ["en"]', 'languages = ["en", "es"]'), "utf-8")
    both = prepare(tmp_path / "both", class_path=klass).folder
    assert sorted(path.name for path in both.glob("*.es.ipynb")) == [f"{page}.es.ipynb" for page in PAGES]
    desk = prepare(tmp_path / "desk", class_path=klass, instructor=True).folder / "instructor"
    assert sorted(path.name for path in desk.glob("*.es.ipynb")) == [f"{page}.es.ipynb" for page in INSTRUCTOR]
    one = prepare(tmp_path / "one").folder
    assert list(one.rglob("*.es.ipynb")) == []
