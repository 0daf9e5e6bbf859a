"""A button that makes a page to print, and says where it is."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import ipywidgets as w

from gardenlib.panels import controls as c
from gardenlib.panels.replies import answer
from gardenlib.plot.disk import put
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


class PaperSheet(w.VBox):  # type: ignore[misc]
    """A choice of print size, a button and the sentence that answers."""

    def __init__(self, session: Session, label: Said, file_name: str, make: Callable[[Session, bool], bytes]) -> None:
        super().__init__([])
        self.add_class("gl-form")
        self._session, self._label, self._file, self._make = session, label, file_name, make
        self.reply = w.HTML()
        session.watch(on_plot=self.build)
        self.build()

    def build(self) -> None:
        """Make the parts anew for the plot that is open."""
        say = self._session.voice.say
        self.reply.value = ""
        sizes = [(say("sheets.normal"), False), (say("sheets.large"), True)]
        self.size = c.choice(say("sheets.size"), sizes, False)
        self.children = [self.size, c.button(say(self._label), self.write), self.reply]

    def write(self) -> None:
        """Write the page into the learner's folder, whole or not at all."""
        answer(self._session, self.reply, self._label.key, self._written)

    def _written(self) -> Said:
        session = self._session
        target = session.folder / f"{self._file}.pdf"
        put(target, self._make(session, self.size.value))
        return Said("sheets.saved", {"file": target.name, "folder": str(session.folder.resolve())})


def paper_sheet(session: Session, label: Said, file_name: str, make: Callable[[Session, bool], bytes]) -> PaperSheet:
    """Offer a page to print.

    Parameters
    ----------
    session : Session
        The page's session.
    label : Said
        The words on the button.
    file_name : str
        Name of the file in the learner's folder, without its ending.
    make : callable
        Makes the PDF from the session and whether large print is wanted; an `InputProblem` is shown as it is.

    Returns
    -------
    PaperSheet
        The button with its reply.
    """
    return PaperSheet(session, label, file_name, make)
