"""Lime for one bed from one bag: how much, in how many doses, when, how, and when to test again."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date

from gardenlib.checks import checked_between, checked_share
from gardenlib.soil.lime_checks import MOST_AREA_M2, checked_garden_lime
from gardenlib.soil.lime_days import first_day, later
from gardenlib.soil.lime_limits import largest_dose_kg_m2, limit, limit_source
from gardenlib.soil.lime_rates import LimeRate
from gardenlib.units import Quantity, Range
from gardenlib.words import Said
from gardenlib.working import Answer, Notes, Value


@dataclass(frozen=True)
class Application:
    """One dose of lime.

    Parameters
    ----------
    number : int
        Which one, from 1.
    low_kg, high_kg : float
        What to weigh out of the bag, for the whole bed.
    months_after : int
        Months after the first dose.
    on : date or None
        When, where the planting date is known.
    how : Said
        How it is put on.
    """

    number: int
    low_kg: float
    high_kg: float
    months_after: int
    on: date | None
    how: Said


@dataclass(frozen=True, kw_only=True)
class LimeForBed(Answer):
    """Lime for one bed from one bag.

    Parameters
    ----------
    low_kg, high_kg : float
        All of it, kilograms of what is in the bag.
    applications : tuple of Application
        The doses; none where no lime is needed, and the first alone where the rate is unchecked: test before more.
    area_m2 : float
        The bed.
    retest_on : date or None
        First day on which a new sample tells the truth, where the dates are known.
    retest_least_months : int
        A sample taken sooner after a dose misleads.
    in_time : bool or None
        Whether the first dose comes early enough before planting.
    checked : bool
        False where the rate is from memory: shown as "unchecked".
    """

    low_kg: float
    high_kg: float
    applications: tuple[Application, ...]
    area_m2: float
    retest_on: date | None
    retest_least_months: int
    in_time: bool | None
    checked: bool


def lime_for_bed(
    rate: LimeRate,
    area_m2: float,
    *,
    cce_fraction: float = 0.9,
    effectiveness_fraction: float = 1.0,
    plant_on: date | None = None,
    not_before: date | None = None,
    worked_in: bool = True,
) -> LimeForBed:
    """Turn a rate of pure lime into pounds of this bag for this bed, in doses that are not too large.

    Parameters
    ----------
    rate : LimeRate
        From `lime_rate`.
    area_m2 : float
        The bed, 0.05 to 10,000 square metres.
    cce_fraction : float
        The bag's calcium carbonate equivalent, 0.5 to 1.1; a stronger lime is not for gardens.
    effectiveness_fraction : float
        Share of the bag's lime that is fine enough to work, where the bag says so apart; 1 where its figure is
        already an effective one (ECCE, ENV, RNV) or the rate counts in ordinary ground lime.
    plant_on : date, optional
        First day of planting; the first dose goes on six months before it.
    not_before : date, optional
        Earliest day for the first dose, such as today.
    worked_in : bool
        Whether the lime is dug in, as in an empty bed. On top of a growing bed the doses are half as large.

    Returns
    -------
    LimeForBed
        Weights, doses and dates with their working.

    Raises
    ------
    InputProblem
        When the area or a fraction cannot be used, or the lime is too strong for a garden.

    Notes
    -----
    Source: Virginia Cooperative Extension 452-719 (at most 5 pounds in 100 square feet on top of a bed, one application
    up to 10 worked in), Penn State Home Garden report notes (two applications from 11, three from 21, six months
    apart). A rate from memory is split as if it lay on top: that limit is the smaller one. Product = pure lime / CCE /
    effectiveness (Penn State: 5 pounds at CCE 70 are 7).

    Examples
    --------
    >>> from gardenlib.soil import lime_rate
    >>> rate = lime_rate("smp_isu", water_ph=5.8, target_ph=6.5, buffer_ph=6.4)
    >>> bed = lime_for_bed(rate, 4.5, cce_fraction=0.9)
    >>> round(bed.high_kg, 1), len(bed.applications)
    (2.0, 1)
    """
    area = checked_between(area_m2, "area_m2", 0.05, MOST_AREA_M2)
    cce = checked_garden_lime(cce_fraction)
    works = checked_share(effectiveness_fraction, "effectiveness_fraction", 0.2, 1.0)
    notes = Notes([*rate.steps], [*rate.assumptions], [*rate.sources])
    pure = Range(rate.low_kg_m2, rate.high_kg_m2, "kg_m2")
    bag = Range(pure.low / cce / works, pure.high / cce / works, "kg_m2")
    given: dict[str, Value] = {
        "rate": pure,
        "CCE": Quantity(cce * 100, "percent"),
        "effective": Quantity(works * 100, "percent"),
    }
    notes.step("lime.bag", "rate / CCE / effective", given, bag, "psu_home_garden")
    whole = Range(bag.low * area, bag.high * area, "kg")
    notes.step("lime.bed", "rate * area", {"rate": bag, "area": Quantity(area, "m2")}, whole, "common_practice")
    dug_in = worked_in and rate.checked
    most = largest_dose_kg_m2(worked_in=dug_in)
    doses = math.ceil(bag.high / most - 1e-6)
    shared: dict[str, Value] = {"rate": Quantity(bag.high, "kg_m2"), "largest_dose": Quantity(most, "kg_m2")}
    notes.step(
        "lime.doses",
        "rate / largest_dose, rounded up",
        shared,
        doses,
        limit_source("worked_in_dose" if dug_in else "surface_dose"),
    )
    first, in_time = first_day(plant_on, not_before) if doses else (None, None)
    if doses:
        notes.say("lime.before_planting", limit_source("before_planting"), span=limit("before_planting"))
    if doses > 1:
        notes.say("lime.apart", limit_source("between_doses"), span=limit("between_doses"))
    if in_time is False:
        notes.say("lime.late", limit_source("before_planting"))
    if doses:
        years = {"sandy": limit("retest_sandy"), "clay": limit("retest_clay")}
        notes.say("lime.every_years", limit_source("retest_clay"), **years)
        notes.cite(limit_source("not_tested_before"), limit_source("target_reached"))
    planned = doses if rate.checked else min(doses, 1)
    share = Range(whole.low / max(doses, 1), whole.high / max(doses, 1), "kg")
    if not rate.checked:
        share = Range(min(whole.low, most * area), min(whole.high, most * area), "kg")
    how = Said("lime.how_dug" if worked_in else "lime.how_on_top")
    applications = tuple(_application(number, share, first, how) for number in range(1, planned + 1))
    last = applications[-1].on if applications else None
    return LimeForBed(
        low_kg=whole.low,
        high_kg=whole.high,
        applications=applications,
        area_m2=area,
        retest_on=None if last is None else later(last, int(limit("target_reached").low)),
        retest_least_months=int(limit("not_tested_before").low),
        in_time=in_time,
        checked=rate.checked,
        **notes.parts(),
    )


def _application(number: int, share: Range, first: date | None, how: Said) -> Application:
    months = (number - 1) * int(limit("between_doses").low)
    day = None if first is None else later(first, months)
    return Application(number, share.low, share.high, months, day, how)
