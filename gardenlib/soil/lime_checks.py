"""What a lime answer accepts: a pH, a depth, a weight; anything else is one sentence."""

from __future__ import annotations

from gardenlib.checks import checked_number, checked_share
from gardenlib.problems import InputProblem

PH_SPAN = (3.0, 10.0)
TARGET_SPAN = (5.0, 7.5)
MOST_AREA_M2 = 10_000.0
GARDEN_LIME = (0.5, 1.1)
"""Calcium carbonate equivalent of garden lime; dolomite is the strongest at 1.09."""


def checked_ph(value: object, name: str, span: tuple[float, float] = PH_SPAN) -> float:
    """Return a pH; one typed without its point is asked about."""
    number = checked_number(value, name)
    low, high = span
    if not low <= number <= high:
        if low <= number / 10 <= high:
            raise InputProblem("lime.ph_point", name=name, value=f"{number:g}", meant=f"{number / 10:g}")
        raise InputProblem("lime.ph", name=name, value=f"{number:g}", low=f"{low:g}", high=f"{high:g}")
    return number


def checked_garden_lime(cce_fraction: float) -> float:
    """Return the calcium carbonate equivalent of a lime that is safe to handle in a garden."""
    number = checked_number(cce_fraction, "cce_fraction")
    if GARDEN_LIME[1] < number <= 2:
        raise InputProblem("lime.too_strong", value=f"{number * 100:g}")
    return checked_share(number, "cce_fraction", *GARDEN_LIME)
