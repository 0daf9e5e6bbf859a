"""Days of the year as people and spreadsheets write them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from datetime import date

from gardenlib.problems import InputProblem
from gardenlib.words import Said

_MONTHS = {
    name: number
    for names in (
        "january february march april may june july august september october november december",
        "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre",
    )
    for number, name in enumerate(names.split(), start=1)
} | {"setiembre": 9}
_WEEKDAYS = (
    "monday tuesday wednesday thursday friday saturday sunday lunes martes miercoles jueves viernes sabado domingo"
)
_FILLERS = {"de", "del", "of", "the", "el", "on", ""}
_FIRSTS = {"first": "1", "primero": "1"}
_LEAP_YEAR = 2024

TypedDay = tuple[int, int, int | None]


def month_number(text: str) -> int | None:
    """Read a month, as a number or as an English or Spanish word of at least three letters; None when it is none."""
    word = text.strip().lower().rstrip(".")
    if word.isdecimal():
        return int(word) if 1 <= int(word) <= 12 else None
    found = {number for name, number in _MONTHS.items() if name.startswith(word)} if len(word) >= 3 else set()
    return found.pop() if len(found) == 1 else None


def days_read(text: str) -> list[TypedDay]:
    """Read a day as month, day and year: one where it is clear, more where it may be several, none where it is none.

    The year is as it was typed, in two digits or four, or None.
    """
    small = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(sign for sign in small if unicodedata.category(sign) != "Mn").strip()
    if iso := re.fullmatch(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})", bare):
        return _real([(int(iso[2]), int(iso[3]), int(iso[1]))])
    if digits := re.fullmatch(r"(\d{1,2})[-/.](\d{1,2})(?:[-/.](\d{4}|\d\d))?\.?", bare):
        first, second = int(digits[1]), int(digits[2])
        year = None if digits[3] is None else int(digits[3])
        orders = [(first, second, year), (second, first, year)]
        if year is not None and len(digits[3]) == 2:
            orders.append((second, year, first))  # the year may stand first
        return _real(orders)
    return _in_letters(bare)


def _in_letters(bare: str) -> list[TypedDay]:
    ordinals = re.sub(r"\b(\d{1,2})(?:st|nd|rd|th|ero|ro|\.?o)\b", r"\1", bare)
    words = [word.strip(".") for word in re.split(r"[\s,]+|(?<=\d)-?(?=[a-z])|(?<=[a-z])-?(?=\d)", ordinals)]
    words = [_FIRSTS.get(word, word) for word in words if word not in _FILLERS]
    months = [_month_word(word) for word in words]
    if len([month for month in months if month]) > 1 and _is_weekday(words[0]):
        words, months = words[1:], months[1:]  # "mar" may be a Tuesday, or March
    left = [(word, month) for word, month in zip(words, months, strict=True) if month or not _is_weekday(word)]
    named = [month for _, month in left if month]
    numbers = [word for word, month in left if not month and re.fullmatch(r"\d{1,2}|\d{4}", word)]
    if len(named) != 1 or len(named) + len(numbers) != len(left) or not 1 <= len(numbers) <= 2:
        return []
    day, *years = sorted(numbers, key=len) if any(len(number) == 4 for number in numbers) else numbers
    return _real([(named[0], int(day), int(years[0]) if years else None)])


def _month_word(word: str) -> int | None:
    return None if word.isdecimal() else month_number(word)


def _is_weekday(word: str) -> bool:
    return len(word) >= 3 and any(name.startswith(word) for name in _WEEKDAYS.split())


def _real(days: Iterable[TypedDay]) -> list[TypedDay]:
    """Leave out what is no day of any year."""
    return [day for day in dict.fromkeys(days) if _is_day(day[0], day[1])]


def _is_day(month: int, day: int) -> bool:
    try:
        date(_LEAP_YEAR, month, day)
    except ValueError:
        return False
    return True


def month_day(text: str, *, what: str | Said) -> tuple[int, int]:
    """Read a day of the year.

    Parameters
    ----------
    text : str
        Such as ``Apr 25``, ``25-Apr``, ``25 de abril``, ``04-25`` (month first) or ``2027-04-25``.
        ``4/25`` is read because it can mean one day only; ``4/5`` is refused.
    what : str or Said
        What is dated and where it stands, for the sentence that says what to mend.

    Returns
    -------
    tuple of (int, int)
        Month and day; never 29 February, which is not in every year.

    Raises
    ------
    InputProblem
        When the text is no day of the year, or may be two.

    Examples
    --------
    >>> month_day("25-Apr", what="the last freeze")
    (4, 25)
    """
    typed = text.strip()
    stored = re.fullmatch(r"(\d{1,2})-(\d{1,2})", typed)
    found = [(int(stored[1]), int(stored[2]), None)] if stored else days_read(typed)
    days = list(dict.fromkeys((month, day) for month, day, _ in found))
    if len(days) > 1:
        both = {name: date(_LEAP_YEAR, *day) for name, day in zip(("first", "second"), days, strict=False)}
        raise InputProblem("class.two_dates", where=what, value=typed, **both)
    if not days or not _is_day(*days[0]) or days[0] == (2, 29):
        raise InputProblem("class.no_date", where=what, value=typed)
    return days[0]
