"""Lowering pH: whether sulphur is worth asking about, and for instructors what the sources print."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from gardenlib.checks import checked_choice
from gardenlib.problems import InputProblem
from gardenlib.soil.lime_checks import checked_ph
from gardenlib.soil.lime_limits import TO_KG_M2, limit
from gardenlib.tables.loader import rows
from gardenlib.units import Range
from gardenlib.working import Answer, Notes, Value

SOILS = ("sand", "loam", "clay")
Verdict = Literal["not_needed", "test_first", "pointless", "ask"]
NEEDED_FROM_PH = 7.5
"""Vegetables seldom ask for it below; common practice, no source."""


@dataclass(frozen=True, kw_only=True)
class AcidAdvice(Answer):
    """Whether to think of sulphur at all; never an amount.

    Parameters
    ----------
    verdict : {"not_needed", "test_first", "pointless", "ask"}
        The soil is not too high; the fizz test comes first; free lime makes it pointless; ask who has the figure.
    """

    verdict: Verdict


def acid_advice(water_ph: float, fizz: str) -> AcidAdvice:
    """Tell whether it makes sense to lower a soil's pH.

    Parameters
    ----------
    water_ph : float
        pH in water, 3 to 10.
    fizz : {"", "yes", "no"}
        Whether dry soil fizzes with vinegar; empty where nobody has tried.

    Returns
    -------
    AcidAdvice
        What to do, without an amount.

    Raises
    ------
    InputProblem
        When the pH or the word cannot be used.

    Notes
    -----
    Source: Royal Horticultural Society, Acidifying soil: soil that fizzes cannot realistically be made acid. That
    vegetables seldom need it below 7.5 is common practice, no source.

    Examples
    --------
    >>> [acid_advice(ph, fizz).verdict for ph, fizz in ((6.8, ""), (7.8, ""), (7.8, "yes"), (7.8, "no"))]
    ['not_needed', 'test_first', 'pointless', 'ask']
    """
    ph, fizzes = checked_ph(water_ph, "water_ph"), checked_choice(fizz, "fizz", ("", "yes", "no"))
    notes = Notes()
    notes.cite("rhs_acidifying")
    if fizzes == "yes":
        return AcidAdvice(verdict="pointless", **notes.parts())
    if ph < NEEDED_FROM_PH:
        return AcidAdvice(verdict="not_needed", **notes.parts())
    return AcidAdvice(verdict="ask" if fizzes == "no" else "test_first", **notes.parts())


@dataclass(frozen=True, kw_only=True)
class SulphurRate(Answer):
    """What the sources print, for instructors.

    Parameters
    ----------
    low_kg_m2, high_kg_m2 : float
        Elemental sulphur, kilograms per square metre, by the lowest and the highest source.
    dose_kg_m2 : float
        The most for one time.
    months_between : Range
        How long to wait between two.
    by_source : dict of str to Range
        What each source prints, kg per square metre.
    """

    low_kg_m2: float
    high_kg_m2: float
    dose_kg_m2: float
    months_between: Range
    by_source: dict[str, Range]


def sulphur_rate(*, water_ph: float, target_ph: float, soil: str, fizz: str) -> SulphurRate:
    """Give the sulphur that published tables name to lower a soil's pH; for instructors, never shown to learners.

    Parameters
    ----------
    water_ph : float
        pH in water now.
    target_ph : float
        pH to aim at, below it.
    soil : {"sand", "loam", "clay"}
        Kind of soil.
    fizz : {"yes", "no"}
        What the vinegar test showed.

    Returns
    -------
    SulphurRate
        The range over the sources, and the most for one time.

    Raises
    ------
    InputProblem
        When nobody has tried the vinegar test, the soil holds free lime, or no source covers the two pH values.

    Notes
    -----
    Source: Michigan State University figures to pH 4.5 (the difference of two of them, in a straight line between
    printed values, is our own step); Royal Horticultural Society, Acidifying soil, 135 to 270 grams a square metre; at
    most 1 pound in 100 square feet at a time, two to three months apart (Clemson).

    Examples
    --------
    >>> rate = sulphur_rate(water_ph=6.5, target_ph=4.5, soil="loam", fizz="no")
    >>> round(rate.high_kg_m2 / 0.0488243, 2)
    4.64
    """
    ph, target = checked_ph(water_ph, "water_ph"), checked_ph(target_ph, "target_ph")
    checked_choice(soil, "soil", SOILS)
    if checked_choice(fizz, "fizz", ("", "yes", "no")) == "yes":
        raise InputProblem("acid.free_lime")
    if not fizz:
        raise InputProblem("acid.fizz_first")
    if target >= ph:
        raise InputProblem("acid.not_lower", ph=f"{ph:g}", target=f"{target:g}")
    notes, by_source = Notes(), {}
    if (michigan := _michigan(ph, target, soil, notes)) is not None:
        by_source["michigan_sulphur"] = michigan
    if (rhs := _rhs(ph, target, soil, notes)) is not None:
        by_source["rhs_acidifying"] = rhs
    if not by_source:
        raise InputProblem("acid.no_source", ph=f"{ph:g}", target=f"{target:g}")
    notes.say("acid.apart", "clemson_sulphur", dose=_dose(), span=limit("between_sulphur"))
    return SulphurRate(
        low_kg_m2=min(span.low for span in by_source.values()),
        high_kg_m2=max(span.high for span in by_source.values()),
        dose_kg_m2=_dose().high,
        months_between=limit("between_sulphur"),
        by_source=by_source,
        **notes.parts(),
    )


def _dose() -> Range:
    found = limit("sulphur_dose")
    factor = TO_KG_M2[found.unit]
    return Range(found.low * factor, found.high * factor, "kg_m2")


def _michigan(ph: float, target: float, soil: str, notes: Notes) -> Range | None:
    """Take the difference of two amounts to pH 4.5; the table runs from 4.5 to 7.0."""
    column = [
        (row["from_low"], row["amount"])
        for row in rows("sulphur")
        if row["source"] == "michigan_sulphur" and row["soil"] == soil
    ]
    starts, amounts = zip((4.5, 0.0), *column, strict=True)
    if not (starts[0] <= target and ph <= starts[-1]):
        return None
    from_here, from_target = np.interp([ph, target], starts, amounts)
    given: dict[str, Value] = {"from_here": float(from_here), "from_target": float(from_target)}
    pounds = float(from_here - from_target)
    notes.step("acid.michigan", "from_here - from_target", given, Range(pounds, pounds, "lb_ac"), "michigan_sulphur")
    rate = pounds * TO_KG_M2["lb_ac"]
    return Range(rate, rate, "kg_m2")


def _rhs(ph: float, target: float, soil: str, notes: Notes) -> Range | None:
    """Take the printed amounts; loam lies between sand and clay."""
    printed = {row["soil"]: row for row in rows("sulphur") if row["source"] == "rhs_acidifying"}
    row = printed["sand"]
    if not (row["from_low"] <= ph <= row["from_high"] and row["to_low"] <= target <= row["to_high"]):
        return None
    ends = [printed[kind]["amount"] for kind in (("sand", "clay") if soil == "loam" else (soil, soil))]
    span = Range(ends[0] * TO_KG_M2["g_m2"], ends[1] * TO_KG_M2["g_m2"], "kg_m2")
    notes.step("acid.rhs", "as printed", {"soil": soil}, span, "rhs_acidifying")
    return span
