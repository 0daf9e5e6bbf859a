"""The page of a reply: what to look at again, and where; the same for one learner and for a stack."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from typing import Any

from gardenlib.homework.looks import where
from gardenlib.homework.marking import Again, MarkedSheet
from gardenlib.homework.record import PackRecord
from gardenlib.sheets import sheet_pdf
from gardenlib.words import Voice

_BESIDE_LATIN = frozenset("°½¼¾²³×·«»¿¡ºª–—‘’“”…")


def reply_pdf(sheets: Sequence[MarkedSheet], pack: PackRecord) -> bytes:
    """Print the replies to marked sheets of one voice, a page for each."""
    voice = sheets[0].sheet.voice
    replies = [_reply(sheet, voice, show_scores=pack.show_scores) for sheet in sheets]
    title = replies[0]["title"] if len(replies) == 1 else voice.say("review.replies", session=pack.session)
    data = {"title": printable(title), "replies": replies}
    return sheet_pdf("reply", data, voice=voice, invented=pack.invented)


def _reply(sheet: MarkedSheet, voice: Voice, *, show_scores: bool) -> dict[str, Any]:
    say, states = voice.say, [mark.state for mark in sheet.marks.values()]
    empty, holds = states.count("nothing"), states.count("holds")
    after = [say("homework.reply.empty", n=empty)] if empty else []
    intro = "homework.reply.intro" if sheet.again else "review.empty_only" if empty else "homework.reply.all_hold"
    if show_scores:
        after.append(say("homework.reply.score", holds=holds, all=len(states)))
    return {
        "title": printable(_title(sheet, voice)),
        "intro": say(intro),
        "parts": [_part(one, voice) for one in sheet.again],
        "after": after,
    }


def _title(sheet: MarkedSheet, voice: Voice) -> str:
    if not sheet.learner:
        return voice.say("homework.reply.title_class", code=sheet.code)
    return voice.say("homework.reply.title", learner=sheet.learner, code=sheet.code)


def _part(one: Again, voice: Voice) -> dict[str, str]:
    say = voice.say
    head = say("review.step", **one._asdict()) if one.step else say("review.question", number=one.number)
    return {"head": head, "title": printable(one.title), "said": printable(one.reply), "where": say(where(one.look))}


def printable(text: str) -> str:
    """Put a question mark for a letter that the page's typeface does not have."""
    return "".join(sign if sign in _BESIDE_LATIN or _is_latin(sign) else "?" for sign in text)


def _is_latin(sign: str) -> bool:
    if sign.isascii():
        return sign.isprintable()
    return sign < "\u2000" and sign.isalpha() and unicodedata.name(sign, "").startswith("LATIN")
