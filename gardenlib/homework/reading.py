"""What somebody typed at a blank: a value, nothing, or something to ask back; it is never guessed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from gardenlib.homework.blank import Blank, Typable
from gardenlib.homework.days_typed import day_typed
from gardenlib.homework.plain import LONGEST, plain
from gardenlib.homework.units_typed import converted, unit_typed
from gardenlib.words import Said

__all__ = ["Typed", "read_typed"]

_NOTHING = frozenset(
    (
        *("", "-", "--", "---", "?", "??", "???", ".", "...", "/", "n/a", "na"),
        *("don't know", "dont know", "i don't know", "i dont know", "idk", "not sure", "no idea"),
        *("no se", "no lo se", "ni idea"),
    )
)
_ABOUT = re.compile(
    r"^(?:about|approximately|approx\.?|around|roughly|ca\.?|circa|unos|unas|aprox\.?|aproximadamente|cerca de"
    r"|alrededor de|mas o menos|~|≈|=)\s*"
)
_NUMBER = r"[+-]?(?:\d+ \d+/\d+|\d+/\d+|[\d.,]*\d(?: \d{3})*(?:[.,]\d*)?)"
_ONE = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>[^\d+\-].*)?")
_TWO = (
    re.compile(r"(?:from|de|desde) (?P<low>.+?) (?:to|a|hasta) (?P<high>.+)"),
    re.compile(r"(?:between|entre) (?P<low>.+?) (?:and|y|e) (?P<high>.+)"),
    re.compile(r"(?P<low>.+?) (?:to|a|hasta) (?P<high>[+-]?[\d.,].*)"),
    re.compile(r"(?P<low>[+-]?[\d.,/ ]*\d[^\d-]*?)\s?-\s?(?P<high>[\d.,].*)"),
)
_LARGEST = 1e12


@dataclass(frozen=True)
class Typed:
    """What was typed, as it was read.

    Parameters
    ----------
    state : {"value", "nothing", "ask"}
        ``ask`` where it has two readings or none.
    value : float, tuple, date, str or None
        In the unit of the blank.
    say : Said or None
        What is asked back.
    """

    state: Literal["value", "nothing", "ask"]
    value: Typable | None = None
    say: Said | None = None


def read_typed(text: str, blank: Blank, *, language: str = "en", year: int) -> Typed:
    """Read what somebody typed at a blank.

    Parameters
    ----------
    text : str
        As it was typed, or copied off the paper.
    blank : Blank
        What is asked there.
    language : str
        Language of the sheet; English names are read beside it.
    year : int
        The year of the sheet.

    Returns
    -------
    Typed
        What has two readings, or none, is asked back.
    """
    bare = plain(text)
    if bare in _NOTHING:
        return Typed("nothing")
    if len(text) > LONGEST:
        return _ask(text, Said("homework.ask.long", {"text": text}))
    if blank.kind == "words":
        return Typed("value", bare)
    bare = _ABOUT.sub("", bare).rstrip(" !;")
    if blank.kind == "date":
        found = day_typed(bare, near=blank.first, language=language, year=year)
        return _ask(text, found) if isinstance(found, Said) else Typed("value", found)
    return _numbers(text, bare, blank, language)


def _ask(text: str, why: Said) -> Typed:
    return Typed("ask", say=Said(why.key, {**why.values, "text": text.strip()[:60]}))


def _numbers(text: str, bare: str, blank: Blank, language: str) -> Typed:
    both = next((found for form in _TWO if (found := form.fullmatch(bare))), None)
    if both is None:
        one = _one(bare, blank.unit, language)
        return _ask(text, one) if isinstance(one, Said) else Typed("value", one)
    if blank.kind != "range":
        return _ask(text, Said("homework.ask.one_number", {"text": text}))
    low_text, high_text = both["low"].strip(), both["high"].strip()
    behind = _ONE.fullmatch(high_text)
    if behind and behind["unit"] and re.fullmatch(_NUMBER, low_text):
        low_text = f"{low_text} {behind['unit']}"
    elif (before := _ONE.fullmatch(low_text)) and before["unit"] and re.fullmatch(_NUMBER, high_text):
        high_text = f"{high_text} {before['unit']}"
    ends = [_one(end, blank.unit, language) for end in (low_text, high_text)]
    numbers = []
    for end in ends:
        if isinstance(end, Said):
            return _ask(text, end)
        numbers.append(end)
    return Typed("value", (min(numbers), max(numbers)))


def _one(bare: str, wanted: str, language: str) -> float | Said:
    """Read one number in the unit that is asked, or say what is unclear."""
    found = _ONE.fullmatch(bare)
    if found is None:
        return Said("homework.ask.number", {"text": bare})
    value = _number(found["number"], language)
    if isinstance(value, Said):
        return value
    unit = (found["unit"] or "").strip().rstrip(".")
    if not unit:
        return value
    known = unit_typed(unit, wanted, language)
    same = None if known is None else value if not wanted and known == "plants" else converted(value, known, wanted)
    return Said("homework.ask.unit", {"text": bare, "unit": unit[:30]}) if same is None else same


def _number(text: str, language: str) -> float | Said:
    if mixed := re.fullmatch(r"([+-]?)(?:(\d+) )?(\d+)/(\d+)", text):
        sign, whole, top, under = mixed.groups()
        if int(under) == 0 or max(map(len, (whole or "", top, under))) > 12:
            return Said("homework.ask.number", {"text": text})
        return (int(whole or 0) + int(top) / int(under)) * (-1 if sign == "-" else 1)
    joined = re.sub(r"(?<=\d) (?=\d{3}(?!\d))", "", text)
    point, comma = joined.count("."), joined.count(",")
    thousands = re.fullmatch(r"[+-]?[1-9]\d{0,2}([.,]\d{3})(?:\1)*", joined)
    groups = re.fullmatch(r"[+-]?[1-9]\d{0,2}(?:([.,])\d{3})(?:\1\d{3})*(?:[.,]\d+)?", joined)
    if not point and not comma:
        plain_number = joined
    elif point + comma == 1:
        if thousands and language != "en":
            return Said("homework.ask.thousands", {"text": text})
        plain_number = joined.replace(",", "") if thousands and comma else joined.replace(",", ".")
    elif groups:
        mark = groups[1]
        plain_number = joined.replace(mark, "").replace(",", ".")
    else:
        return Said("homework.ask.number", {"text": text})
    try:
        value = float(plain_number)
    except ValueError:
        return Said("homework.ask.number", {"text": text})
    return value if abs(value) <= _LARGEST else Said("homework.ask.number", {"text": text})
