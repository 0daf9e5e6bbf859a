"""What stands on the key, and on the page of answers for the next session."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from gardenlib.homework.looks import where
from gardenlib.homework.results import SHARE
from gardenlib.units import Quantity
from gardenlib.words import Voice

if TYPE_CHECKING:
    from gardenlib.homework import BlankSlip, Question


@dataclass(frozen=True)
class KeyedSheet:
    """The questions of a sheet: its code, its learner's id and name, empty where it is the same for all."""

    code: str
    learner: str
    name: str
    questions: Sequence[Question]


def key_data(sheets: Sequence[KeyedSheet], voice: Voice, *, title: str) -> dict[str, Any]:
    """Gather the words of the page `key`.

    Parameters
    ----------
    sheets : sequence of KeyedSheet
        The sheets.
    voice : Voice
        Language and units of the reader.
    title : str
        What the sheets are about.

    Returns
    -------
    dict
        Data for `sheet_pdf`.
    """
    return {
        "title": voice.say("pack.key", title=title),
        "warning": voice.say("pack.key_warning"),
        "holds": voice.say("pack.key_holds", share=Quantity(100 * SHARE, "percent")),
        "sets": [
            {
                "head": voice.say("pack.key_head", code=sheet.code, learner=sheet.learner),
                "questions": [_keyed(one, number, voice) for number, one in enumerate(sheet.questions, start=1)],
            }
            for sheet in sheets
        ],
    }


def _keyed(question: Question, number: int, voice: Voice) -> dict[str, Any]:
    return {
        "title": voice.say("pack.question", number=number, title=question.skill.title),
        "id": question.id,
        "ask": question.ask,
        "caution": question.caution,
        "lines": [
            {
                "number": f"{place}.",
                "label": line.label,
                "how": line.how,
                "result": line.result,
            }
            for place, line in enumerate(question.working, start=1)
        ],
        "answers": [
            {
                "id": blank.id,
                "shown": blank.shown,
                "slips": [_slip(slip, voice) for slip in blank.slips],
            }
            for blank in question.blanks
        ],
        "sources": " ".join((*question.assumptions, *question.sources)),
    }


def _slip(slip: BlankSlip, voice: Voice) -> str:
    return voice.say("pack.slip", shown=slip.shown, reply=slip.reply, look=where(slip.look))


def self_check_data(sheets: Sequence[KeyedSheet], voice: Voice, *, title: str) -> dict[str, Any]:
    """Gather the words of the page `self_check`: the answers alone.

    Parameters
    ----------
    sheets : sequence of KeyedSheet
        The sheets.
    voice : Voice
        Language and units of the reader.
    title : str
        What the sheets are about.

    Returns
    -------
    dict
        Data for `sheet_pdf`.
    """
    return {
        "title": title,
        "head": [voice.say("pack.self_question"), voice.say("pack.self_answer")],
        "sets": [
            {
                "head": voice.say("pack.self_check", title=title, code=sheet.code),
                "name": sheet.name,
                "intro": voice.say("pack.self_intro"),
                "answers": [{"id": b.id, "shown": b.shown} for question in sheet.questions for b in question.blanks],
            }
            for sheet in sheets
        ],
    }
