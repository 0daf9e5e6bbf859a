"""What the public functions say of themselves: parameters, what comes back, source, an example."""

import importlib
import inspect
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
# Rooms that compute: each function names its source and shows an example. The others read and write files or draw.
COMPUTING = ("site", "soil", "sowing", "beds", "pests", "harvest", "season", "units")
FILES = ("tables", "plot", "class_folder", "sheets")
# These follow no published rule: they read a file, gather what was given, or pass it on.
NO_RULE = {"site.read_station", "site.place", "units.in_system", "sowing.regions"}
MAKES_AN_ANSWER = {
    *("site.FreezeDates.from_station", "site.FreezeDates.from_normals", "site.FreezeDates.typed"),
    *("site.Warmth.from_station", "site.Warmth.from_monthly"),
}
NOMENCLATURE = (ROOT / "docs" / "nomenclature.md").read_text("utf-8")


def _public(room):
    module = importlib.import_module(f"gardenlib.{room}")
    names = getattr(module, "__all__", None) or [n for n, v in vars(module).items() if _is_own(v, module, n)]
    for name in names:
        thing = getattr(module, name)
        if inspect.isclass(thing):
            for attribute, value in vars(thing).items():
                function = inspect.unwrap(getattr(value, "__func__", value))
                if not attribute.startswith(("_", "model_")) and inspect.isfunction(function):
                    yield f"{room}.{name}.{attribute}", function
        elif callable(thing):
            yield f"{room}.{name}", inspect.unwrap(thing)


def _is_own(value, module, name):
    return not name.startswith("_") and inspect.isfunction(value) and value.__module__ == module.__name__


def _parameters(function):
    return [name for name in inspect.signature(function).parameters if name not in {"self", "cls"}]


def _is_computing(name):
    return name.split(".")[0] in COMPUTING


def _sections(function):
    """Split a docstring by its underlined headings."""
    text = inspect.getdoc(function) or ""
    parts = re.split(r"^([A-Z][A-Za-z ]+)\n-{3,}$", text, flags=re.MULTILINE)
    return {"Summary": parts[0], **dict(zip(parts[1::2], parts[2::2], strict=True))}


PUBLIC = {name: function for room in (*COMPUTING, *FILES) for name, function in _public(room)}


def test_the_rooms_have_public_functions():
    """The list that the tests below walk through is not empty in any room."""
    assert {name.split(".")[0] for name in PUBLIC} == {*COMPUTING, *FILES}


@pytest.mark.parametrize("name", sorted(PUBLIC))
def test_docstring_says_what_goes_in_and_comes_out(name):
    """A public function has one line of what, each parameter by name, and what it returns."""
    function, said = PUBLIC[name], _sections(PUBLIC[name])
    assert re.match(r"[A-Z][^\n]+\.(\n|$)", said["Summary"])
    for parameter in _parameters(function):
        named = rf"^(?:.*, )?\*{{0,2}}{parameter}(?:, .*?)?(?: ?:|$)"
        assert re.search(named, said.get("Parameters", ""), re.MULTILINE), parameter
    returns = inspect.signature(function).return_annotation
    if returns not in {None, "None"}:
        assert said.get("Returns", "").strip()


COMPUTED = sorted(
    name
    for name, function in PUBLIC.items()
    if name.split(".")[0] in COMPUTING and name not in NO_RULE and (name.count(".") == 1 or name in MAKES_AN_ANSWER)
)


@pytest.mark.parametrize("name", COMPUTED)
def test_docstring_names_its_source(name):
    """A function that computes, or makes an answer, names where its rule is published, or says that it is not."""
    notes = _sections(PUBLIC[name]).get("Notes", "")
    assert re.search(r"[Ss]ource|[Cc]ommon practice|\b(?:1[89]|20)\d\d\b|our own|[Ss]ee `\w+`", notes)


@pytest.mark.parametrize("name", sorted(name for name in PUBLIC if name.count(".") == 1 and _is_computing(name)))
def test_docstring_shows_an_example(name):
    """A public function of a room that computes shows an example; the doctests run it."""
    assert ">>> " in _sections(PUBLIC[name]).get("Examples", "")


@pytest.mark.parametrize("name", sorted(PUBLIC))
def test_parameters_stand_in_the_nomenclature(name):
    """Each parameter of a public function stands on docs/nomenclature.md, in backticks."""
    assert [p for p in _parameters(PUBLIC[name]) if f"`{p}`" not in NOMENCLATURE] == []


def test_nomenclature_holds_no_parameter_that_is_gone():
    """Each name in the parameter tables is a parameter of some public function."""
    tables = NOMENCLATURE.split("## Words we use")[0]
    named = {name for row in re.findall(r"^\| (`.+?) \|", tables, re.MULTILINE) for name in re.findall(r"`(\w+)`", row)}
    assert named - {parameter for function in PUBLIC.values() for parameter in _parameters(function)} == set()
