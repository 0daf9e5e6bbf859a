"""Lead: what the history of a place says about a test."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.working import Answer, Notes

ANSWERS = ("yes", "no", "unknown")


@dataclass(frozen=True, kw_only=True)
class LeadHistory(Answer):
    """What the history of a place says about a test.

    Parameters
    ----------
    ask_for_test : bool
        Whether the history asks for a laboratory's test for total lead.
    reasons : tuple of str
        The questions answered with yes.
    unknown : tuple of str
        The questions that nobody could answer.
    asks : tuple of str
        The questions that are still open.
    """

    ask_for_test: bool
    reasons: tuple[str, ...]
    unknown: tuple[str, ...]
    asks: tuple[str, ...]


def lead_questions(about: str | None = None) -> tuple[str, ...]:
    """List what to ask about the history of a place.

    Parameters
    ----------
    about : {"house", "ground"}, optional
        Those about what stands nearby, or about the ground; all where it is not given.

    Returns
    -------
    tuple of str
        Names of the questions.

    Notes
    -----
    Source: common practice, no source.

    Examples
    --------
    >>> lead_questions("ground")
    ('orchard', 'fill', 'burnt')
    """
    return tuple(row["question"] for row in rows("lead_history") if about in {None, row["about"]})


def lead_history(answers: Mapping[str, str | None]) -> LeadHistory:
    """Tell whether the history of a place asks for a test for lead.

    Parameters
    ----------
    answers : mapping of str to {"yes", "no", "unknown"}
        The answers by question; one left out, or None, is still open.

    Returns
    -------
    LeadHistory
        One yes, or one that nobody knows, is enough to ask for a test.

    Raises
    ------
    InputProblem
        When a question or an answer is not known.

    Notes
    -----
    Source: common practice, no source. That nobody knows counts as a reason, since a guess must not end the matter.

    Examples
    --------
    >>> lead_history({"paint": "yes"}).ask_for_test
    True
    """
    questions, notes = lead_questions(), Notes()
    for question, answer in answers.items():
        if question not in questions:
            raise InputProblem("lead.question", value=str(question), known=", ".join(questions))
        if answer is not None and answer not in ANSWERS:
            raise InputProblem("lead.answer", value=str(answer), known=", ".join(ANSWERS))
    reasons = tuple(question for question in questions if answers.get(question) == "yes")
    unknown = tuple(question for question in questions if answers.get(question) == "unknown")
    counted = {"yes": len(reasons), "unknown": len(unknown)}
    notes.step("lead.history", "yes + unknown", counted, len(reasons) + len(unknown), "common_practice")
    notes.say("lead.history_is_practice")
    return LeadHistory(
        ask_for_test=bool(reasons or unknown),
        reasons=reasons,
        unknown=unknown,
        asks=tuple(question for question in questions if answers.get(question) is None),
        **notes.parts(),
    )
