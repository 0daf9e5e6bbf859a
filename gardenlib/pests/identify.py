"""What it is: a key walked by questions, from an animal, its damage or eggs to a name and a first step."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.units import Range
from gardenlib.working import Answer, Notes

START, NONE, OUTSIDE = "start", "none", "outside"
"""The first question, the answer that no sign fits, and what that comes to."""

First = Literal["pick", "rub", "wash", "cover", "dig", "lift", "look", "leave", "ask"]


@dataclass(frozen=True)
class Sign:
    """One sign to choose among those of a question.

    Parameters
    ----------
    name : str
        What is given as the answer.
    picture : str or None
        Name of its sketch, without ``pest_``.
    """

    name: str
    picture: str | None


@dataclass(frozen=True)
class Match:
    """What the signs come to.

    Parameters
    ----------
    name : str
        Id of the animal or damage, or ``outside`` where the key does not hold it.
    kind : {"pest", "helper", "unknown"}
        Whether it harms or helps.
    first : str
        What to do first: ``pick``, ``rub``, ``wash``, ``cover``, ``dig``, ``lift``, ``look``, ``leave`` or ``ask``.
    picture : str or None
        Name of its sketch, without ``pest_``.
    longest : Range or None
        How long it grows, mm.
    mid_leg_pairs : int or None
        Pairs of soft legs in the middle of its body.
    sources : tuple of str
        Keys of the sources of its last sign and its figures.
    """

    name: str
    kind: Literal["pest", "helper", "unknown"]
    first: First
    picture: str | None = None
    longest: Range | None = None
    mid_leg_pairs: int | None = None
    sources: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Identified(Answer):
    """How far the answers lead.

    Parameters
    ----------
    question : str or None
        What to ask next; None at the end.
    signs : tuple of Sign
        What can be answered, beside ``none``.
    match : Match or None
        What it is, once nothing is left to ask.
    basis : {"published", "common_practice", "memory"} or None
        How sure the last sign and the figures of the match are: the weakest of them; None before the end and
        outside the key.
    """

    question: str | None
    signs: tuple[Sign, ...]
    match: Match | None
    basis: Literal["published", "common_practice", "memory"] | None


def what_is_it(answers: Sequence[str] = ()) -> Identified:
    """Walk the key with the answers given so far.

    Parameters
    ----------
    answers : sequence of str
        The sign chosen at each question in turn, ``none`` where none fits; the first is ``animal`` or ``eggs``.

    Returns
    -------
    Identified
        The next question with its signs, or what it is and what to do first.

    Raises
    ------
    InputProblem
        When a sign is not among those of its question, or comes after the end.

    Notes
    -----
    Sources: UC IPM, Cole Crops (imported cabbageworm, cabbage looper, diamondback moth, damage); each row of
    ``tables.table("id_key")`` names its own. The key is for the cabbage family; what it does not hold goes to the
    extension office. A sign or figure from memory or common practice shows in
    ``basis``.

    Examples
    --------
    >>> what_is_it().question, [sign.name for sign in what_is_it().signs]
    ('start', ['animal', 'eggs'])
    >>> found = what_is_it(["eggs", "other", "few", "ridged", "tall"]).match
    >>> found.name, found.first
    ('imported_cabbageworm_eggs', 'rub')
    """
    question: str | None = START
    match, taken, notes = None, None, Notes()
    if not isinstance(answers, list | tuple):
        raise InputProblem("ident.answers", value=str(answers)[:40])
    for answer in answers:
        if question is None:
            raise InputProblem("ident.ended", value=str(answer)[:40])
        leads = _leads()[question]
        if answer == NONE:
            question, match, taken = None, Match(OUTSIDE, "unknown", "ask"), None
            continue
        if not isinstance(answer, str) or answer not in leads:
            raise InputProblem("ident.sign", value=str(answer)[:40], known=", ".join([*leads, NONE]))
        taken = leads[answer]
        notes.cite(*taken["source"].split("|"))
        question = taken["leads_to"]
        match = None if question else _match(taken["result"], taken["source"])
    basis = taken["status"] if match and taken else None
    if match is not None and _has_memory(match.name):
        basis = "memory"
    if basis in {"memory", "common_practice"}:
        notes.say(f"ident.basis_{basis}")
    signs = tuple(Sign(name, lead["picture"]) for name, lead in _leads()[question].items()) if question else ()
    return Identified(question=question, signs=signs, match=match, basis=basis, **notes.parts())


@cache
def _leads() -> Mapping[str, Mapping[str, Mapping[str, Any]]]:
    """Lay the key out: the rows of each question by their sign."""
    key: dict[str, dict[str, Mapping[str, Any]]] = {}
    for row in rows("id_key"):
        key.setdefault(row["question"], {})[row["sign"]] = row
    return key


def _features(name: str) -> Mapping[str, Mapping[str, Any]]:
    return {row["feature"]: row for row in rows("id_features") if row["animal"] == name}


def _has_memory(name: str) -> bool:
    return any(row["status"] == "memory" for row in _features(name).values())


def _match(name: str, sign_source: str) -> Match:
    row, features = next(row for row in rows("id_results") if row["result"] == name), _features(name)
    long, legs = features.get("longest_mm"), features.get("mid_leg_pairs")
    books = "|".join([sign_source, *(feature["source"] for feature in features.values())])
    return Match(
        name,
        row["kind"],
        row["first"],
        row["picture"],
        None if long is None else Range(long["low"], long["high"], "mm"),
        None if legs is None else int(legs["low"]),
        tuple(dict.fromkeys(books.split("|"))),
    )
