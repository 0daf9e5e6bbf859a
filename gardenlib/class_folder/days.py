"""Days of the year as people and spreadsheets write them."""

from __future__ import annotations

import re
from datetime import date

from gardenlib.problems import InputProblem
from gardenlib.words import Said

_MONTHS = {
    "en": "january february march april may june july august september october november december",
    "es": "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre",
}


def month_number(text: str) -> int | None:
    """Read a month, as a number or as an English or Spanish word of at least three letters; None when it is none."""
    word = text.strip().lower().rstrip(".")
    if word.isdecimal():
        return int(word) if 1 <= int(word) <= 12 else None
    if len(word) < 3:
        return None
    found = {n for names in _MONTHS.values() for n, name in enumerate(names.split(), start=1) if name.startswith(word)}
    return found.pop() if len(found) == 1 else None


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
        Month and day.

    Raises
    ------
    InputProblem
        When the text is no day of the year, or may be two.

    Examples
    --------
    >>> month_day("25-Apr", what="the last freeze")
    (4, 25)
    """
    words = re.sub(r"\bdel?\b", " ", text.strip().lower().replace(",", " "))
    words = re.sub(r"\s+", " ", words)
    if found := re.fullmatch(r"(?:\d{4}-)?(\d{1,2})-(\d{1,2})", words):
        return _checked(int(found[1]), int(found[2]), text, what)
    if found := re.fullmatch(r"(\d{1,2})/(\d{1,2})(?:/(?:\d{4}|\d\d))?", words):
        first, second = int(found[1]), int(found[2])
        if first != second and max(first, second) <= 12:
            both = {"first": date(2001, first, second), "second": date(2001, second, first)}
            raise InputProblem("class.two_dates", where=what, value=text.strip(), **both)
        return _checked(*((second, first) if first > 12 else (first, second)), text, what)
    found = re.fullmatch(
        r"(?P<word>[a-z]+)\.?[\s-]*(?P<day>\d{1,2})(?:st|nd|rd|th)?(?:\s+\d{4})?", words
    ) or re.fullmatch(r"(?P<day>\d{1,2})(?:st|nd|rd|th)?\.?[\s-]*(?P<word>[a-z]+)\.?(?:[\s-]+(?:\d{4}|\d\d))?", words)
    month = month_number(found["word"]) if found else None
    return _checked(month or 0, int(found["day"]) if found else 0, text, what)


def _checked(month: int, day: int, text: str, what: str | Said) -> tuple[int, int]:
    try:
        date(2001, month, day)
    except ValueError:
        raise InputProblem("class.no_date", where=what, value=text.strip()) from None
    return month, day
