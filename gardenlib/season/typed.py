"""Days and numbers as people type them into the log and the table of heads."""

from __future__ import annotations

import re
from datetime import date

from gardenlib.class_folder.days import month_day
from gardenlib.class_folder.sheet import number
from gardenlib.problems import InputProblem
from gardenlib.words import Said


def typed_day(text: str, *, what: str | Said, year: int | None = None) -> date:
    """Read a day that somebody typed, with or without its year.

    Parameters
    ----------
    text : str
        Such as ``Apr 25``, ``2027-04-25``, ``25 Apr 2027`` or ``4/25/2027``.
    what : str or Said
        What is dated, for the sentence that says what to mend.
    year : int, optional
        Year of a day typed without one; where it is not given, the year must be typed.

    Returns
    -------
    date
        The day.

    Raises
    ------
    InputProblem
        When the text is no day, may be two, or has no year where it needs one.

    Notes
    -----
    No source is needed: the day itself is read as everywhere in a class folder.

    Examples
    --------
    >>> typed_day("Apr 25", what="the day", year=2027), typed_day("2026-12-28", what="the day", year=2027)
    (datetime.date(2027, 4, 25), datetime.date(2026, 12, 28))
    """
    words = re.sub(r"^(\D+\d{1,2}(?:st|nd|rd|th)?)[,\s]+\d{4}$", r"\1", text.strip())
    month, day = month_day(words, what=what)
    found = re.search(r"(?<!\d)\d{4}(?!\d)", text)
    if found is None and year is None:
        raise InputProblem("log.no_year", where=what, value=text.strip())
    try:
        return date(int(found[0]) if found else int(year or 0), month, day)
    except ValueError:
        raise InputProblem("class.no_date", where=what, value=text.strip()) from None


def typed_number(text: str, *, what: str | Said) -> float | None:
    """Read a number that somebody typed, or None where nothing was.

    Parameters
    ----------
    text : str
        Such as ``6`` or ``6.2``.  A comma is refused: it may stand for a point or part thousands.
    what : str or Said
        What is counted, for the sentence that says what to mend.

    Returns
    -------
    float or None
        The number.

    Raises
    ------
    InputProblem
        When the text is no number, or has a comma.

    Notes
    -----
    No source is needed.

    Examples
    --------
    >>> typed_number("6.2", what="how much"), typed_number(" ", what="how much")
    (6.2, None)
    """
    typed = text.strip()
    if not typed:
        return None
    if "," in typed:
        raise InputProblem("log.comma", where=what, value=typed, point=typed.replace(",", "."))
    value = number(typed, decimal_comma=False)
    if value is None:
        raise InputProblem("log.no_number", where=what, value=typed)
    return value
