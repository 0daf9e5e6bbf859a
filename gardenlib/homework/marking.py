"""Marking: what was typed against a blank, a whole sheet, and a class."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from gardenlib.homework.blank import Blank
from gardenlib.homework.reading import Typed, read_typed
from gardenlib.homework.record import SheetRecord
from gardenlib.problems import InputProblem
from gardenlib.words import Said, Voice

if TYPE_CHECKING:
    import pandas as pd

    from gardenlib.homework.tally import Tallied

__all__ = ["Mark", "MarkedSheet", "check_key", "class_view", "mark", "marked_sheet"]


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


@dataclass(frozen=True)
class MarkedSheet:
    """One sheet, marked; `again` holds question title, reply and panel of what to look at again."""

    learner: str
    sheet: SheetRecord
    marks: Mapping[str, Mark]

    @property
    def code(self) -> str:
        """The sheet's code."""
        return self.sheet.code

    @property
    def again(self) -> list[tuple[str, str, str]]:
        """List question title, reply and panel for every blank to look at again."""
        found = [
            (question.title, self.marks[blank.id].reply, self.marks[blank.id].look)
            for question in self.sheet.questions
            for blank in question.blanks
            if self.marks[blank.id].state in {"look_again", "ask"}
        ]
        return list(dict.fromkeys(found))


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


def class_view(marked: Iterable[MarkedSheet], tally: Iterable[Tallied] | None = None) -> pd.DataFrame:
    """Count for a class which question went astray for which reason.

    Parameters
    ----------
    marked : iterable of MarkedSheet
        The sheets, marked.
    tally : iterable of Tallied, optional
        What was counted by hand.

    Returns
    -------
    DataFrame
        Columns question, title, reason, reply, n; no names.  A sheet counts once for each reason at a question.
    """
    import pandas as pd

    counts: Counter[tuple[str, str, str]] = Counter()
    replies: dict[tuple[str, str, str], str] = {}
    for one in marked:
        for question in one.sheet.questions:
            found = [one.marks[blank.id] for blank in question.blanks]
            astray = [each for each in found if each.state in {"look_again", "ask"}]
            empty = any(each.state == "nothing" for each in found)
            reasons = {each.reason for each in astray} or ({"nothing"} if empty else {"holds"} if found else set())
            for reason in sorted(reasons):
                key = (question.id, question.title, reason)
                counts[key] += 1
                said = next((each.reply for each in astray if each.reason == reason), "")
                replies.setdefault(key, one.sheet.voice.say(Said("homework.reason.ask")) if reason == "ask" else said)
    for row in tally or ():
        key = (row.question, row.title, row.reason)
        counts[key] += row.n
        replies.setdefault(key, row.reply)
    rows = [(*key, replies[key], n) for key, n in counts.items()]
    rows.sort(key=lambda row: (row[0], -row[4], row[2]))
    return pd.DataFrame(rows, columns=["question", "title", "reason", "reply", "n"])
