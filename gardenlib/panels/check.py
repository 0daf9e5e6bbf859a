"""A check question: one of a few answers, each with a reply that teaches."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import ipywidgets as w

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.panel import note
from gardenlib.problems import InputProblem
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


@dataclass(frozen=True)
class Reply:
    """One answer to choose, whether it holds, and what is said to whoever chooses it."""

    value: str
    words: Said
    holds: bool
    reply: Said


@dataclass(frozen=True)
class Check:
    """A question with a stable id whose numbers come from the open plot."""

    id: str
    question: Callable[[Session], Said]
    replies: Callable[[Session], list[Reply]]


class CheckBox(w.VBox):  # type: ignore[misc]
    """The question, its answers and the reply to the one that was chosen last."""

    def __init__(self, session: Session, check: Check) -> None:
        super().__init__([])
        self.add_class("gl-check")
        self._session, self._check = session, check
        self.reply = w.HTML()
        self._shown: charts.Shown | None = None
        session.watch(on_plot=self._anew, on_change=self._anew)
        self.build()

    def show(self) -> CheckBox:
        """Put the question on the page."""
        self._shown = charts.show(self, note(self._words), self._session.voice)
        return self

    def build(self) -> None:
        """Ask again with the numbers of the open plot; an answer given earlier stays."""
        say = self._session.voice.say
        self._words = ""
        try:
            self._replies = {reply.value: reply for reply in self._check.replies(self._session)}
            question = say(self._check.question(self._session))
        except InputProblem as problem:
            self._words = problem.in_voice(self._session.voice)
            self.children = [c.text(self._words, "again")]
            return
        given = self._session.answer(self._check.id)
        options = [(say(reply.words), value) for value, reply in self._replies.items()]
        self.answers = c.one_of("", options, given if given in self._replies else None)
        self._words = question
        self.reply.value = self._said(given) if given in self._replies else ""
        self.children = [c.text(question), self.answers, c.button(say("page.check"), self._answered), self.reply]

    def _anew(self) -> None:
        self.build()
        if self._shown is not None:
            self._shown.update(note(self._words))

    def _answered(self) -> None:
        chosen = self.answers.value
        if chosen is None:
            self.reply.value = c.html(self._session.voice.say("page.choose_first"), "again")
            return
        try:
            self._session.keep_answer(self._check.id, chosen, holds=self._replies[chosen].holds)
        except InputProblem as problem:
            self.reply.value = c.html(problem.in_voice(self._session.voice), "again")
        else:
            self.reply.value = self._said(chosen)

    def _said(self, value: str) -> str:
        reply, say = self._replies[value], self._session.voice.say
        lead = say("page.yes") if reply.holds else say("page.look_again")
        return c.html(f"{lead} {say(reply.reply)}", "good" if reply.holds else "again")
