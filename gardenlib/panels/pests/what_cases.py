"""Page 05, in the fold on what it is: drawn cases, each with a question and replies that teach."""

from __future__ import annotations

from typing import TYPE_CHECKING

import ipywidgets as w

from gardenlib import charts
from gardenlib.charts.tiles import tiles
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

CASES = (
    ("egg_lady", "b"),
    ("cocoons", "c"),
    ("worm_loop", "a"),
    ("mummies", "b"),
    ("egg_tall", "c"),
    ("maggots", "b"),
    ("hover_larva", "a"),
    ("hairy_worm", "c"),
)
"""What is drawn in each case, and which of its answers holds."""


def cases(session: Session) -> w.VBox:
    """Show each case: its drawing, two sentences, and what to do."""
    parts: list[w.Widget] = [c.text(session.voice.say("ident.case.title"), "head")]
    for n, (picture, holds) in enumerate(CASES, start=1):
        parts += [w.HTML(_drawn(session, n, picture)), CheckBox(session, _check(n, holds))]
    return w.VBox(parts)


def _drawn(session: Session, n: int, picture: str) -> str:
    say, head = session.voice.say, session.voice.say("ident.case.head", n=n)
    alt = say("ident.case.alt", n=n)
    return charts.html(charts.View(head, None, tiles([(f"pest_{picture}", "")]), alt), session.voice)


def _check(n: int, holds: str) -> Check:
    return Check(
        f"05.what.check{n}",
        lambda session: Said(f"ident.case.{n}_text"),
        lambda session: [
            Reply(one, Said(f"ident.case.{n}_{one}"), one == holds, Said(f"ident.case.{n}_{one}_reply"))
            for one in ("a", "b", "c")
        ],
    )
