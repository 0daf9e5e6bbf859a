"""Folds marked "more": closed parts of a page, each with its minutes, built when first opened."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

import ipywidgets as w

from gardenlib import charts
from gardenlib.panels.check import Check, CheckBox
from gardenlib.panels.controls import Fold, text
from gardenlib.panels.panel import Panel, Spec, note
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


Part = Spec | Check | Callable[["Session"], w.Widget]


def more(session: Session, title: Said, minutes: int, *parts: Part) -> Fold:
    """Put a closed fold on the page.

    Parameters
    ----------
    session : Session
        The page's session.
    title : Said
        What the fold is about.
    minutes : int
        How long it takes.
    *parts : Spec, Check or callable
        What stands inside: panels, checks, and functions of the session that make anything else; all of it is made
        when the fold is first opened.

    Returns
    -------
    Fold
        The fold, shown.
    """
    label = session.voice.say("page.more", title=title, n=minutes)
    fold = Fold(label, lambda: _inside(session, parts))
    charts.show(fold, note(label), session.voice)
    return fold


def _inside(session: Session, parts: Sequence[Part]) -> w.Widget:
    made = [_made(session, part) for part in parts]
    return made[0] if len(made) == 1 else w.VBox(made)


def _made(session: Session, part: Part) -> w.Widget:
    if isinstance(part, Spec):
        return Panel(session, part)
    return CheckBox(session, part) if isinstance(part, Check) else part(session)


def reading(session: Session, title: Said, minutes: int, words: Said) -> Fold:
    """Put a closed fold with words only on the page."""
    return more(session, title, minutes, lambda _: text(session.voice.say(words)))
