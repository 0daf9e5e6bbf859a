"""How the result of a step is written, and which answers to it are accepted."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date
from typing import Any, NamedTuple

from gardenlib.homework.blank import Kind, Span
from gardenlib.homework.plain import plain
from gardenlib.soil.texture import CLASSES, texture_name
from gardenlib.units import Quantity, Range, in_system
from gardenlib.words import Voice
from gardenlib.working import Value

SHARE = 0.02  # 2 %, for figures read off a scale or carried on rounded; common practice, no source
_COARSEST = 0.1  # half a unit of the last decimal is at most this share of the value
_COUNTED = frozenset({"plants", "seeds", "of_ten", "days", "weeks", "months", "years"})


class Asked(NamedTuple):
    """A result as it is asked: its kind, its unit, decimals, and what is accepted."""

    kind: Kind
    unit: str
    places: int
    span: Span


def asked(value: Value, voice: Voice, places: int) -> Asked:
    """Say how a result is asked and what is accepted.

    Parameters
    ----------
    value : value
        Result of a step, never None.
    voice : Voice
        Language and units of the reader.
    places : int
        Decimals in which a result that is not whole is asked; more are asked where these would say too little.

    Returns
    -------
    Asked
        Whole counts and dates are exact; other numbers hold within half a unit of the last decimal asked, or within
        2 %, whichever is wider.
    """
    if isinstance(value, date):
        return Asked("date", "", 0, Span(first=value, last=value, shown=voice.date(value)))
    if isinstance(value, str):
        named = _named(value, voice)
        return Asked("words", "", 0, Span(accepted=tuple(dict.fromkeys(map(plain, (named, value)))), shown=named))
    unit, numbers = numbers_of(value, voice)
    decimals = max(_needed_places(number, places) for number in numbers)
    span = span_of(numbers, unit, decimals, written(value, voice, decimals), counted=isinstance(value, int))
    return Asked("number" if span.upper_low is None else "range", unit, decimals, span)


def span_of(numbers: Sequence[float], unit: str, places: int, shown: str, *, counted: bool = False) -> Span:
    """Give what is accepted for a number, or for the two of a range that differ."""
    low, high = _limits(numbers[0], unit, places, counted=counted)
    if numbers[0] == numbers[-1]:
        return Span(low=low, high=high, shown=shown)
    upper_low, upper_high = _limits(numbers[-1], unit, places, counted=counted)
    return Span(low=low, high=high, upper_low=upper_low, upper_high=upper_high, shown=shown)


def numbers_of(value: Any, voice: Voice) -> tuple[str, tuple[float, ...]]:
    """Give the unit and the number, or the two of a range, in the reader's units."""
    if isinstance(value, Range):
        low, unit = in_system(value.low, value.unit, voice.units)
        return unit, (low, in_system(value.high, value.unit, voice.units)[0])
    if isinstance(value, Quantity):
        number, unit = in_system(value.value, value.unit, voice.units)
        return unit, (float(number),)
    return "", (float(value),)


def _needed_places(number: float, places: int) -> int:
    """Give the decimals that a number is asked in: more than `places` where it is very small."""
    if number == 0 or is_whole(number):
        return places
    return max(places, math.ceil(-math.log10(2 * _COARSEST * abs(number))))


def is_whole(number: float) -> bool:
    """Tell whether a number is whole but for the crumbs of a conversion."""
    return math.isclose(number, round(number), rel_tol=1e-9, abs_tol=1e-9)


def _limits(number: float, unit: str, places: int, *, counted: bool) -> tuple[float, float]:
    """Give the lowest and highest number accepted for one."""
    if counted or (unit in _COUNTED and is_whole(number)):
        return round(number), round(number)
    width = max(0.5 * 10.0**-places, SHARE * abs(number)) * (1 + 1e-9)
    return number - width, number + width


def written(value: Value, voice: Voice, places: int) -> str:
    """Write a result with its unit; thousands stand without a comma, so that it can be typed as it is read."""
    if isinstance(value, str):
        return _named(value, voice)
    if isinstance(value, bool) or not isinstance(value, int | float | Quantity | Range):
        return "" if value is None else voice.value(value)
    unit, numbers = numbers_of(value, voice)
    last = round(numbers[-1], places)
    shown = figure(numbers, voice, places)
    return voice.say(f"unit.{unit}", x=shown, n=int(last) if last.is_integer() else last) if unit else shown


def _named(words: str, voice: Voice) -> str:
    """Name a soil class in the reader's language; other words, such as those of a zone, are the same in all."""
    return voice.say(texture_name(words)) if words in CLASSES else words


def figure(numbers: Sequence[float], voice: Voice, places: int) -> str:
    """Write a number, or the two of a range, without a unit."""
    both = list(dict.fromkeys(_digits(number, voice, places) for number in numbers))
    return both[0] if len(both) == 1 else voice.say("unit.between", low=both[0], high=both[-1])


def unit_words(unit: str, voice: Voice) -> str:
    """Write a unit alone, as it stands behind the boxes."""
    return voice.say(f"unit.{unit}", x="", n=2).strip() if unit else ""


def _digits(number: float, voice: Voice, places: int) -> str:
    return voice.number(round(number, places) + 0.0, places, thousands=False)
