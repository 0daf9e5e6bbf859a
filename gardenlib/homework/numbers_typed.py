"""Numbers as they are typed: whole, with a point or a comma, with marks for thousands, as fractions."""

from __future__ import annotations

import re

from gardenlib.words import Said

NUMBER = r"[+-]?(?:\d+[ -]\d+/\d+|\d+/\d+|[\d.,]*\d(?: \d{3})*(?:[.,]\d*)?)"
_LARGEST = 1e12


def number_typed(text: str, language: str) -> float | Said:
    """Read a number that looks like `NUMBER`, or say what is unclear."""
    if mixed := re.fullmatch(r"([+-]?)(?:(\d+)[ -])?(\d+)/(\d+)", text):
        sign, whole, top, under = mixed.groups()
        if int(under) == 0 or max(map(len, (whole or "", top, under))) > 12 or (whole and int(top) >= int(under)):
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
