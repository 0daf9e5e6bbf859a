"""The instructor's pages: which class they are about, and the head of each page."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from datetime import date
from pathlib import Path

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.carried import carried
from gardenlib.class_folder import beside
from gardenlib.panels import controls as c
from gardenlib.panels.panel import note
from gardenlib.panels.session import PLOT_FILE, Session
from gardenlib.words import Voice

# Folder names have no place to break a line; a bar at its beginning shows its frame alone.
_STYLE = """<style>
.gl-desk { overflow-wrap: anywhere; }
.gl-desk table { overflow-wrap: normal; }
.gl-desk .progress { box-sizing: border-box; height: 24px; border: 2px solid; border-radius: 6px; background: none; }
.gl-desk .progress-bar { background-color: currentColor; }
</style>"""


class Desk(Session):
    """What an instructor's page knows: a session, and the class folder even when it cannot be read yet.

    Parameters
    ----------
    page : str
        Name of the page.
    folder : Path
        The folder of the page.
    class_path : Path
        The class folder.
    today : date
        Which day it is.
    language : str, optional
        Language of the page's prose.
    """

    def __init__(self, page: str, folder: Path, class_path: Path, today: date, language: str | None = None) -> None:
        self.class_path = class_path
        super().__init__(page, folder / PLOT_FILE, class_path, today, language)


class Steps(ABC):
    """A page in steps, whose last is a table of what is settled; each step is put on the page when it is asked for.

    Parameters
    ----------
    desk : Desk
        What the page knows.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.settled = w.HTML()
        self._shown: dict[str, charts.Shown] = {}

    def results(self) -> None:
        """Close the page with what is settled, as a small table."""
        self._show("results", [self.settled])

    @abstractmethod
    def _view(self, step: str) -> charts.View:
        """Give what a saved copy keeps of a step."""

    def _show(self, step: str, parts: Sequence[w.Widget]) -> None:
        box = w.VBox(list(parts))
        for name in ("gl-panel", "gl-form", "gl-desk"):
            box.add_class(name)
        self._shown[step] = charts.show(box, self._view(step), self.desk.voice)

    def _store(self) -> None:
        """Write the table anew, and what a saved copy keeps."""
        self.settled.value = charts.html(self._view("results"), self.desk.voice)
        for step, shown in self._shown.items():
            shown.update(self._view(step))


def settled_table(title: str, rows: Sequence[tuple[str, str]], voice: Voice) -> charts.View:
    """Lay out what a page settled: pairs of words."""
    columns = [voice.say("page.results_what"), voice.say("page.results_value")]
    return charts.View(title, pd.DataFrame(rows, columns=columns), None, "")


def open_desk(
    page: str,
    *,
    class_folder: str | Path | None = None,
    today: str | date | None = None,
    language: str | None = None,
) -> Desk:
    """Open an instructor's page and say which day it takes for today.

    Parameters
    ----------
    page : str
        Name of the page.
    class_folder : str or Path, optional
        The class folder; else the one that belongs to this folder, else the invented demo class.
    today : str or date, optional
        Which day to take for today (``YYYY-MM-DD``); else the day it is.
    language : str, optional
        Language of the page's prose; else the class's first.

    Returns
    -------
    Desk
        What the parts of the page share.
    """
    here = Path.cwd()
    folder = Path(class_folder) if class_folder else beside(here) or carried("data_demo")
    day = date.fromisoformat(today) if isinstance(today, str) else today or date.today()  # noqa: DTZ011
    desk = Desk(page, here, folder.absolute(), day, language)
    words = desk.voice.say("prepare.today", day=desk.voice.date(day, "yMMMMEEEEd"))
    charts.show(w.VBox([w.HTML(charts.page_css() + _STYLE), c.text(words)]), note(words), desk.voice)
    return desk
