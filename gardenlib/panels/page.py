"""Open a page, and close it with what was settled."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.class_folder import beside
from gardenlib.panels import controls as c
from gardenlib.panels.panel import note
from gardenlib.panels.session import PLOT_FILE, Session
from gardenlib.problems import InputProblem

Rows = list[tuple[str, str]]


def open_page(
    page: str,
    *,
    plot_file: str | Path | None = None,
    class_folder: str | Path | None = None,
    today: str | date | None = None,
    language: str | None = None,
    served: bool = False,
) -> Session:
    """Open a page of the workbook and say which plot and place it is about.

    Parameters
    ----------
    page : str
        Name of the page.
    plot_file : str or Path, optional
        The learner's plot file; else ``my_plot.json`` in this folder.
    class_folder : str or Path, optional
        The class folder; else the one beside the pages, else the invented demo class.
    today : str or date, optional
        Which day to take for today (``YYYY-MM-DD``); else the day it is.
    language : str, optional
        Language of the page's prose; else the class's first.
    served : bool
        Whether the page is served to a phone: it carries its style already, and this plot alone can be opened.

    Returns
    -------
    Session
        What the panels of the page share.

    Notes
    -----
    A class folder that cannot be used is named at the head of the page, with the mend, and the demo class stands in.
    """
    here = Path.cwd()
    folder = Path(class_folder) if class_folder else beside(here)
    day = date.fromisoformat(today) if isinstance(today, str) else today or date.today()  # noqa: DTZ011
    session = Session(page, Path(plot_file) if plot_file else here / PLOT_FILE, folder, day, language)
    header = _Header(session, served=served)
    header.shown = charts.show(header, note(header.words()), session.voice)
    return session


def saved_html(session: Session) -> str:
    """Say whether the answers are saved, and where."""
    key = "page.saved" if session.path.exists() else "page.not_saved"
    return c.html(session.voice.say(key, file=session.path.name), "saved")


class _Header(w.VBox):  # type: ignore[misc]
    """The style of the page, which plot is open, whether it is saved, and how to change it."""

    def __init__(self, session: Session, *, served: bool) -> None:
        self.session, self._served = session, served
        self.shown: charts.Shown | None = None
        self.status = w.HTML()
        super().__init__([])
        session.watch(on_plot=self.build, on_change=self._say_status, on_saved=self._say_status)
        self.build()

    def words(self) -> str:
        """Say which plot and place the page is about."""
        session = self.session
        return session.voice.say("page.which_plot", file=session.path.name, place=session.site_name)

    def build(self) -> None:
        """Draw the header for the plot that is open."""
        session, say = self.session, self.session.voice.say
        notes = [say(note) for note in session.notes()]
        self._say_status()
        parts = [c.text(self.words()), c.text("\n\n".join(notes), "note"), self.status]
        if not self._served:
            fold = c.Fold(say("page.choose_plot"), lambda: _PlotChoice(session))
            parts = [w.HTML(charts.page_css()), *parts, fold]
        self.children = parts
        if self.shown is not None:
            self.shown.update(note(self.words()))

    def _say_status(self) -> None:
        self.status.value = saved_html(self.session)


class _PlotChoice(w.VBox):  # type: ignore[misc]
    """Open another plot file of this folder, or start over."""

    def __init__(self, session: Session) -> None:
        say = session.voice.say
        self.session, self.reply = session, w.HTML()
        files = [(path.name, str(path)) for path in session.plot_files()]
        self.files = c.choice(say("page.choose_plot"), files, str(session.path) if files else None)
        buttons = [c.button(say("page.open_plot"), self._open), c.button(say("page.start_over"), self._start_over)]
        super().__init__([self.files, *buttons, self.reply] if files else [buttons[1], self.reply])

    def _open(self) -> None:
        self._do(lambda: self.session.load(self.files.value))

    def _start_over(self) -> None:
        self._do(lambda: self._told(self.session.start_over()))

    def _told(self, copy: Path) -> None:
        self.reply.value = c.html(self.session.voice.say("page.started_over", file=copy.name), "good")

    def _do(self, action: Callable[[], None]) -> None:
        try:
            action()
        except InputProblem as problem:
            self.reply.value = c.html(problem.in_voice(self.session.voice), "again")


class _Results(w.HTML):  # type: ignore[misc]
    """What the page settled, as a small table."""

    def __init__(self, session: Session, rows: Callable[[Session], Rows]) -> None:
        super().__init__()
        self._session, self._rows = session, rows
        self.shown: charts.Shown | None = None
        session.watch(on_plot=self.draw, on_change=self.draw, on_saved=self.draw)
        self.draw()

    def view(self) -> charts.View:
        """Collect the results."""
        say = self._session.voice.say
        columns = [say("page.results_what"), say("page.results_value")]
        try:
            rows = self._rows(self._session)
        except InputProblem as problem:
            return note(problem.in_voice(self._session.voice))
        return charts.View(say("page.results"), pd.DataFrame(rows, columns=columns), None, "")

    def draw(self) -> None:
        """Write the table anew."""
        view = self.view()
        self.value = charts.html(view, self._session.voice) + saved_html(self._session)
        if self.shown is not None:
            self.shown.update(view)


def results(session: Session, rows: Callable[[Session], Rows]) -> None:
    """Close a page: show what it settled as a small table that other programs can read.

    Parameters
    ----------
    session : Session
        The page's session.
    rows : callable
        Lists what the page settled, as pairs of words.
    """
    made = _Results(session, rows)
    made.shown = charts.show(made, made.view(), session.voice)
