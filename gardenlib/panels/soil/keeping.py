"""A panel whose result goes into the plot file only when its button is pressed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib.panels import controls as c
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.replies import answer
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


class KeepPanel(Panel):
    """A panel with one button more, and the sentence that answers it.

    Parameters
    ----------
    session : Session
        The page's session.
    spec : Spec
        What the panel shows.
    words : Said
        The words on the button.
    put : callable
        Saves what the values come to and says what was saved.
    """

    def __init__(
        self, session: Session, spec: Spec, words: Said, put: Callable[[Session, Mapping[str, Any]], Said]
    ) -> None:
        self._words, self._put = words, put
        self.reply = w.HTML()
        super().__init__(session, spec)

    def _open_parts(self) -> list[w.Widget]:
        self.reply.value = ""
        return [*super()._open_parts(), c.button(self.session.voice.say(self._words), self.keep_result), self.reply]

    def _changed(self, change: Any) -> None:
        self.reply.value = ""
        super()._changed(change)

    def keep_result(self) -> None:
        """Save the result; a problem is one plain sentence beside the button."""
        answer(self.session, self.reply, self.spec.id, lambda: self._put(self.session, self.values))
