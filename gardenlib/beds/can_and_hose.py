"""Litres as cans and as minutes of a hose or a drip line."""

from __future__ import annotations

from dataclasses import dataclass

from gardenlib.checks import checked_between
from gardenlib.units import LITRES_PER_GALLON, Quantity
from gardenlib.working import COMMON_PRACTICE, Answer, Notes, Value

MOST_LITRES = 1_000_000.0
DRIP_LITRES_HOUR_M = 27 * LITRES_PER_GALLON / 30.48
"""The third row of Penn State's table: 27 gallons an hour for 100 ft."""
DRIP_SAID = {"us": (DRIP_LITRES_HOUR_M * 30.48, 30.48), "metric": (DRIP_LITRES_HOUR_M * 10, 10.0)}
"""The same as it is read: litres an hour, and for how many metres of line."""


@dataclass(frozen=True, kw_only=True)
class Watering(Answer):
    """How to bring an amount of water to a bed.

    Parameters
    ----------
    litres : float
        The water.
    cans : float
        Full cans.
    hose_minutes : float
        Minutes with the hose of the bucket test.
    litres_minute : float
        What the hose gives.
    """

    litres: float
    cans: float
    hose_minutes: float
    litres_minute: float


def watering(
    litres: float, *, can_litres: float = 9.0, bucket_litres: float = 10.0, bucket_seconds: float = 60.0
) -> Watering:
    """Turn litres into cans and into minutes of the learner's own hose.

    Parameters
    ----------
    litres : float
        Water to bring.
    can_litres : float
        What the can holds, 0.5 to 30 litres.
    bucket_litres, bucket_seconds : float
        The bucket test: a bucket of 1 to 100 litres, and the seconds the hose took to fill it, 2 to 3,600.

    Returns
    -------
    Watering
        Cans and minutes.

    Raises
    ------
    InputProblem
        When a number cannot be; a hose that never fills the bucket gives no minutes.

    Notes
    -----
    Plain arithmetic; common practice, no source.

    Examples
    --------
    >>> watering(90.0, can_litres=9.0, bucket_litres=10.0, bucket_seconds=60.0).hose_minutes
    9.0
    """
    water = checked_between(litres, "litres", 0, MOST_LITRES)
    can = checked_between(can_litres, "can_litres", 0.5, 30)
    bucket = checked_between(bucket_litres, "bucket_litres", 1, 100)
    flow = bucket / checked_between(bucket_seconds, "bucket_seconds", 2, 3600) * 60
    notes = Notes()
    all_water = Quantity(water, "litres")
    poured: dict[str, Value] = {"water": all_water, "can": Quantity(can, "litres")}
    notes.step("water.cans", "water / can", poured, round(water / can, 1), COMMON_PRACTICE)
    given: dict[str, Value] = {"bucket": Quantity(bucket, "litres"), "seconds": bucket_seconds}
    notes.step("water.flow", "bucket / seconds * 60", given, Quantity(flow, "litres"), COMMON_PRACTICE)
    notes.step("water.minutes", "water / flow", {"water": all_water}, round(water / flow, 1), COMMON_PRACTICE)
    return Watering(litres=water, cans=water / can, hose_minutes=water / flow, litres_minute=flow, **notes.parts())


def depth_litres(depth_mm: float, area_m2: float) -> float:
    """Give the water of a depth on a bed: a millimetre on a square metre is a litre.

    Parameters
    ----------
    depth_mm : float
        Depth of water or rain, mm, 0 to 1,000.
    area_m2 : float
        The bed, up to 1,000,000 square metres.

    Returns
    -------
    float
        Litres.

    Raises
    ------
    InputProblem
        When a number cannot be.

    Notes
    -----
    By the units themselves; no source.

    Examples
    --------
    >>> depth_litres(25.0, 4.0)
    100.0
    """
    return checked_between(depth_mm, "depth_mm", 0, 1000) * checked_between(area_m2, "area_m2", 0, MOST_LITRES)


def drip_minutes(depth_mm: float, bed_width_m: float, flow_litres_hour_m: float) -> float:
    """Give how long a drip line runs for a depth of water on its bed.

    Parameters
    ----------
    depth_mm : float
        Water wanted over the bed, mm, 0 to 300.
    bed_width_m : float
        Width of the bed that the line waters, 0.1 to 3 metres.
    flow_litres_hour_m : float
        What a metre of line gives, 0.05 to 50 litres an hour.

    Returns
    -------
    float
        Minutes.

    Raises
    ------
    InputProblem
        When a number cannot be.

    Notes
    -----
    Source: Penn State Extension 2013, hours = bed width (ft) * 100 * inches * 0.623 / gallons an hour for 100 ft.
    A millimetre on a square metre is a litre, so in SI the constants fall away.

    Examples
    --------
    >>> round(drip_minutes(25.4, 0.762, 2.5336) / 60, 1)
    7.6
    """
    depth = checked_between(depth_mm, "depth_mm", 0, 300)
    width = checked_between(bed_width_m, "bed_width_m", 0.1, 3)
    return depth * width / checked_between(flow_litres_hour_m, "flow_litres_hour_m", 0.05, 50) * 60
