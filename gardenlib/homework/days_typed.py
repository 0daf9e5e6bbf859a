"""Days as they are typed, with the month in letters or in digits, in English and the reader's language."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from functools import cache

from gardenlib.homework.plain import plain
from gardenlib.words import Said

_FILLERS = {"de", "del", "of", "the", "el", "on", ""}


@cache
def _months(language: str) -> Mapping[str, int]:
    from babel import Locale

    found: dict[str, int] = {"sept": 9}
    for lang in (language, "en", "es"):
        for form in Locale.parse(lang).months.values():
            for width in ("wide", "abbreviated"):
                for number, name in form.get(width, {}).items():
                    found.setdefault(plain(name).strip("."), number)
    return found


@cache
def _weekdays(language: str) -> frozenset[str]:
    from babel import Locale

    return frozenset(
        plain(name).strip(".")
        for lang in (language, "en", "es")
        for form in Locale.parse(lang).days.values()
        for width in ("wide", "abbreviated")
        for name in form.get(width, {}).values()
    )


def day_typed(bare: str, *, near: date | None, language: str, year: int) -> date | Said:
    """Read a day from plain text, or say what is unclear; without a year it is the one nearest to `near`."""
    if iso := re.fullmatch(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})", bare):
        return _day(int(iso[1]), int(iso[2]), int(iso[3])) or Said("homework.ask.day", {"text": bare})
    if digits := re.fullmatch(r"(\d{1,2})[-/.](\d{1,2})(?:[-/.](\d{4}|\d\d))?", bare):
        first, second = int(digits[1]), int(digits[2])
        if first != second and max(first, second) <= 12:
            return Said("homework.ask.two_days", {"text": bare})
        month, day = (second, first) if first > 12 else (first, second)
        return _nearest(month, day, digits[3], near or date(year, 7, 1), bare=bare)
    return _in_letters(bare, near, language, year)


def _in_letters(bare: str, near: date | None, language: str, year: int) -> date | Said:
    words = [word.strip(".") for word in re.split(r"[\s,]+|(?<=\d)-(?=[a-z])|(?<=[a-z])-(?=\d)", bare)]
    words = [re.sub(r"^(\d{1,2})(?:st|nd|rd|th|\.?[ºo])$", r"\1", word) for word in words if word not in _FILLERS]
    months, weekdays = _months(language), _weekdays(language)
    if sum(word in months for word in words) > 1 and words[0] in weekdays:
        words = words[1:]
    words = [word for word in words if word in months or word not in weekdays]
    named = [months[word] for word in words if word in months]
    numbers = [word for word in words if re.fullmatch(r"\d{1,2}|\d{4}", word)]
    if len(named) != 1 or len(named) + len(numbers) != len(words) or not 1 <= len(numbers) <= 2:
        return Said("homework.ask.day", {"text": bare})
    day, *years = sorted(numbers, key=len) if any(len(number) == 4 for number in numbers) else numbers
    return _nearest(named[0], int(day), years[0] if years else None, near or date(year, 7, 1), bare=bare)


def _nearest(month: int, day: int, year_typed: str | None, aim: date, *, bare: str) -> date | Said:
    if year_typed is not None:
        whole = int(year_typed) if len(year_typed) == 4 else aim.year // 100 * 100 + int(year_typed)
        return _day(whole, month, day) or Said("homework.ask.day", {"text": bare})
    days = [found for back in (-1, 0, 1) if (found := _day(aim.year + back, month, day))]
    return min(days, key=lambda found: abs((found - aim).days)) if days else Said("homework.ask.day", {"text": bare})


def _day(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
