"""Compost for a bed: how much for a depth, this year's nitrogen as a range, and when none should go on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gardenlib.checks import checked_between, checked_choice, checked_share
from gardenlib.soil.feeding import LEVELS, feeding_need
from gardenlib.soil.feeding_figures import feeding_figure
from gardenlib.soil.lime_checks import MOST_AREA_M2
from gardenlib.units import KG_PER_POUND, M_PER_FOOT, MM_PER_INCH, Quantity, Range
from gardenlib.working import Answer, Notes, Value

M_PER_INCH = MM_PER_INCH / 1000
LB_YD3 = KG_PER_POUND / (3 * M_PER_FOOT) ** 3
"""One pound in a cubic yard, kilograms in a cubic metre."""
MOST_DEPTH_M = 0.3
Verdict = Literal["ok", "test_first", "wait", "none", "over_year", "too_deep"]


@dataclass(frozen=True, kw_only=True)
class CompostForBed(Answer):
    """Compost for one bed.

    Parameters
    ----------
    verdict : str
        ``none`` for a few years (phosphorus very high), ``wait`` (high), ``too_deep`` (more than may be dug in at
        one time), ``over_year`` (more than a year's depth), ``test_first`` (no soil test) or ``ok``.
    volume_m3 : float
        Compost for the depth that was asked about, cubic metres.
    n_kg : Range
        Nitrogen that it may set free in the first year, kilograms in the bed.
    n_kg_m2 : Range
        The same for a square metre.
    mixed_need_kg : float
        Nitrogen that a mixed bed of this size needs in a season, to set beside it.
    year_m, at_once_m : float
        Most depth in a year, and at one time, metres.
    """

    verdict: Verdict
    volume_m3: float
    n_kg: Range
    n_kg_m2: Range
    mixed_need_kg: float
    year_m: float
    at_once_m: float


def compost_nitrogen(
    volume_m3: float, *, kg_m3: float, dry_fraction: float, n_fraction: float, release_fraction: float
) -> float:
    """Work out the nitrogen that compost sets free in a year.

    Parameters
    ----------
    volume_m3 : float
        Compost, 0 to 10,000 cubic metres.
    kg_m3 : float
        Weight of a cubic metre as it is spread, 100 to 2,000 kilograms.
    dry_fraction : float
        Dry part by weight, 0.1 to 1.
    n_fraction : float
        Nitrogen in the dry part, 0 to 0.2.
    release_fraction : float
        Share of the nitrogen that is set free in the year, 0 to 1.

    Returns
    -------
    float
        Nitrogen, kilograms.

    Raises
    ------
    InputProblem
        When a number cannot be used.

    Notes
    -----
    Volume times weight times shares: plain arithmetic, without a published source.

    Examples
    --------
    A cubic metre that weighs 500 kg, half of it dry, 2 % nitrogen, a tenth of it set free:

    >>> round(compost_nitrogen(1, kg_m3=500, dry_fraction=0.5, n_fraction=0.02, release_fraction=0.1), 9)
    0.5
    """
    dry = checked_between(volume_m3, "volume_m3", 0, MOST_AREA_M2) * checked_between(kg_m3, "kg_m3", 100, 2000)
    dry *= checked_share(dry_fraction, "dry_fraction", 0.1, 1)
    return (
        dry
        * checked_share(n_fraction, "n_fraction", 0, 0.2)
        * checked_share(release_fraction, "release_fraction", 0, 1)
    )


def compost_for_bed(area_m2: float, depth_m: float, *, phosphorus: str = "untested") -> CompostForBed:
    """Tell how much compost a depth takes, what it feeds this year, and whether it should go on at all.

    Parameters
    ----------
    area_m2 : float
        The bed, 0.05 to 10,000 square metres.
    depth_m : float
        Depth of the layer, 0.001 to 0.3 metres.
    phosphorus : str
        The sheet's word: ``low``, ``medium``, ``high``, ``very_high``; ``untested`` where there is no sheet.

    Returns
    -------
    CompostForBed
        Verdict, volume and nitrogen, with the working.

    Raises
    ------
    InputProblem
        When a number or a word cannot be used.

    Notes
    -----
    Source: University of Minnesota Extension (about an inch or less in a year; none for a few years where phosphorus
    is very high); North Carolina Department of Agriculture (at most 3 inches at one time); Colorado State University
    Extension, GardenNotes 711 (2 to 4 % nitrogen, of which 5 to 25 % in the first year).  Weight and dry part of
    compost are from memory and unchecked, and the nitrogen is taken as a share of the dry part.  To wait where the
    test is high is common practice, no source.

    Examples
    --------
    >>> compost_for_bed(9.29, 0.0254, phosphorus="very_high").verdict
    'none'
    """
    area = checked_between(area_m2, "area_m2", 0.05, MOST_AREA_M2)
    depth = checked_between(depth_m, "depth_m", 0.001, MOST_DEPTH_M)
    level = checked_choice(phosphorus, "phosphorus", LEVELS)
    yearly, once = feeding_figure("compost_yearly"), feeding_figure("compost_at_once")
    year_m, at_once_m = float(yearly["high"]) * M_PER_INCH, float(once["high"]) * M_PER_INCH
    notes = Notes()
    notes.cite(str(yearly["source"]), str(once["source"]))
    verdict = _verdict(level, depth, year_m, at_once_m)
    if verdict == "wait":
        notes.say("compost.wait_practice", "common_practice")
    volume = area * depth
    given: dict[str, Value] = {"area": Quantity(area, "m2"), "depth": Quantity(depth * 100, "cm")}
    notes.step("compost.volume", "area * depth", given, Quantity(volume, "m3"), "common_practice")
    nitrogen = _nitrogen(volume, notes)
    return CompostForBed(
        verdict=verdict,
        volume_m3=volume,
        n_kg=nitrogen,
        n_kg_m2=Range(nitrogen.low / area, nitrogen.high / area, "kg_m2"),
        mixed_need_kg=feeding_need("mixed").n_kg_m2.high * area,
        year_m=year_m,
        at_once_m=at_once_m,
        **notes.parts(),
    )


def _verdict(level: str, depth: float, year_m: float, at_once_m: float) -> Verdict:
    """Put the soil test before the depth; a hair over a limit, as from inches, is within it."""
    hair = 1e-6
    if level == "very_high":
        return "none"
    if level == "high":
        return "wait"
    if depth > at_once_m + hair:
        return "too_deep"
    if depth > year_m + hair:
        return "over_year"
    return "test_first" if level == "untested" else "ok"


def _nitrogen(volume_m3: float, notes: Notes) -> Range:
    """Take the lowest of every figure for the low end and the highest for the high end."""
    names = ("compost_weight", "compost_dry", "compost_n", "compost_year_one")
    weight, dry, share, release = (feeding_figure(name) for name in names)
    low, high = (
        compost_nitrogen(
            volume_m3,
            kg_m3=float(weight[end]) * LB_YD3,
            dry_fraction=float(dry[end]),
            n_fraction=float(share[end]),
            release_fraction=float(release[end]),
        )
        for end in ("low", "high")
    )
    notes.say("compost.weight_unchecked", str(weight["source"]))
    given: dict[str, Value] = {
        "volume": Quantity(volume_m3, "m3"),
        "nitrogen": Range(share["low"] * 100, share["high"] * 100, "percent"),
        "set free": Range(release["low"] * 100, release["high"] * 100, "percent"),
    }
    grams = Range(low * 1000, high * 1000, "g")
    notes.step("compost.nitrogen", "dry weight of volume * nitrogen * set free", given, grams, str(release["source"]))
    return Range(low, high, "kg")
