"""How much water a bed needs, and how often."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, get_args

from gardenlib.beds.soil_water import held_mm, ready_mm
from gardenlib.beds.water_rows import FAO_TABLES, in_mm, kc_and_root, rain_counted, row_of, soil_of, tell_steps
from gardenlib.checks import checked_between, checked_choice
from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.units import MM_PER_INCH, Quantity
from gardenlib.working import COMMON_PRACTICE, Answer, Notes, Value

Stage = Literal["unsprouted", "just_planted", "settled"]
MOST_AREA_M2 = 10_000.0
MOST_ET_MM = 20.0
MOST_RAIN_MM = 2_000.0
LONGEST_GAP_DAYS = 7
POT_DEPTH_M = 0.1


@dataclass(frozen=True, kw_only=True)
class WaterNeed(Answer):
    """The water for one bed.

    Parameters
    ----------
    crop, stage : str
        What grows and how far it is.
    litres : float
        Water for one watering; for seeds not up, what wets a dry top inch.
    litres_week : float or None
        Water for seven days; None for seeds.
    every_days : int or None
        Days from one watering to the next; None while seeds are not up.
    times_a_day : int
        Waterings on such a day: 2 or more where the soil at the roots holds less than a day's use.
    depth_mm : float
        The same water as a depth over the bed.
    use_mm_week : float or None
        What the crop uses in a week; None for seeds.
    rain_counted_mm : float
        Rain of the last seven days that was taken off.
    coefficient, root_m, held_mm, ready_mm : float or None
        Use against short grass, depth of the roots, water within their reach and its easy part; None for seeds.
    texture : str
        The soil that was reckoned with.
    """

    crop: str
    stage: Stage
    litres: float
    litres_week: float | None = None
    every_days: int | None
    times_a_day: int = 1
    depth_mm: float
    use_mm_week: float | None = None
    rain_counted_mm: float = 0.0
    coefficient: float | None = None
    root_m: float | None = None
    held_mm: float | None = None
    ready_mm: float | None = None
    texture: str


def water_need(
    crop: str | Crop,
    area_m2: float,
    et_mm: float,
    *,
    rain_mm: float = 0,
    stage: Stage = "settled",
    texture: str | None = None,
    bed_depth_m: float | None = None,
    days_since: int | None = None,
    pot_depth_m: float = POT_DEPTH_M,
    under_plastic: bool = False,
) -> WaterNeed:
    """Work out the water for a bed and the days from one watering to the next.

    Parameters
    ----------
    crop : str or Crop
        What grows in the bed.
    area_m2 : float
        The bed alone, without paths, up to 10,000 square metres.
    et_mm : float
        What short grass uses, millimetres a day, 0 to 20.
    rain_mm : float
        Rain of the last seven days.
    stage : {"unsprouted", "just_planted", "settled"}
        Seeds not up yet, plants just set out, or rooted into the bed.
    texture : str, optional
        USDA texture class; loam is assumed without it.
    bed_depth_m : float, optional
        Depth of a bed on a hard base; roots go no deeper.
    days_since : int, optional
        Days since planting; without it a settled crop counts as full-grown.
    pot_depth_m : float
        Depth of the pot that a plant came from, 0.02 to 0.6 metres.
    under_plastic : bool
        Whether plastic keeps the rain off the bed.

    Returns
    -------
    WaterNeed
        Litres and days, with the working.

    Raises
    ------
    InputProblem
        When a number, stage or texture cannot be used, or FAO-56 has no row for the crop.

    Notes
    -----
    Source: Allen et al. 1998 (FAO-56), equations 56, 66, 82 and 83, tables 11, 12 and 22; University of California
    (water held by texture, its low end). Rain as in Penn State Extension 2013: taken off, but not under plastic.

    Examples
    --------
    >>> need = water_need("broccoli", 3.0, 5.0)
    >>> round(need.use_mm_week, 2), need.every_days
    (36.75, 4)
    """
    plant, notes = as_crop(crop), Notes()
    area = checked_between(area_m2, "area_m2", 1e-3, MOST_AREA_M2)
    et, rain = checked_between(et_mm, "et_mm", 0, MOST_ET_MM), checked_between(rain_mm, "rain_mm", 0, MOST_RAIN_MM)
    checked_choice(stage, "stage", get_args(Stage))
    soil, per_m = soil_of(texture, notes, by_days=stage != "unsprouted")
    if stage == "unsprouted":
        return _seeds(plant, area, soil, per_m, notes)
    row = row_of("water_crops", "crop", plant.id)
    if row is None:
        raise InputProblem("water.no_row", crop=plant.name)
    if row["match"] == "stands_in":
        notes.say("water.stands_in", FAO_TABLES, crop=plant.name, row=row["fao_row"])
    kc, root = kc_and_root(row, stage, days_since, checked_between(pot_depth_m, "pot_depth_m", 0.02, 0.6), notes)
    if bed_depth_m is not None and (deep := checked_between(bed_depth_m, "bed_depth_m", 0.05, 3)) < root:
        root = deep
        notes.say("water.bed_caps", depth=Quantity(deep * 100, "cm"))
    use, held = kc * et, held_mm(per_m, root)
    ready = ready_mm(held, row["ready_fraction"], use)
    counted = rain_counted(rain, held, under_plastic=under_plastic, notes=notes)
    gap = LONGEST_GAP_DAYS if use == 0 else min(max(math.floor(ready / use + 1e-6), 1), LONGEST_GAP_DAYS)
    depth = max(7 * use - counted, 0.0) / 7 * gap
    told = {"kc": kc, "et": et, "use": use, "per_m": per_m, "root": root, "held": held, "ready": ready}
    tell_steps(notes, {**told, "p": row["ready_fraction"]})
    given: dict[str, Value] = {"use": in_mm(use), "rain": in_mm(counted), "days": gap}
    notes.step("water.depth", "(7 * use - rain) / 7 * days", given, in_mm(depth), "psu_drip")
    given = {"depth": in_mm(depth), "area": Quantity(area, "m2")}
    notes.step("water.litres", "depth_in_mm * area_in_m2", given, Quantity(depth * area, "litres"), COMMON_PRACTICE)
    if gap == LONGEST_GAP_DAYS:
        notes.say("water.longest_gap")
    return WaterNeed(
        crop=plant.id,
        stage=stage,
        litres=depth * area,
        litres_week=max(7 * use - counted, 0.0) * area,
        every_days=gap,
        times_a_day=max(math.ceil(use / ready - 1e-6), 1),
        depth_mm=depth,
        use_mm_week=7 * use,
        rain_counted_mm=counted,
        coefficient=kc,
        root_m=root,
        held_mm=held,
        ready_mm=ready,
        texture=soil,
        **notes.parts(),
    )


def _seeds(plant: Crop, area: float, soil: str, per_m: float, notes: Notes) -> WaterNeed:
    """Wet a dry top inch; when it dries again nobody can reckon, so there is no interval."""
    depth = held_mm(per_m, MM_PER_INCH / 1000)
    given: dict[str, Value] = {"held_in_a_metre": in_mm(per_m), "top": in_mm(MM_PER_INCH)}
    notes.step("water.top_inch", "held_in_a_metre * top / 1000", given, in_mm(depth), COMMON_PRACTICE)
    notes.say("water.look_daily")
    return WaterNeed(
        crop=plant.id,
        stage="unsprouted",
        litres=depth * area,
        every_days=None,
        depth_mm=depth,
        texture=soil,
        **notes.parts(),
    )
