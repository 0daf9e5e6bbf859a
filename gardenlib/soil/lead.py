"""Lead: a laboratory's number beside what the authorities say, without a verdict of our own."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from datetime import date

from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import Answer, Notes

HABITS = ("wash", "cover", "hands", "shoes", "children", "peel")
MOST_PPM = 1_000_000.0
# Both are parts per million by mass; a sheet prints either.
_UNIT = re.compile(r"\s*(ppm|mg/kg)$", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True)
class LeadReading(Answer):
    """A laboratory's number beside the figures of the authorities; no verdict of our own.

    Parameters
    ----------
    total : Quantity or None
        Total lead, ppm; None where there is no number.
    screening : Quantity
        The federal screening figure, ppm.
    screening_dated : date
        The day it was set.
    reached : bool or None
        Whether the number is at the screening figure or above it.
    line : str
        What the class's authority says, in its words; empty where the class has none.
    authority : str
        Who says so.
    dated : str
        When.
    next_step : Said
        Whom to ask.
    habits : tuple of Said
        What everybody does, whatever the number.
    """

    total: Quantity | None
    screening: Quantity
    screening_dated: date
    reached: bool | None
    line: str
    authority: str
    dated: str
    next_step: Said
    habits: tuple[Said, ...]


def lead_reading(
    total_ppm: float | None, *, is_total: bool, line: str = "", authority: str = "", dated: str = ""
) -> LeadReading:
    """Set a laboratory's number for lead beside what the authorities say.

    Parameters
    ----------
    total_ppm : float or None
        Total lead, parts per million, which is the same as milligrams per kilogram; None where there is no number.
    is_total : bool
        Whether the laboratory's sheet has the word "total" beside it; no other number is taken.
    line : str
        What the state or the health department says, from the class folder.
    authority : str
        Who says so.
    dated : str
        When, from the class folder.

    Returns
    -------
    LeadReading
        The number, the authority's line, the federal screening figure with its date, and habits for everybody.

    Raises
    ------
    InputProblem
        When the number is not a total, is no number, below 0, or more than all of the soil.

    Notes
    -----
    Source: Environmental Protection Agency, Residential Lead Directive, 16 October 2025 (a screening figure for
    cleanup sites, read in two summaries); University of Connecticut, Soil Lead Interpretation Sheet (no federal
    standard for soil in food gardens); University of Maryland Extension (soil and dust that are swallowed).

    Examples
    --------
    >>> reading = lead_reading(120, is_total=True)
    >>> reading.screening.value, reading.screening_dated.year
    (200.0, 2025)
    """
    if total_ppm is not None:
        _checked(total_ppm, is_total=is_total)
    row, notes = rows("lead_screening")[0], Notes()
    screening, set_on = Quantity(row["ppm"], "ppm"), date.fromisoformat(row["dated"])
    notes.step("lead.screening", "ppm", {"dated": str(set_on.year)}, screening, row["source"])
    total = None if total_ppm is None else Quantity(float(total_ppm), "ppm")
    reached = None if total is None else total.value >= screening.value
    if total is not None:
        notes.step("lead.beside", "total", {"total": total, "screening": screening}, total, row["source"])
    notes.say("lead.no_standard", "connecticut_lead")
    notes.say("lead.by_mouth", "maryland_raised_soil")
    if reached is None:
        next_step = Said("lead.next_none")
    else:
        next_step = Said("lead.next_reached") if reached else Said("lead.next_below")
    return LeadReading(
        total=total,
        screening=screening,
        screening_dated=set_on,
        reached=reached,
        line=line,
        authority=authority,
        dated=dated,
        next_step=next_step,
        habits=tuple(Said(f"lead.habit.{name}") for name in HABITS),
        **notes.parts(),
    )


def lead_number(text: str) -> float | None:
    """Read a number for lead as it was typed; an empty field is None.

    Parameters
    ----------
    text : str
        Digits, alone or followed by ``ppm`` or ``mg/kg``, which are the same.

    Returns
    -------
    float or None
        Parts per million.

    Raises
    ------
    InputProblem
        When it is no number, or has a comma: that may part thousands or decimals, so it is not guessed.

    Notes
    -----
    Source: NIST Special Publication 811 (2008), section 7.10.3: one part per million by mass is 1 mg/kg.

    Examples
    --------
    >>> lead_number("120 mg/kg"), lead_number("")
    (120.0, None)
    """
    typed = _UNIT.sub("", text.strip())
    if not typed:
        return None
    if "," in typed:
        raise InputProblem("lead.comma", value=typed[:40])
    try:
        found = float(typed)
    except ValueError:
        raise InputProblem("lead.number", value=typed[:40]) from None
    return found


def _checked(total_ppm: float, *, is_total: bool) -> None:
    """Refuse what is no amount of total lead."""
    if isinstance(total_ppm, bool) or not isinstance(total_ppm, int | float) or not math.isfinite(total_ppm):
        raise InputProblem("lead.number", value=str(total_ppm)[:40])
    if not 0 <= total_ppm <= MOST_PPM:
        raise InputProblem("lead.between", value=f"{total_ppm:g}", most=f"{MOST_PPM:,.0f}")
    if not is_total:
        raise InputProblem("lead.not_total", value=f"{total_ppm:g}")
