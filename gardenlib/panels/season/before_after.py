"""Page 07, the fold with three questions, asked before the class and after it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib.panels import controls as c
from gardenlib.panels.form import Fields, Form
from gardenlib.panels.more import more
from gardenlib.problems import InputProblem
from gardenlib.season.coordinator import ANSWERS, MOMENTS, QUESTIONS
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ABOUT = {"before": Said("coord.about_before"), "after": Said("coord.about_after")}


def fold(session: Session) -> w.Widget:
    """Offer the three questions, before and after."""
    return more(session, Said("coord.title"), 2, lambda _: w.VBox([_form(session, moment) for moment in MOMENTS]))


def _form(session: Session, moment: str) -> Form:
    return Form(session, ABOUT[moment], _fields(moment), _save(moment))


def _id(moment: str, question: str) -> str:
    return f"07.{moment}.{question}"


def _fields(moment: str) -> Callable[[Session], Fields]:
    def fields(session: Session) -> Fields:
        say = session.voice.say
        options = [(say(f"coord.{answer}"), answer) for answer in ANSWERS]
        kept = {question: session.answer(_id(moment, question)) for question in QUESTIONS}
        return {
            question: c.one_of(say(f"coord.{question}"), options, answer if answer in ANSWERS else None)
            for question, answer in kept.items()
        }

    return fields


def _save(moment: str) -> Callable[[Session, Mapping[str, Any]], Said]:
    def save(session: Session, values: Mapping[str, Any]) -> Said:
        chosen = {
            _id(moment, question): {"choice": value, "page": session.page}
            for question, value in values.items()
            if value
        }
        if not chosen:
            raise InputProblem("coord.empty")
        session.save("answers", chosen)
        before, after = (_yes(session, each) for each in MOMENTS)
        if before is None or after is None:
            return Said("coord.saved")
        return Said("coord.compare", {"before": before, "after": after})

    return save


def _yes(session: Session, moment: str) -> int | None:
    """Count how often yes was said; None until all three are answered."""
    said = [session.answer(_id(moment, question)) for question in QUESTIONS]
    return None if None in said else said.count("yes")
