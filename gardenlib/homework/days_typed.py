"""Days as they are typed at a blank: what has two readings, or none, is asked back."""

from __future__ import annotations

from datetime import date

from gardenlib.class_folder.days import days_read
from gardenlib.words import Said


def day_typed(bare: str, *, near: date | None, year: int) -> date | Said:
    """Read a day from plain text, or say what is unclear; without a year it is the one nearest to `near`."""
    aim = near or date(year, 7, 1)
    days = {found for month, day, typed in days_read(bare) if (found := _dated(month, day, typed, aim))}
    if len(days) == 1:
        return days.pop()
    return Said("homework.ask.two_days" if days else "homework.ask.day", {"text": bare})


def nearest(month: int, day: int, aim: date) -> date | None:
    """Give a day of the year the year in which it is nearest to `aim`; None where that year has no such day."""
    # 29 February lies in the year in which 28 February is nearest.
    leap = (month, day) == (2, 29)
    days = [date(aim.year + back, month, 28 if leap else day) for back in (-1, 0, 1)]
    return _day(min(days, key=lambda found: abs((found - aim).days)).year, month, day)


def _dated(month: int, day: int, year: int | None, aim: date) -> date | None:
    """Give a day its year; None where that year has no such day, or two digits name a year far from the sheet's."""
    if year is None:
        return nearest(month, day, aim)
    if year < 100:
        year += aim.year // 100 * 100
        if abs(year - aim.year) > 1:
            return None
    return _day(year, month, day)


def _day(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
