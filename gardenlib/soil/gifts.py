"""Before a gift is accepted: what to ask of compost, manure, hay, seedlings, seed, boards and tools."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from gardenlib.problems import InputProblem
from gardenlib.soil.pots import gift_figure
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import Answer, Notes

GIFTS = ("compost", "manure", "hay", "seedlings", "seed", "boards", "tools")
ANSWERS = ("yes", "no", "unknown")
POTS_FOR = ("compost", "manure", "hay")
Verdict = Literal["take", "test", "refuse"]
_FROM_MILD: tuple[Verdict, ...] = ("take", "test", "refuse")
_TIMES = {
    "manure": ("gifts.manure_touching", "gifts.manure_apart"),
    "seedlings": ("gifts.black_rot_shows", "gifts.clubroot_lives"),
}


@dataclass(frozen=True, kw_only=True)
class GiftAdvice(Answer):
    """What to do with a gift.

    Parameters
    ----------
    gift : str
        What is offered, one of `GIFTS`.
    asks : tuple of str
        The questions that are still open.
    verdict : {"take", "test", "refuse"} or None
        What the answers come to; None while a question is open, unless one answer is enough to refuse.
    because : tuple of Said
        What each answer means.
    to_do : tuple of Said
        What to do next, one sentence each.
    pot_check : bool
        Whether the pot check is the test to make.
    """

    gift: str
    asks: tuple[str, ...]
    verdict: Verdict | None
    because: tuple[Said, ...]
    to_do: tuple[Said, ...]
    pot_check: bool


def gift_questions(gift: str) -> tuple[str, ...]:
    """List what to ask before a gift is accepted.

    Parameters
    ----------
    gift : str
        What is offered, one of `GIFTS`.

    Returns
    -------
    tuple of str
        Names of the questions, the first to ask first.

    Raises
    ------
    InputProblem
        When the gift is not known.

    Notes
    -----
    Source: common practice, no source, for which questions to ask.

    Examples
    --------
    >>> gift_questions("hay")
    ('weed_killer', 'moldy')
    """
    if gift not in GIFTS:
        raise InputProblem("gifts.gift", value=str(gift), known=", ".join(GIFTS))
    return tuple(dict.fromkeys(row["question"] for row in rows("gifts") if row["gift"] == gift))


def gift_check(gift: str, answers: Mapping[str, str | None]) -> GiftAdvice:
    """Tell whether to take a gift, test it first or refuse it.

    Parameters
    ----------
    gift : str
        What is offered, one of `GIFTS`.
    answers : mapping of str to {"yes", "no", "unknown"}
        The answers by question; one left out, or None, is still open.

    Returns
    -------
    GiftAdvice
        The strictest of what the answers mean, why, and what to do.

    Raises
    ------
    InputProblem
        When the gift, a question or an answer is not known.

    Notes
    -----
    Source: University of Florida IFAS AG416 (weed-killers that pass through animals and compost); Washington State
    University, Bioassay test (2011); 7 CFR 205.203(c) (raw manure); University of Florida IFAS 2012 and the Pacific
    Northwest handbook (black rot, clubroot). What is refused is common practice, no source. Raw manure is counted by
    the longer wait wherever the food may touch soil.

    Examples
    --------
    >>> gift_check("hay", {"weed_killer": "unknown", "moldy": "no"}).verdict
    'test'
    """
    questions, notes = gift_questions(gift), Notes()
    for question, answer in answers.items():
        if question not in questions:
            raise InputProblem("gifts.question", value=str(question), known=", ".join(questions))
        if answer is not None and answer not in ANSWERS:
            raise InputProblem("gifts.answer", value=str(answer), known=", ".join(ANSWERS))
    means = {(row["question"], row["answer"]): row for row in rows("gifts") if row["gift"] == gift}
    given = {question: answers[question] for question in questions if answers.get(question) is not None}
    found: list[Verdict] = []
    for question, answer in given.items():
        row = means[question, answer]
        found.append(row["verdict"])
        notes.step(
            "gifts.answer", f"{question} = answer", {"answer": answer}, row["verdict"], row["source"].split("|")[0]
        )
        notes.cite(*row["source"].split("|"))
    asks = tuple(question for question in questions if question not in given)
    worst = max(found, key=_FROM_MILD.index, default=None)
    verdict = worst if not asks or worst == "refuse" else None
    by_pots = verdict == "test" and gift in POTS_FOR
    notes.say("gifts.by_answers")
    to_do = [] if verdict is None else [Said(f"gifts.do.{verdict}_{gift}")]
    if verdict not in {None, "refuse"}:
        to_do += [_time(key, notes) for key in _TIMES.get(gift, ())]
    return GiftAdvice(
        gift=gift,
        asks=asks,
        verdict=verdict,
        because=tuple(Said(f"gifts.because.{question}_{answer}") for question, answer in given.items()),
        to_do=tuple(to_do),
        pot_check=by_pots,
        **notes.parts(),
    )


def _time(key: str, notes: Notes) -> Said:
    """Say how long to wait, by the figure whose name ends the key of its step."""
    name = key.removeprefix("gifts.")
    row = gift_figure(name)
    found = Quantity(row["high"], row["unit"])
    notes.step(key, "time", {}, found, row["source"])
    return Said(f"gifts.do.{name}", {"time": found})
