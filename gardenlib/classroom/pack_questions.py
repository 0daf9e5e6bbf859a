"""Which questions stand on a sheet: a full example first, then more and more that is asked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from gardenlib.homework import Ground, Question, SheetRecord, check_key, mark, read_typed, set_question, skills
from gardenlib.problems import InputProblem

TRIES = 6  # other numbers that are drawn for a question before another skill is taken
# Four questions; where they are too long for one sheet, fewer, at last the last rung alone.
LADDERS = ((1, 2, 3, 4), (1, 2, 4), (1, 4), (4,))


class Choice:
    """The questions that a page can set on one ground; each draw is made once."""

    def __init__(self, page: str, ground: Ground) -> None:
        self._page, self._ground = page, ground
        self._drawn: dict[tuple[str, int], Question | None] = {}

    def sheets(self, ladder: Sequence[int]) -> Iterator[list[Question]]:
        """Set the questions of a sheet, one choice after another; each begins with another skill of the page."""
        offered = [skill.id for skill in skills() if skill.page == self._page]
        if not offered:
            known = ", ".join(dict.fromkeys(skill.page for skill in skills()))
            raise InputProblem("pack.no_skill", page=self._page, known=known)
        start = self._ground.draw("pack.skill", range(len(offered)))
        for place in range(len(offered)):
            turned = (start + place) % len(offered)
            asked = self._asked([*offered[turned:], *offered[:turned]], ladder)
            if len(asked) >= min(2, len(ladder)):
                yield asked

    def _asked(self, offered: Sequence[str], ladder: Sequence[int]) -> list[Question]:
        """Climb the ladder: the same skill with other numbers, else the next skill."""
        found: list[Question] = []
        for rung in ladder:
            options = (self._set(f"{skill}.{rung}", number) for skill in offered for number in range(TRIES))
            good = next((one for one in options if one is not None and _new(found, one)), None)
            if good is not None:
                found.append(good)
        return found

    def _set(self, question_id: str, number: int) -> Question | None:
        key = question_id, number
        if key not in self._drawn:
            try:
                self._drawn[key] = set_question(question_id, _redrawn(self._ground, *key))
            except InputProblem:
                self._drawn[key] = None
        return self._drawn[key]

    def again(self, questions: Sequence[Question], ground: Ground) -> list[Question]:
        """Set the same questions on the ground of another reader, who speaks another language."""
        keys = [next(key for key, drawn in self._drawn.items() if drawn is one) for one in questions]
        return [set_question(key[0], _redrawn(ground, *key)) for key in keys]


def _redrawn(ground: Ground, question_id: str, number: int) -> Ground:
    return replace(ground, code=f"{ground.code}|{question_id}|{number}")


def _new(found: Sequence[Question], one: Question) -> bool:
    """Tell whether a question can stand beside others: it is not one of them, and none prints what another asks."""
    return all(_numbers(one) != _numbers(other) for other in found) and not _tells([*found, one])


def _numbers(question: Question) -> list[tuple[str, str]]:
    """Give what goes in and comes out, by which the same question is known at another rung."""
    return [(line.given, line.result) for line in question.working]


def _tells(questions: Sequence[Question]) -> bool:
    """Tell whether a question prints what another one asks for."""
    for one in questions:
        printed = {line.result for line in one.lines if line.blank is None}
        printed |= {part.partition(": ")[2] for line in one.lines for part in line.given.split("; ")}
        asked = {blank.shown for other in questions if other is not one for blank in other.blanks}
        if printed & asked:
            return True
    return False


def proved(record: SheetRecord) -> None:
    """See that each answer of the key holds when it is marked, and that each foreseen mistake gets its own reply."""
    check_key(record)
    for blank_id, blank in record.blanks().items():
        for slip in blank.slips:
            typed = read_typed(slip.shown, blank, language=record.language, year=record.year)
            if mark(blank, typed, voice=record.voice).slip != slip.id:
                raise InputProblem("homework.key_fails", blank=blank_id, value=slip.shown)
