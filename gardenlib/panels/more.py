"""Folds marked "more": closed parts of a page, each with its minutes, built when first opened."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import ipywidgets as w

from gardenlib import charts
from gardenlib.panels.controls import Fold, text
from gardenlib.panels.panel import note
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def more(session: Session, title: Said, minutes: int, build: Callable[[], w.Widget]) -> Fold:
    """Put a closed fold on the page.

    Parameters
    ----------
    session : Session
        The page's session.
    title : Said
        What the fold is about.
    minutes : int
        How long it takes.
    build : callable
        Makes what stands inside, when the fold is first opened.

    Returns
    -------
    Fold
        The fold, shown.
    """
    label = session.voice.say("page.more", title=title, n=minutes)
    fold = Fold(label, build)
    charts.show(fold, note(label), session.voice)
    return fold


def reading(session: Session, title: Said, minutes: int, words: Said) -> Fold:
    """Put a closed fold with words only on the page."""
    return more(session, title, minutes, lambda: text(session.voice.say(words)))
