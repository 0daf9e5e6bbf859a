"""Every page in Spanish, all folds open: no sentence that cannot be filled in, nothing broken, and Spanish it is."""

import json
import re
import shutil
from operator import attrgetter

import ipywidgets
import pytest

from gardenlib import charts, panels, plot
from gardenlib.carried import carried
from gardenlib.panels import controls
from gardenlib.words import Voice

PAGES = sorted(path.stem for path in carried("notebooks").glob("*.ipynb"))
TODAY = "2027-02-20"


def _widgets(widget):
    yield widget
    for child in getattr(widget, "children", ()):
        yield from _widgets(child)


@pytest.fixture
def shown(monkeypatch):
    """Collect what a page puts on the screen."""
    found = []
    real = charts.show

    def show(widget, *rest):
        found.append(widget)
        return real(widget, *rest)

    monkeypatch.setattr(charts, "show", show)
    return found


@pytest.mark.parametrize("page", PAGES)
def test_page_is_whole_in_spanish(page, tmp_path, shown, monkeypatch, capsys):
    """The demo's plot with all its guesses, read in Spanish; each fold opens and the log stays empty."""
    shutil.copy(carried("data_demo") / "class_plot.json", tmp_path / "my_plot.json")
    opened = plot.read(tmp_path / "my_plot.json")
    household = {**opened.household.model_dump(mode="json"), "language": "es"}
    plot.update(tmp_path / "my_plot.json", "household", household, seen_revision=opened.revision)
    monkeypatch.chdir(tmp_path)
    session = panels.open_page(page, today=TODAY)
    for cell in json.loads((carried("notebooks") / f"{page}.ipynb").read_text("utf-8"))["cells"]:
        for part, name in re.findall(r"^panels\.([\w.]+)\(session(?:, \"(\w+)\")?\);$", "".join(cell["source"]), re.M):
            attrgetter(part)(panels)(session, *([name] if name else []))
    assert len(shown) > 3
    for widget in shown:
        for part in list(_widgets(widget)):
            if isinstance(part, controls.Fold):
                part.opener.value = True
    capsys.readouterr()
    said = " ".join(part.value for widget in shown for part in _widgets(widget) if isinstance(part, ipywidgets.HTML))
    assert list(tmp_path.glob("*.log")) == []
    assert Voice(language="es").say("page.broken") not in said
    assert Voice(language="es").say("page.draft_translation") in said
