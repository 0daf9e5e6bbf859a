"""What stands on a sheet of homework, for one learner or for two."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from gardenlib.homework.registry import EXAMPLE
from gardenlib.words import Voice

if TYPE_CHECKING:
    from gardenlib.homework import Blank, Line, Question

ROOM = 3  # lines to write on below a question without steps


@dataclass(frozen=True)
class PrintedSheet:
    """One sheet as it is printed.

    Parameters
    ----------
    code : str
        The sheet's code.
    name : str
        Whose it is; where empty, a line to write the name on is printed.
    questions : str
        Which questions stand on it, by their name in the data.
    """

    code: str
    name: str
    questions: str


@dataclass(frozen=True)
class Asked:
    """The words of a sheet's questions.

    Parameters
    ----------
    words : list
        A question each, or with two voices a pair each.
    twice : bool
        Whether they stand in two languages.
    with_example : bool
        Whether the first answer is given.
    """

    words: list[Any]
    twice: bool
    with_example: bool


def asked_words(spoken: Sequence[Sequence[Question]], voices: Sequence[Voice]) -> Asked:
    """Gather the words of a sheet's questions, in each of the voices."""
    columns = [
        [_question(one, number, voice) for number, one in enumerate(questions, start=1)]
        for questions, voice in zip(spoken, voices, strict=True)
    ]
    twice = len(voices) > 1
    words = [list(pair) for pair in zip(*columns, strict=True)] if twice else columns[0]
    return Asked(words, twice, any(one.rung == EXAMPLE for one in spoken[0]))


def worksheet_data(
    asked: Mapping[str, Asked],
    sheets: Sequence[PrintedSheet],
    voice: Voice,
    *,
    title: str,
    together: bool = False,
    trial: bool = False,
) -> dict[str, Any]:
    """Gather the words of the page `worksheet`, or of `pair_sheet` where the questions stand in two languages.

    Parameters
    ----------
    asked : mapping of str to Asked
        By name, the words of the questions of a sheet.
    sheets : sequence of PrintedSheet
        The sheets, in the order in which they are printed.
    voice : Voice
        Language and units of the reader, or of the first of two.
    title : str
        The head of each sheet.
    together : bool
        Whether a sheet is for two learners.
    trial : bool
        Whether a question that is higher than a side makes the sheet too long; to look takes time.

    Returns
    -------
    dict
        Data for `sheet_pdf`.
    """
    say = voice.say
    with_example = any(one.with_example for one in asked.values())
    intro = say("pack.intro_two") if together else say("pack.intro") if with_example else ""
    return {
        "title": title,
        "say": {what: say(f"pack.{what}") for what in ("name", "side", "answer", "room")},
        "sets": {name: one.words for name, one in asked.items()},
        "trial": trial,
        "sheets": [
            {"title": title, "intro": intro, "name": one.name, "code": one.code, "set": one.questions} for one in sheets
        ],
    }


def _question(question: Question, number: int, voice: Voice) -> dict[str, Any]:
    alone = not question.lines
    return {
        "number": str(number),
        "id": question.id,
        "title": voice.say("pack.question", number=number, title=question.skill.title),
        "ask": question.ask,
        "caution": question.caution,
        "drawing": question.drawing,
        "alt": question.alt or question.ask,
        "lines": [_line(line, place, voice) for place, line in enumerate(question.lines, start=1)],
        "alone": _blank(question.blanks[-1], voice) if alone else None,
        "room": ROOM,
    }


def _line(line: Line, place: int, voice: Voice) -> dict[str, Any]:
    return {
        "number": f"{place}.",
        "label": line.label,
        "how": line.how,
        "result": line.result if line.blank is None else "",
        "blank": None if line.blank is None else _blank(line.blank, voice),
    }


def _blank(blank: Blank, voice: Voice) -> dict[str, Any]:
    return {
        "kind": blank.kind,
        "before": blank.digits_before,
        "behind": blank.digits_behind,
        "signed": blank.signed,
        "unit": blank.unit_words,
        **{word: voice.say(f"pack.{word}") for word in ("to", "month", "day", "sign")},
        "day_first": voice.date(date(2001, 12, 31))[0].isdecimal(),
    }
