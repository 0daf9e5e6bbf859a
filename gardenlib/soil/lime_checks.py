"""What a lime answer accepts: a pH, a depth, a weight; anything else is one sentence."""

from __future__ import annotations

import math

from gardenlib.problems import InputProblem

PH_SPAN = (3.0, 10.0)
TARGET_SPAN = (5.0, 7.5)
MOST_AREA_M2 = 10_000.0
GARDEN_LIME = (0.5, 1.1)
"""Calcium carbonate equivalent of garden lime; dolomite is the strongest at 1.09."""


def checked_number(value: object, name: str) -> float:
    """Return a plain number; words and what is not a number are refused."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise InputProblem("lime.number", name=name, value=str(value))
    return float(value)


def checked_between(value: object, name: str, low: float, high: float) -> float:
    """Return a number from `low` to `high`."""
    number = checked_number(value, name)
    if not low <= number <= high:
        raise InputProblem("lime.between", name=name, value=f"{number:g}", low=f"{low:g}", high=f"{high:g}")
    return number


def checked_ph(value: object, name: str, span: tuple[float, float] = PH_SPAN) -> float:
    """Return a pH; one typed without its point is asked about."""
    number = checked_number(value, name)
    low, high = span
    if not low <= number <= high:
        if low <= number / 10 <= high:
            raise InputProblem("lime.ph_point", name=name, value=f"{number:g}", meant=f"{number / 10:g}")
        raise InputProblem("lime.ph", name=name, value=f"{number:g}", low=f"{low:g}", high=f"{high:g}")
    return number


def checked_share(value: object, name: str, low: float, high: float) -> float:
    """Return a share such as 0.9; a percent is asked about."""
    number = checked_number(value, name)
    if number > 2:
        raise InputProblem("fraction_over_one", name=name, value=f"{number:g}", as_fraction=f"{number / 100:g}")
    if not low <= number <= high:
        raise InputProblem("lime.between", name=name, value=f"{number:g}", low=f"{low:g}", high=f"{high:g}")
    return number


def checked_choice(value: object, name: str, known: tuple[str, ...]) -> str:
    """Return one of the words that are known."""
    if not isinstance(value, str) or value not in known:
        raise InputProblem("lime.choice", name=name, value=str(value), known=", ".join(known))
    return value


def checked_garden_lime(cce_fraction: float) -> float:
    """Return the calcium carbonate equivalent of a lime that is safe to handle in a garden."""
    number = checked_number(cce_fraction, "cce_fraction")
    if GARDEN_LIME[1] < number <= 2:
        raise InputProblem("lime.too_strong", value=f"{number * 100:g}")
    return checked_share(number, "cce_fraction", *GARDEN_LIME)
