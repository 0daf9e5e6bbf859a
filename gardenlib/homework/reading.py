"""What somebody typed at a blank: a value, nothing, or something to ask back; it is never guessed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from gardenlib.homework.blank import Blank, Typable
from gardenlib.homework.days_typed import day_typed
from gardenlib.homework.numbers_typed import NUMBER, number_typed
from gardenlib.homework.plain import LONGEST, plain
from gardenlib.homework.units_typed import converted, unit_typed
from gardenlib.words import Said

_NOTHING = frozenset(
    (
        *("", "-", "--", "---", "?", "??", "???", ".", "...", "/", "n/a", "na", "n.a.", "blank", "no answer"),
        *("don't know", "dont know", "do not know", "i don't know", "i dont know", "i do not know"),
        *("idk", "not sure", "no idea", "no se", "no lo se", "no sabemos", "ni idea", "en blanco", "sin respuesta"),
    )
)
_ABOUT = re.compile(
    r"^(?:about|approximately|approx\.?|around|roughly|nearly|almost|circa|ca\b\.?|c\.|unos|unas|casi|aprox\.?"
    r"|aproximadamente|cerca de|alrededor de|mas o menos|~|≈|=|\?)\s*"
)
_OR_SO = re.compile(
    r"\s*(?:\?+|!+|;|\bor so|ish|\bmore or less|\bapprox(?:\.|imately)?|\baprox(?:\.|imadamente)?|\bmas o menos)$"
)
_MINUS = re.compile(r"(^|\b(?:to|a|and|y) )(?:minus|menos) (?=[\d.,])")
_ONE = re.compile(rf"(?P<number>{NUMBER})\s*(?P<unit>[^\d+\-].*)?")
_IN_TWO_UNITS = re.compile(r"(\d+)\s*([^\d\s,.]+)[.,]?\s*(?:(?:and|y|con)\s+)?(\d+(?:[.,]\d+)?)\s*([^\d\s]+)")
_DASHED = re.compile(r"\d+-\d+/\d+\D*")  # 3-1/2 is three and a half, or from 3 down to a half
_TWO = (
    re.compile(r"(?:from|de|desde) (?P<low>.+?) (?:to|a|hasta) (?P<high>.+)"),
    re.compile(r"(?:between|entre) (?P<low>.+?) (?:and|y|e) (?P<high>.+)"),
    re.compile(r"(?P<low>.+?) (?:to|thru|through|up to|a|al|hasta) (?P<high>[+-]?[\d.,].*)"),
    re.compile(r"(?P<low>[+-]?[\d.,/ ]*\d[^\d-]*?)(?:\s?-\s?(?P<high>[\d.,].*)| - (?P<below>-\d.*))"),
)
_BEFORE_WORDS = re.compile(r"^(?:it is |es |zone |zona |an? |the |una? |el |la )+")


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
        return Typed("value", _words(bare, blank))
    bare = _OR_SO.sub("", _ABOUT.sub("", bare)).rstrip()
    if blank.kind == "date":
        found = day_typed(bare, near=blank.first, year=year)
        return _ask(text, found) if isinstance(found, Said) else Typed("value", found)
    return _numbers(text, _MINUS.sub(r"\1-", bare), blank, language)


def _ask(text: str, why: Said) -> Typed:
    return Typed("ask", say=Said(why.key, {**why.values, "text": text.strip()[:60]}))


def _words(bare: str, blank: Blank) -> str:
    """Give the words that the blank knows, where only spaces, signs or small words before them differ."""

    def letters(words: str) -> str:
        return re.sub(r"[\W_]+", "", _BEFORE_WORDS.sub("", words))

    known = {letters(words): words for span in (*blank.slips, blank) for words in span.accepted}
    return known.get(letters(bare), bare)


def _numbers(text: str, bare: str, blank: Blank, language: str) -> Typed:
    dashed = _DASHED.fullmatch(bare)
    if blank.kind == "range" and (dashed or re.fullmatch(r"\d+/\d+", bare)):
        return _ask(text, Said("homework.ask.range", {"text": text}))
    both = None if dashed else next((found for form in _TWO if (found := form.fullmatch(bare))), None)
    if both is None:
        one = _one(bare, blank, language)
        return _ask(text, one) if isinstance(one, Said) else Typed("value", one)
    if blank.kind != "range":
        return _ask(text, Said("homework.ask.one_number", {"text": text}))
    ends = both.groupdict()
    low_text, high_text = ends["low"].strip(), (ends.get("high") or ends["below"]).strip()
    behind = _ONE.fullmatch(high_text)
    if behind and behind["unit"] and re.fullmatch(NUMBER, low_text):
        low_text = f"{low_text} {behind['unit']}"
    elif (before := _ONE.fullmatch(low_text)) and before["unit"] and re.fullmatch(NUMBER, high_text):
        high_text = f"{high_text} {before['unit']}"
    numbers = []
    for end in (_one(end, blank, language) for end in (low_text, high_text)):
        if isinstance(end, Said):
            return _ask(text, end)
        numbers.append(end)
    return Typed("value", (min(numbers), max(numbers)))


def _one(bare: str, blank: Blank, language: str) -> float | Said:
    """Read one number in the unit that is asked, or say what is unclear."""
    in_two = _in_two_units(bare, blank.unit, language)
    if in_two is not None:
        return in_two
    found = _ONE.fullmatch(bare)
    value = number_typed(found["number"], language) if found else Said("homework.ask.number", {"text": bare})
    if found is None or isinstance(value, Said):
        return value
    if unit := (found["unit"] or "").strip().rstrip("."):
        return _in_unit(value, unit, blank, language)
    return Said("homework.ask.percent", {"text": bare}) if _may_be_a_part(value, blank) else value


def _in_unit(value: float, unit: str, blank: Blank, language: str) -> float | Said:
    """Bring a number into the unit that is asked, or say what is unclear."""
    known = unit_typed(unit, blank.unit, language)
    if known is None and re.search(r"\d", unit):  # another number
        return Said("homework.ask.range" if blank.kind == "range" else "homework.ask.one_number", {"text": unit})
    if not blank.unit:
        counted = plain(blank.unit_words)
        named = bool(counted) and unit in {counted, counted.removesuffix("s")}
        return value if named else Said("homework.ask.alone", {"text": unit})
    same = None if known is None else converted(value, known, blank.unit)
    return Said("homework.ask.unit", {"text": unit, "unit": unit[:30]}) if same is None else same


def _in_two_units(bare: str, wanted: str, language: str) -> float | None:
    """Add up a number in two units, such as 5 ft 6 in; None where it is none."""
    found = _IN_TWO_UNITS.fullmatch(bare.replace("''", '"'))
    if found is None or wanted.startswith("deg"):
        return None
    sizes = []
    for name in (found[2], found[4]):
        unit = unit_typed(name.rstrip("."), wanted, language)
        sizes.append(None if unit is None else converted(1.0, unit, wanted))
    large, small = sizes
    number = number_typed(found[3], language)
    if large is None or small is None or isinstance(number, Said) or number * small >= large:
        return None
    return int(found[1]) * large + number * small


def _may_be_a_part(value: float, blank: Blank) -> bool:
    """Tell whether a number at a percent may be a part of one: it is small, and not one that is foreseen."""
    small = blank.unit == "percent" and 0 < abs(value) <= 1
    return small and not any(span.holds(value) for span in (blank, *blank.slips))
