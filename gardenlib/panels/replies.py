"""What a button answers: what was done, a problem as one sentence, or that something broke."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import ipywidgets as w

from gardenlib.panels import controls as c
from gardenlib.problems import InputProblem
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def answer(session: Session, reply: w.HTML, where: str, act: Callable[[], Said]) -> None:
    """Do something and say what came of it; an unforeseen error is logged under `where`."""
    try:
        said = act()
    except InputProblem as problem:
        reply.value = c.html(problem.in_voice(session.voice), "again")
    except Exception:
        session.log_error(where)
        reply.value = c.html(session.voice.say("page.broken"), "again")
    else:
        reply.value = c.html(session.voice.say(said), "good")
