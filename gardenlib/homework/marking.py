"""Marking: what was typed against a blank, a whole sheet, and a class."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, NamedTuple

from gardenlib.homework.blank import Blank
from gardenlib.homework.reading import Typed, read_typed
from gardenlib.homework.reasons import COUNTED_AS, foreseen
from gardenlib.homework.record import PackRecord, SheetRecord
from gardenlib.problems import InputProblem
from gardenlib.words import Voice

if TYPE_CHECKING:
    import pandas as pd

    from gardenlib.homework.tally import Tallied

ASTRAY = frozenset(("look_again", "ask"))
"""The states of a blank that is to be looked at again."""
_LAST = {"nothing": 1, "holds": 2}  # of the reasons at a question


@dataclass(frozen=True)
class Mark:
    """What came of one blank; `slip` is the foreseen mistake, `reply` and `look` are for the learner."""

    state: Literal["holds", "look_again", "nothing", "ask"]
    slip: str = ""
    reply: str = ""
    look: str = ""

    @property
    def reason(self) -> str:
        """Give the reason that counts in the class view."""
        return (self.slip or "other") if self.state == "look_again" else self.state


class Again(NamedTuple):
    """What to look at again: the question's number on its sheet, the step or 0 where one is asked, and the reply."""

    number: int
    step: int
    title: str
    reply: str
    look: str


@dataclass(frozen=True)
class MarkedSheet:
    """One sheet, marked."""

    learner: str
    sheet: SheetRecord
    marks: Mapping[str, Mark]

    @property
    def code(self) -> str:
        """The sheet's code."""
        return self.sheet.code

    @property
    def again(self) -> list[Again]:
        """List what to look at again, in the order of the sheet."""
        return [
            Again(number, blank.step if len(question.blanks) > 1 else 0, question.title, found.reply, found.look)
            for number, question in self.sheet.numbered()
            for blank in question.blanks
            if (found := self.marks[blank.id]).state in ASTRAY
        ]


def mark(blank: Blank, typed: Typed, *, voice: Voice | None = None) -> Mark:
    """Mark what was typed at a blank.

    Parameters
    ----------
    blank : Blank
        What is asked.
    typed : Typed
        What was typed, read.
    voice : Voice, optional
        How the reader is spoken to; English where it is not given.

    Returns
    -------
    Mark
        Never a score.
    """
    say = (voice or Voice()).say
    if typed.value is None:
        asked = typed.state == "ask" and typed.say is not None
        return Mark("ask", reply=say(typed.say), look=blank.look) if asked and typed.say else Mark("nothing")
    if blank.holds(typed.value):
        return Mark("holds")
    for slip in blank.slips:
        if slip.holds(typed.value):
            return Mark("look_again", slip.id, slip.reply, slip.look)
    return Mark("look_again", reply=say("homework.reply.other"), look=blank.look)


def marked_sheet(sheet: SheetRecord, answers: Mapping[str, str], *, learner: str = "") -> MarkedSheet:
    """Mark a sheet from the answers by blank id; a blank without an answer is its own state."""
    marks = {
        blank_id: mark(
            blank,
            read_typed(answers.get(blank_id, ""), blank, language=sheet.voice.language, year=sheet.year),
            voice=sheet.voice,
        )
        for blank_id, blank in sheet.blanks().items()
    }
    return MarkedSheet(sheet.learner or learner, sheet, marks)


def check_key(sheet: SheetRecord) -> None:
    """See that every answer of the key passes the marking, or say which does not."""
    for blank_id, found in marked_sheet(sheet, {name: b.shown for name, b in sheet.blanks().items()}).marks.items():
        if found.state != "holds":
            raise InputProblem("homework.key_fails", blank=blank_id, value=sheet.blanks()[blank_id].shown)


def class_view(
    marked: Iterable[MarkedSheet],
    tally: Iterable[Tallied] | None = None,
    *,
    pack: PackRecord | None = None,
    voice: Voice | None = None,
) -> pd.DataFrame:
    """Count for a class which question went astray for which reason.

    Parameters
    ----------
    marked : iterable of MarkedSheet
        The sheets, marked.
    tally : iterable of Tallied, optional
        What was counted by hand.
    pack : PackRecord, optional
        What was printed, for the words of the instructor's language where it has them.
    voice : Voice, optional
        How the instructor is spoken to.

    Returns
    -------
    DataFrame
        Columns question, title, reason, reply, look, n and of, which is how many answered the question; no names.
        A sheet counts once for each reason at a question.
    """
    import pandas as pd

    voice = voice or Voice()
    counts: Counter[tuple[str, str]] = Counter()
    all_of: Counter[str] = Counter()
    known = [] if pack is None else foreseen(pack, voice=voice).values()
    titles = {one.question: one.title for one in known}
    words = {(one.question, one.reason): (one.reply, one.look) for one in known}
    for one in marked:
        for question in one.sheet.questions:
            reasons = _reasons([one.marks[blank.id] for blank in question.blanks])
            all_of[question.id] += bool(reasons)
            titles.setdefault(question.id, question.title)
            for reason, found in reasons.items():
                reply = voice.say(COUNTED_AS[reason]) if reason in COUNTED_AS else found.reply
                counts[question.id, reason] += 1
                words.setdefault((question.id, reason), (reply, found.look))
    for row in tally or ():
        counts[row.question, row.reason] += row.n
        all_of[row.question] += row.n
        titles.setdefault(row.question, row.title)
        words.setdefault((row.question, row.reason), (row.reply, row.look))
    rows = [(key[0], titles[key[0]], key[1], *words[key], n, all_of[key[0]]) for key, n in counts.items()]
    rows.sort(key=lambda row: (row[0], _LAST.get(row[2], 0), -row[5], row[2]))
    return pd.DataFrame(rows, columns=["question", "title", "reason", "reply", "look", "n", "of"])


def _reasons(marks: Sequence[Mark]) -> dict[str, Mark]:
    """Give what a sheet counts as at a question: each reason to look again, else an empty part, else that it holds."""
    astray = {one.reason: one for one in reversed(marks) if one.state in ASTRAY}
    return astray or {one.reason: one for one in marks if one.state == "nothing"} or {one.reason: one for one in marks}
