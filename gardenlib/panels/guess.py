"""A guess before the reveal: choose one of a few, keep it, then see."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import ipywidgets as w

from gardenlib.panels import controls as c
from gardenlib.problems import InputProblem
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


@dataclass(frozen=True)
class Guess:
    """What a panel asks before it shows anything.

    Parameters
    ----------
    id : str
        Stable name of the question in the plot file.
    question : callable
        Says the question for the open plot.
    options : callable
        Gives the answers to choose from, as (value that is kept, words).
    truth : callable
        Says what the table says, for the open plot.
    """

    id: str
    question: Callable[[Session], Said]
    options: Callable[[Session], list[tuple[str, Said]]]
    truth: Callable[[Session], Said]


class GuessBox(w.VBox):  # type: ignore[misc]
    """The question, its answers and, once a guess is kept, what was said and what is so."""

    def __init__(self, session: Session, guess: Guess, reveal: Callable[[], None]) -> None:
        self._session, self._guess, self._reveal = session, guess, reveal
        super().__init__(self._parts())
        self.add_class("gl-guess")

    def renew(self) -> None:
        """Say anew what was said and what is so, once place or crops have changed."""
        self.children = self._parts()

    def _parts(self) -> list[w.Widget]:
        say = self._session.voice.say
        kept = self._session.guess(self._guess.id)
        try:
            options = [(say(words), value) for value, words in self._guess.options(self._session)]
            question = say(self._guess.question(self._session))
            if kept is None:
                self.answers = c.one_of("", options)
                self.answers.layout.width = "auto"
                self.note = w.HTML()
                keep = c.button(say("page.keep_guess"), self._keep)
                return [c.text(f"{say('page.guess')} {question}"), self.answers, keep, self.note]
            said = next((words for words, value in options if value == kept), str(kept))
            told = say("page.you_said", guess=said, truth=self._guess.truth(self._session))
            return [c.text(question), c.text(told, "good")]
        except InputProblem as problem:
            return [c.text(problem.in_voice(self._session.voice), "again")]

    def _keep(self) -> None:
        if self.answers.value is None:
            self.note.value = c.html(self._session.voice.say("page.choose_first"), "again")
            return
        try:
            self._session.keep_guess(self._guess.id, self.answers.value)
        except InputProblem as problem:
            self.note.value = c.html(problem.in_voice(self._session.voice), "again")
        else:
            self._reveal()
