"""A form: a few fields and a button; nothing is saved before all of it can be used."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib.panels import controls as c
from gardenlib.panels.replies import answer
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

Fields = dict[str, w.Widget]


class Form(w.VBox):  # type: ignore[misc]
    """Fields, a button and the sentence that answers.

    Parameters
    ----------
    session : Session
        The page's session.
    about : Said
        What the form is for, above the fields.
    fields : callable
        Makes the named fields.
    act : callable
        Uses the values and says what came of it; an `InputProblem` is shown as it is.
    button : Said, optional
        The words on the button.
    """

    def __init__(
        self,
        session: Session,
        about: Said,
        fields: Callable[[Session], Fields],
        act: Callable[[Session, Mapping[str, Any]], Said],
        button: Said | None = None,
    ) -> None:
        super().__init__([])
        self.add_class("gl-form")
        self._session, self._about, self._make, self._act = session, about, fields, act
        self._button = button or Said("page.save")
        self.reply = w.HTML()
        session.watch(on_plot=self.build)
        self.build()

    def build(self) -> None:
        """Make the fields anew for the plot that is open."""
        say = self._session.voice.say
        self.reply.value = ""
        self.fields = self._make(self._session)
        go = c.button(say(self._button), self.submit)
        self.children = [c.text(say(self._about)), *self.fields.values(), go, self.reply]

    def submit(self) -> None:
        """Use what was filled in; a problem is one sentence and leaves everything as it was."""
        values = {name: field.value for name, field in self.fields.items()}
        answer(self._session, self.reply, self._about.key, lambda: self._act(self._session, values))
