"""Without a sheet: none, little or much, and how far the published methods lie apart for one reading."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from gardenlib.problems import InputProblem
from gardenlib.soil.lime_checks import TARGET_SPAN, checked_ph
from gardenlib.soil.lime_limits import LB_1000_SQ_FT, limit
from gardenlib.soil.lime_methods import psu_turf_lb_1000
from gardenlib.soil.lime_rates import lime_rate
from gardenlib.units import M_PER_FOOT, Range
from gardenlib.working import Answer, Notes

Need = Literal["none", "little", "much"]
LITTLE_PH = 0.5
"""Up to half a pH below the target counts as little; common practice, no source."""
DEPTH_IN = 6
PSU_DEPTH_IN = 7
DEPTH_M = DEPTH_IN * M_PER_FOOT / 12


@dataclass(frozen=True, kw_only=True)
class LimeNeed(Answer):
    """Whether a bed asks for no lime, little or much; never a weight.

    Parameters
    ----------
    need : {"none", "little", "much"}
        By the pH alone.
    water_ph, target_ph : float
        What it is and what it is to be.
    little_from : float
        pH from which little is enough.
    alkaline : bool
        Whether the soil is so high that the question turns round.
    """

    need: Need
    water_ph: float
    target_ph: float
    little_from: float
    alkaline: bool


def lime_need(water_ph: float, target_ph: float = 6.5) -> LimeNeed:
    """Tell whether a bed asks for no lime, little or much, from its pH alone.

    Parameters
    ----------
    water_ph : float
        pH in water, 3 to 10.
    target_ph : float
        pH to aim at.

    Returns
    -------
    LimeNeed
        The need, without a weight: a weight takes the lab's buffer reading.

    Raises
    ------
    InputProblem
        When a pH cannot be used.

    Notes
    -----
    Source: none needed at or above the target; alkaline from 7.3, the highest target found (Smith and Koike). Little up
    to half a pH below the target is common practice, no source.

    Examples
    --------
    >>> [lime_need(ph).need for ph in (6.8, 6.2, 5.4)]
    ['none', 'little', 'much']
    """
    ph, target = checked_ph(water_ph, "water_ph"), checked_ph(target_ph, "target_ph", TARGET_SPAN)
    gap = target - ph
    need: Need = "none" if gap <= 0 else "little" if gap <= LITTLE_PH + 1e-9 else "much"
    notes = Notes()
    notes.step("lime.gap", "target_pH - water_pH", {"target_pH": target, "water_pH": ph}, gap, "common_practice")
    notes.say("lime.ph_alone")
    return LimeNeed(
        need=need,
        water_ph=ph,
        target_ph=target,
        little_from=target - LITTLE_PH,
        alkaline=ph >= limit("no_lime_ph").low,
        **notes.parts(),
    )


@dataclass(frozen=True)
class MethodRate:
    """What one published method asks for, beside the least of those that start from the same reading."""

    method: str
    reading: Literal["buffer", "acidity"]
    kg_m2: float
    times_least: float


@dataclass(frozen=True, kw_only=True)
class LimeSpread(Answer):
    """Published methods side by side.

    Parameters
    ----------
    rates : tuple of MethodRate
        Grouped by the reading from which they start, the least first.
    factor : float
        The largest over the least of one reading, in the group where they lie furthest apart.
    """

    rates: tuple[MethodRate, ...]
    factor: float


def lime_spread(
    *,
    water_ph: float,
    target_ph: float,
    buffer_ph: float | None = None,
    acidity_meq_100g: float | None = None,
) -> LimeSpread:
    """Ask each published method that can read the same sheet, and tell how many times the least the largest is.

    Parameters
    ----------
    water_ph, target_ph : float
        pH in water, and pH to aim at.
    buffer_ph : float, optional
        A reading of the SMP buffer, or of the Sikora buffer, which is made to read like it.
    acidity_meq_100g : float, optional
        Exchangeable acidity by a Mehlich buffer.

    Returns
    -------
    LimeSpread
        The methods and the factor, all for pure lime and 6 inches.

    Raises
    ------
    InputProblem
        When a value cannot be used, a method does not reach the target, or fewer than two methods ask for lime.

    Notes
    -----
    Source: Oregon State EM 9585, Iowa State PM 1688; NCDA Circular 1, Penn State Agronomy Guide, Penn State Turf
    handbook. Only methods that start from the same reading are set beside each other.

    Examples
    --------
    >>> round(lime_spread(water_ph=5.5, target_ph=6.5, acidity_meq_100g=4.6).factor, 1)
    2.9
    """
    notes = Notes()
    found: list[MethodRate] = []
    if buffer_ph is not None:
        asked = {
            name: lime_rate(name, water_ph=water_ph, target_ph=target_ph, buffer_ph=buffer_ph, depth_m=DEPTH_M)
            for name in ("sikora_osu", "smp_isu")
        }
        found += _beside("buffer", {name: rate.high_kg_m2 for name, rate in asked.items()})
        for rate in asked.values():
            notes.cite(*rate.sources)
    if acidity_meq_100g is not None:
        asked = {
            name: lime_rate(
                name, water_ph=water_ph, target_ph=target_ph, acidity_meq_100g=acidity_meq_100g, depth_m=DEPTH_M
            )
            for name in ("mehlich_ncda", "mehlich_psu")
        }
        rates = {name: rate.high_kg_m2 for name, rate in asked.items()}
        if water_ph < target_ph:
            rates["psu_turf"] = psu_turf_lb_1000(acidity_meq_100g, target_ph) * LB_1000_SQ_FT * DEPTH_IN / PSU_DEPTH_IN
        found += _beside("acidity", rates)
        for rate in asked.values():
            notes.cite(*rate.sources)
        notes.cite("psu_turf_lime")
    if not found:
        raise InputProblem("lime.nothing_beside")
    factor = max(rate.times_least for rate in found)
    span = Range(1.0, factor, "times")
    notes.step("lime.factor", "largest / least, for one reading", {"methods": len(found)}, span, "common_practice")
    return LimeSpread(rates=tuple(found), factor=factor, **notes.parts())


def _beside(reading: Literal["buffer", "acidity"], rates: dict[str, float]) -> Sequence[MethodRate]:
    """Set those that ask for lime beside the least of them."""
    asked = sorted((rate, name) for name, rate in rates.items() if rate > 0)
    if len(asked) < 2:
        return []
    return [MethodRate(name, reading, rate, rate / asked[0][0]) for rate, name in asked]
