"""The mix for a raised bed: volume, compost's part of it, bags, and what to leave alone."""

from __future__ import annotations

import math
from dataclasses import dataclass

from gardenlib.checks import checked_between
from gardenlib.soil.feeding_figures import feeding_figure
from gardenlib.units import Quantity, Range
from gardenlib.working import Answer, Notes, Value

LITRES_M3 = 1000
MOST_SIDE_M, MOST_DEPTH_M = 50.0, 1.5
MOST_LITRES = 10_000_000.0


@dataclass(frozen=True, kw_only=True)
class BedMix(Answer):
    """What a raised bed takes to fill.

    Parameters
    ----------
    volume_m3 : float
        The bed, cubic metres.
    compost_m3, soil_m3 : Range
        Compost and topsoil in it.
    with_settling_m3 : Range
        What to bring where the mix settles; from memory and unchecked.
    bags : int
        Bags for the volume alone, whole bags.
    """

    volume_m3: float
    compost_m3: Range
    soil_m3: Range
    with_settling_m3: Range
    bags: int


def bags_for(volume_m3: float, bag_litres: float) -> int:
    """Count the bags or buckets that hold a volume.

    Parameters
    ----------
    volume_m3 : float
        What is wanted, 0 to 10,000 cubic metres.
    bag_litres : float
        What one of them holds, 1 to 2,000 litres.

    Returns
    -------
    int
        Whole bags, the last one begun.

    Raises
    ------
    InputProblem
        When a number cannot be used.

    Notes
    -----
    Plain arithmetic; common practice, no source.

    Examples
    --------
    >>> bags_for(0.1, 50), bags_for(0.101, 50)
    (2, 3)
    """
    litres = checked_between(volume_m3, "volume_m3", 0, MOST_LITRES / LITRES_M3) * LITRES_M3
    bag = checked_between(bag_litres, "bag_litres", 1, 2000)
    # A whole number of bags that comes out a hair above itself stays that number.
    return math.ceil(round(litres / bag, 6))


def bed_mix(length_m: float, width_m: float, depth_m: float, *, bag_litres: float = 28.3) -> BedMix:
    """Work out what fills a raised bed.

    Parameters
    ----------
    length_m, width_m : float
        Inside of the bed, 0.1 to 50 metres.
    depth_m : float
        Depth of the fill, 0.02 to 1.5 metres.
    bag_litres : float
        What one bag holds, 1 to 2,000 litres.

    Returns
    -------
    BedMix
        Volume, parts and bags, with the working.

    Raises
    ------
    InputProblem
        When a number cannot be used.

    Notes
    -----
    Source: University of Maryland Extension 2019 (one part of compost to one or two parts of topsoil, by volume) and
    Soil to fill raised beds (pH 6.2 to 6.8, test after a year).  The extra for settling is from memory, unchecked.

    Examples
    --------
    A bed of one by two metres, half a metre deep:

    >>> mix = bed_mix(2, 1, 0.5, bag_litres=50)
    >>> mix.volume_m3, mix.compost_m3.high, mix.bags
    (1.0, 0.5, 20)
    """
    sides = (
        checked_between(length_m, "length_m", 0.1, MOST_SIDE_M),
        checked_between(width_m, "width_m", 0.1, MOST_SIDE_M),
    )
    depth = checked_between(depth_m, "depth_m", 0.02, MOST_DEPTH_M)
    volume = sides[0] * sides[1] * depth
    parts, settling = feeding_figure("mix_soil_parts"), feeding_figure("settling")
    notes = Notes()
    space = Quantity(volume, "m3")
    given: dict[str, Value] = {
        "length": Quantity(sides[0], "m"),
        "width": Quantity(sides[1], "m"),
        "depth": Quantity(depth, "m"),
    }
    notes.step("mixes.volume", "length * width * depth", given, space, "common_practice")
    compost = Range(volume / (1 + float(parts["high"])), volume / (1 + float(parts["low"])), "m3")
    for end, share in (("high", compost.low), ("low", compost.high)):
        shared: dict[str, Value] = {"volume": space, "soil parts": int(parts[end])}
        notes.step("mixes.compost", "volume / (1 + soil parts)", shared, Quantity(share, "m3"), str(parts["source"]))
    bags = bags_for(volume, bag_litres)
    filled: dict[str, Value] = {"volume": space, "bag": Quantity(bag_litres / LITRES_M3, "m3")}
    notes.step("mixes.bags", "volume / bag, rounded up", filled, bags, "common_practice")
    ph, again = feeding_figure("mix_ph"), feeding_figure("mix_retest")
    extra = Range(float(settling["low"]) * 100, float(settling["high"]) * 100, "percent")
    notes.say("mixes.settling", str(settling["source"]), extra=extra)
    span = {"low": float(ph["low"]), "high": float(ph["high"])}
    notes.say("mixes.retest", str(again["source"]), after=Quantity(again["low"], again["unit"]), **span)
    notes.say("mixes.no_lime", "common_practice")
    return BedMix(
        volume_m3=volume,
        compost_m3=compost,
        soil_m3=Range(volume - compost.high, volume - compost.low, "m3"),
        with_settling_m3=Range(volume * (1 + settling["low"]), volume * (1 + settling["high"]), "m3"),
        bags=bags,
        **notes.parts(),
    )
