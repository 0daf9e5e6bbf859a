"""What answers accept: a number between two, a share, one of a few words; anything else is one sentence."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from gardenlib.problems import InputProblem


def checked_number(value: object, name: str) -> float:
    """Return a plain number; words and what is not a number are refused."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise InputProblem("value.number", name=name, value=str(value))
    return float(value)


def checked_between(value: object, name: str, low: float, high: float) -> float:
    """Return a number from `low` to `high`."""
    number = checked_number(value, name)
    if not low <= number <= high:
        raise InputProblem("value.between", name=name, value=f"{number:g}", low=f"{low:g}", high=f"{high:g}")
    return number


def checked_share(value: object, name: str, low: float, high: float) -> float:
    """Return a share such as 0.9; a percent is asked about."""
    number = checked_number(value, name)
    if number > 2:
        raise InputProblem("fraction_over_one", name=name, value=f"{number:g}", as_fraction=f"{number / 100:g}")
    return checked_between(number, name, low, high)


def checked_choice(value: object, name: str, known: tuple[str, ...]) -> str:
    """Return one of the words that are known."""
    if not isinstance(value, str) or value not in known:
        raise InputProblem("value.choice", name=name, value=str(value), known=", ".join(known))
    return value


def checked_all(values: npt.ArrayLike, name: str, low: float, high: float) -> npt.NDArray[np.float64]:
    """Return an array of numbers from `low` to `high`; one outside, or missing, is refused."""
    found = np.asarray(values, dtype=float)
    outside = found[~((found >= low) & (found <= high))]
    if outside.size:
        raise InputProblem("value.between", name=name, value=f"{outside.flat[0]:g}", low=f"{low:g}", high=f"{high:g}")
    return found
