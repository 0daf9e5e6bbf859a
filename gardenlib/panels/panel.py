"""A panel: a guess, a few controls, the picture they make, and its working."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.guess import Guess, GuessBox
from gardenlib.panels.steps import steps_html
from gardenlib.problems import InputProblem
from gardenlib.words import Said
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

Values = Mapping[str, Any]


def note(words: str) -> charts.View:
    """Make a view of words alone."""
    return charts.View(words, None, None, words)


@dataclass(frozen=True)
class Spec:
    """What makes one panel different from another.

    Parameters
    ----------
    id : str
        Under which the values of the controls are kept in the plot file.
    title : Said
        What the panel is called, for copies that cannot draw it.
    controls : callable
        Makes the named controls from the session; values kept earlier are put back.
    view : callable
        Pure: makes the `charts.View` from the session and the values.
    guess : Guess, optional
        Asked first; the rest stays hidden until it is kept.
    working : callable, optional
        Gives the answer whose steps are shown as the working.
    notes : callable, optional
        Lists what must be read beside the number: an assumption, a figure that is unchecked, what is missing.
    intro : Said, optional
        Words at the head of the panel.
    caution : Said, optional
        Shown before any number.
    keep : callable, optional
        Saves the values in a section of the plot of their own, in place of the usual one.
    """

    id: str
    title: Said
    controls: Callable[[Session], dict[str, w.Widget]]
    view: Callable[[Session, Values], charts.View]
    guess: Guess | None = None
    working: Callable[[Session, Values], Answer] | None = None
    notes: Callable[[Session, Values], Sequence[Said]] | None = None
    intro: Said | None = None
    caution: Said | None = None
    keep: Callable[[Session, Values], None] | None = None


class Panel(w.VBox):  # type: ignore[misc]
    """One panel on a page; it watches the session and redraws itself."""

    def __init__(self, session: Session, spec: Spec) -> None:
        super().__init__([])
        self.add_class("gl-panel")
        self.session, self.spec = session, spec
        self.controls: dict[str, w.Widget] = {}
        self.is_open = False
        self.picture = w.HTML()
        self.message, self.notes = w.HTML(), w.HTML()
        self.view: charts.View | None = None
        self._shown: charts.Shown | None = None
        self._working = w.HTML()
        self._fold: c.Fold | None = None
        self._guess: GuessBox | None = None
        session.watch(on_plot=self.rebuild, on_change=self._renew)
        self.build()

    def show(self) -> Panel:
        """Put the panel on the page, with what a saved copy keeps of it."""
        self._shown = charts.show(self, self.stored(), self.session.voice)
        return self

    def stored(self) -> charts.View:
        """Give what a saved copy shows: the view or, before the guess, the panel's title."""
        return self.view or note(self.session.voice.say(self.spec.title))

    def build(self) -> None:
        """Make all parts anew for the plot that is open."""
        say = self.session.voice.say
        heads = ((self.spec.intro, "head"), (self.spec.caution, "caution"))
        parts: list[w.Widget] = [c.text(say(words), kind) for words, kind in heads if words is not None]
        self.controls, self.view, self._fold = {}, None, None
        guess = self.spec.guess
        if guess is not None:
            self._guess = GuessBox(self.session, guess, self.rebuild)
            parts.append(self._guess)
        self.is_open = guess is None or self.session.guess(guess.id) is not None
        if self.is_open:
            try:
                parts.extend(self._open_parts())
            except InputProblem as problem:
                self.controls, self.view = {}, note(problem.in_voice(self.session.voice))
                parts.append(c.text(self.view.finding, "again"))
        self.children = parts

    def rebuild(self) -> None:
        """Make all parts anew, and what a saved copy keeps with them."""
        self.build()
        self._store()

    def _renew(self) -> None:
        """Follow a change of place or crops, so that guess, picture and saved copy say the same."""
        if self.is_open and self._guess is not None:
            self._guess.renew()
        self.redraw()
        self._store()

    def _store(self) -> None:
        if self._shown is not None:
            self._shown.update(self.stored())

    def _open_parts(self) -> list[w.Widget]:
        self.controls = self.spec.controls(self.session)
        for name, value in self.session.kept(self.spec.id).items():
            c.put_back(self.controls.get(name), value)
        for control in self.controls.values():
            control.observe(self._changed, "value")
        self.picture.value = self.message.value = self.notes.value = ""
        self.redraw()
        parts: list[w.Widget] = [w.VBox(list(self.controls.values())), self.message, self.picture, self.notes]
        if self.spec.working is not None:
            self._fold = c.Fold(self.session.voice.say("page.working"), self._first_working)
            parts.append(self._fold)
        return parts

    @property
    def values(self) -> dict[str, Any]:
        """Read the values of the controls by name."""
        return {name: control.value for name, control in self.controls.items()}

    def _changed(self, _: Any) -> None:
        self.redraw()
        self._guarded(self._keep)
        self._store()

    def _keep(self) -> None:
        if self.spec.keep is not None:
            self.spec.keep(self.session, self.values)
        else:
            self.session.keep(self.spec.id, self.values)

    def redraw(self) -> None:
        """Draw the picture for the values as they are; before the guess, ask anew."""
        if self.is_open:
            self._guarded(self._draw)
        else:
            self.build()

    def _draw(self) -> None:
        session, values = self.session, self.values
        self.view = self.spec.view(session, values)
        self.picture.value = charts.html(self.view, session.voice)
        if self.spec.notes is not None:
            told = [session.voice.say(said) for said in self.spec.notes(session, values)]
            self.notes.value = c.html("\n\n".join(told), "note")
        self.message.value = ""
        if self._fold is not None and self._fold.is_open:
            self._working.value = self._steps()

    def _first_working(self) -> w.Widget:
        self._guarded(lambda: setattr(self._working, "value", self._steps()))
        return self._working

    def _steps(self) -> str:
        assert self.spec.working is not None  # noqa: S101  (asked only where there is one)
        return steps_html(self.spec.working(self.session, self.values), self.session.voice)

    def _guarded(self, action: Callable[[], None]) -> None:
        """Do it; a problem becomes one plain sentence beside the controls, and is logged."""
        try:
            action()
        except InputProblem as problem:
            self.view = note(problem.in_voice(self.session.voice))
            self.message.value = c.html(self.view.finding, "again")
            self.picture.value = self.notes.value = ""
        except Exception:
            self.session.log_error(self.spec.id)
            self.message.value = c.html(self.session.voice.say("page.broken"), "again")
