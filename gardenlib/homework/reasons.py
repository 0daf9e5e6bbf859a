"""What can be counted at a question after class: it holds, each foreseen mistake, another one, nothing written."""

from __future__ import annotations

from dataclasses import dataclass

from gardenlib.homework.record import PackRecord
from gardenlib.words import Said, Voice

COUNTED_AS = {
    "holds": Said("homework.reason.holds"),
    "other": Said("homework.reason.other"),
    "nothing": Said("homework.reason.nothing"),
    "ask": Said("homework.reason.ask"),
}
"""What is said to a class for a reason that is no foreseen mistake."""
_ENDS = {"holds": -1, "other": 1, "nothing": 2}  # the foreseen mistakes stand between, as they were found


@dataclass(frozen=True)
class Foreseen:
    """A reason that can be counted at a question: the question's number on its sheet, and both in words."""

    question: str
    number: int
    title: str
    reason: str
    reply: str
    look: str


def foreseen(pack: PackRecord, *, voice: Voice | None = None) -> dict[tuple[str, str], Foreseen]:
    """List what can be counted for a pack.

    Parameters
    ----------
    pack : PackRecord
        What was printed.
    voice : Voice, optional
        How the person who counts is spoken to; where sheets of two languages hold a question, its own is taken.

    Returns
    -------
    dict
        By question and reason: it holds, each foreseen mistake, another one, nothing written.
    """
    voice = voice or Voice()
    found: dict[str, dict[str, Foreseen]] = {}
    for sheet in sorted(pack.sheets, key=lambda sheet: sheet.language != voice.language):
        for number, question in sheet.numbered():
            if not question.blanks:
                continue
            reasons = {"holds": (voice.say(COUNTED_AS["holds"]), "")}
            reasons |= {slip.id: (slip.reply, slip.look) for blank in question.blanks for slip in blank.slips}
            reasons["other"] = voice.say(COUNTED_AS["other"]), question.blanks[-1].look
            reasons["nothing"] = voice.say(COUNTED_AS["nothing"]), ""
            known = found.setdefault(question.id, {})
            for reason, (reply, look) in reasons.items():
                known.setdefault(reason, Foreseen(question.id, number, question.title, reason, reply, look))
    return {
        (question, reason): found[question][reason]
        for question in sorted(found)
        for reason in sorted(found[question], key=lambda reason: _ENDS.get(reason, 0))
    }
