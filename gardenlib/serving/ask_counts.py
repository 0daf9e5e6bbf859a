"""What the class guessed, counted: on phones from the plot files, and by a show of hands."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from gardenlib.problems import InputProblem
from gardenlib.serving.ask_questions import Question
from gardenlib.serving.folders import Folders, put_closed

FEWEST = 3
"""Fewer guesses than this are not told, so that nobody is known by a guess (common practice, no source)."""
MOST_HANDS = 500


@dataclass(frozen=True)
class Row:
    """One answer: how often it was given on phones (None while that is not told) and by hands."""

    words: str
    phones: int | None
    hands: int
    phones_pct: int
    hands_pct: int


@dataclass(frozen=True)
class Counted:
    """A question with its counts; answers that are not among its own are counted as `others`."""

    question: Question
    guessed: int
    hands: int
    others: int
    rows: list[Row]

    @property
    def told(self) -> bool:
        """Tell whether there are enough guesses on phones to be shown."""
        return self.guessed >= FEWEST


def counted(question: Question, guesses: Iterable[Mapping[str, Any]], hands: Mapping[str, int]) -> Counted:
    """Count the guesses of a question over all plots."""
    given = [own[question.id] for own in guesses if own.get(question.id) is not None]
    values = [value for value, _ in question.options]
    by_value = Counter(value if value in values else None for value in given)
    told, raised = len(given) >= FEWEST, sum(hands.get(value, 0) for value in values)
    rows = [
        Row(
            words,
            by_value[value] if told else None,
            hands.get(value, 0),
            round(100 * by_value[value] / len(given)) if told else 0,
            round(100 * hands.get(value, 0) / raised) if raised else 0,
        )
        for value, words in question.options
    ]
    return Counted(question, len(given), raised, by_value[None], rows)


class PlotGuesses:
    """The guesses of all plots of a class; a plot file is read again when it has changed, and never written.

    Parameters
    ----------
    folders : Folders
        Where the plots lie.
    plots : iterable of str
        The plots of the class.
    """

    def __init__(self, folders: Folders, plots: Iterable[str]) -> None:
        self._files = [folders.plot(name) for name in plots]
        self._seen: dict[Path, tuple[tuple[int, int], Mapping[str, Any]]] = {}

    def read(self) -> list[Mapping[str, Any]]:
        """Give the guesses of each plot that can be read."""
        return [found for file in self._files if (found := self._of(file)) is not None]

    def _of(self, file: Path) -> Mapping[str, Any] | None:
        try:
            status = file.stat()
            mark = status.st_mtime_ns, status.st_size
            if file not in self._seen or self._seen[file][0] != mark:
                guesses = json.loads(file.read_bytes())["guesses"]
                self._seen[file] = mark, guesses if isinstance(guesses, dict) else {}
        except (OSError, ValueError, KeyError, TypeError):
            return None  # not there yet, or damaged: the learner's page mends it
        return self._seen[file][1]


class Hands:
    """Counts of raised hands by question and answer, kept in a file.

    Parameters
    ----------
    folders : Folders
        Where the file lies.

    Raises
    ------
    InputProblem
        When there is a file that cannot be read.
    """

    def __init__(self, folders: Folders) -> None:
        self._file = folders.hands
        self._kept: dict[str, dict[str, int]] = {}
        if self._file.exists():
            try:
                found = json.loads(self._file.read_bytes())
                self._kept = {
                    question: {answer: _count(n) for answer, n in answers.items()}
                    for question, answers in found.items()
                }
            except (ValueError, AttributeError, TypeError):
                raise InputProblem("serving.kept", file=str(self._file)) from None

    def of(self, question: str) -> Mapping[str, int]:
        """Give the hands for each answer of a question."""
        return self._kept.get(question, {})

    def put(self, question: Question, typed: Iterable[str]) -> None:
        """Keep the hands for the answers of a question, as they were typed in the order of the answers.

        Raises
        ------
        InputProblem
            When one of them is no count; nothing is kept then.
        """
        given = {}
        for (value, words), text in zip(question.options, typed, strict=True):
            try:
                given[value] = _count(int(text.strip() or 0))
            except ValueError:
                raise InputProblem("serving.hands", answer=words, value=text[:40], high=MOST_HANDS) from None
        kept = {**self._kept, question.id: given}
        put_closed(self._file, json.dumps(kept, indent=1).encode())
        self._kept = kept


def _count(number: Any) -> int:
    if not isinstance(number, int) or not 0 <= number <= MOST_HANDS:
        raise ValueError
    return number
