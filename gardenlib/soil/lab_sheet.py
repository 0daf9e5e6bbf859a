"""What is typed from a laboratory's sheet: a number as it stands there, a lime rate in the sheet's own unit."""

from __future__ import annotations

import re

from gardenlib.problems import InputProblem
from gardenlib.soil.lime_limits import TO_KG_M2
from gardenlib.soil.lime_rates import MOST_KG_M2
from gardenlib.units import Quantity
from gardenlib.words import Said

_PER_UNIT = {**TO_KG_M2, "t_ha": 0.1, "kg_m2": 1.0}
LAB_RATE_UNITS = tuple(_PER_UNIT)
PH_SPANS = {"water_ph": (3.0, 10.0), "buffer_ph": (3.0, 8.0)}
_NUMBER = re.compile(r"\d+(\.\d+)?|\.\d+")
_COMMA = re.compile(r"\d+,\d+")


def lab_rate_kg_m2(rate: float, unit: str) -> float:
    """Convert a laboratory's lime rate from the unit on the sheet.

    Parameters
    ----------
    rate : float
        The number on the sheet, of the lime that the laboratory counts in.
    unit : str
        One of `LAB_RATE_UNITS`: ``lb_100_sq_ft``, ``lb_1000_sq_ft``, ``lb_ac``, ``short_t_ac``, ``g_m2``, ``t_ha``,
        ``kg_m2``.

    Returns
    -------
    float
        Kilograms of the same lime per square metre.

    Raises
    ------
    InputProblem
        When the unit is not known, the rate is below 0, or it is more than any published table asks for.

    Notes
    -----
    Source: NIST Special Publication 811 (2008), appendix B.8, for pound and foot; an acre is 43,560 square feet, a
    short ton 2,000 pounds, a hectare 10,000 square metres.

    Examples
    --------
    >>> round(lab_rate_kg_m2(1, "short_t_ac"), 5), lab_rate_kg_m2(1, "t_ha")
    (0.22417, 0.1)
    """
    if unit not in _PER_UNIT:
        raise InputProblem("lab.unit", value=str(unit), known=", ".join(_PER_UNIT))
    if isinstance(rate, bool) or not isinstance(rate, int | float) or not rate >= 0:
        raise InputProblem("lab.rate", value=str(rate))
    found = rate * _PER_UNIT[unit]
    if found > MOST_KG_M2:
        raise InputProblem("lab.rate_high", value=f"{rate:g}", most=Quantity(MOST_KG_M2, "kg_m2"))
    return found


def lab_number(text: str, what: str | Said, kind: str, most: float = 0.0) -> float | None:
    """Read a number typed from the sheet; an empty field is None.

    Parameters
    ----------
    text : str
        What was typed.
    what : str or Said
        What it is about, for the sentence that refuses it.
    kind : str
        ``water_ph``, ``buffer_ph``, or ``amount``.
    most : float
        For an amount, the largest that can be.

    Returns
    -------
    float or None
        The number.

    Raises
    ------
    InputProblem
        When it is no number, has a comma for the point, or lies outside what a sheet can say.

    Notes
    -----
    Source: common practice, no source, for what a sheet can say: pH 3 to 10, buffer pH 3 to 8.

    Examples
    --------
    >>> lab_number("6.2", "pH", "water_ph"), lab_number(" ", "pH", "water_ph")
    (6.2, None)
    """
    typed = text.strip()
    if not typed:
        return None
    if _COMMA.fullmatch(typed):
        raise InputProblem("lab.comma", line=what, value=typed, meant=typed.replace(",", "."))
    if not _NUMBER.fullmatch(typed):
        raise InputProblem("lab.no_number", line=what, value=typed[:40])
    number = float(typed)
    low, high = PH_SPANS.get(kind, (0.0, most))
    if low <= number <= high:
        return number
    if kind in PH_SPANS and low <= number / 10 <= high:
        raise InputProblem("lab.point", line=what, value=typed[:40], meant=f"{number / 10:g}")
    if kind == "buffer_ph" and number > high:
        raise InputProblem("lab.buffer_high", value=typed[:40], high=high)
    raise InputProblem("lab.between", line=what, value=typed[:40], low=low, high=high)
