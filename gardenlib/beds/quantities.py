"""To get: the plants, seeds, mulch, drip line, stakes and trellis for a bed in lines."""

from __future__ import annotations

import math
from dataclasses import dataclass

from gardenlib import tables
from gardenlib.beds.fits import checked_length
from gardenlib.beds.line_answer import LinesAnswer
from gardenlib.beds.stature import practice_m, support
from gardenlib.sowing import has_seed, has_standard, seed_plan
from gardenlib.units import Quantity
from gardenlib.working import COMMON_PRACTICE, Answer, Notes, Value


@dataclass(frozen=True, kw_only=True)
class ToGet(Answer):
    """What a bed in lines needs.

    Parameters
    ----------
    plants : mapping of str to int
        Plants by crop.
    seeds : mapping of str to int or None
        Seeds to sow for them, 9 times of 10 enough; None where no germination is known or none is sown.
    mulch_m3 : float
        Mulch for the whole bed.
    drip_m : float
        Drip line: tubes along the bed.
    stakes : int
        One for each plant that is staked.
    trellis_m : float
        Trellis along the lines of climbing crops.
    """

    plants: dict[str, int]
    seeds: dict[str, int | None]
    mulch_m3: float
    drip_m: float
    stakes: int
    trellis_m: float


def to_get(answer: LinesAnswer, *, mulch_depth_m: float | None = None) -> ToGet:
    """Add up what to get for a bed in lines.

    Parameters
    ----------
    answer : LinesAnswer
        The bed, from `lines`.
    mulch_depth_m : float, optional
        Depth of mulch, metres, up to 0.3; 5 cm unless given.

    Returns
    -------
    ToGet
        The quantities with their working.

    Raises
    ------
    InputProblem
        When the depth cannot be used.

    Notes
    -----
    Plane geometry. The depth of mulch and the distance of drip lines are common practice, no source; the seeds come
    from `gardenlib.sowing.seed_plan`.

    Examples
    --------
    >>> from gardenlib.beds.in_lines import lines
    >>> bed = lines(2.0, 1.0, [("pea", 20, None, True, True)], latitude=40)
    >>> round(to_get(bed, mulch_depth_m=0.05).mulch_m3, 6)
    0.1
    """
    asked = practice_m("mulch_depth") if mulch_depth_m is None else mulch_depth_m
    depth = checked_length(asked, "mulch_depth_m", 0, 0.3)
    notes, plants = Notes(), answer.counts
    seeds: dict[str, int | None] = {}
    for crop_id, wanted in plants.items():
        crop = tables.crop(crop_id)
        plan = seed_plan(crop, wanted) if has_seed(crop) and has_standard(crop) else None
        seeds[crop_id] = None if plan is None else plan.seeds
        notes.cite(*(() if plan is None else plan.sources))
    mulch = answer.length_m * answer.width_m * depth
    bed: dict[str, Value] = {"length": Quantity(answer.length_m, "m"), "width": Quantity(answer.width_m, "m")}
    given = {**bed, "depth": Quantity(depth * 100, "cm")}
    notes.step("lines.mulch", "length * width * depth", given, Quantity(mulch, "m3"), COMMON_PRACTICE)
    apart = practice_m("drip_apart")
    tubes = math.ceil(answer.width_m / apart - 1e-6)
    across: dict[str, Value] = {"width": bed["width"], "apart": Quantity(apart * 100, "cm")}
    notes.step("lines.tubes", "width / apart, rounded up", across, tubes, COMMON_PRACTICE)
    drip = tubes * answer.length_m
    along: dict[str, Value] = {"tubes": tubes, "length": bed["length"]}
    notes.step("lines.drip", "tubes * length", along, Quantity(drip, "m"), COMMON_PRACTICE)
    notes.say("lines.get_practice", COMMON_PRACTICE)
    parts = [part for line in answer.lines for part in line.parts]
    return ToGet(
        plants=plants,
        seeds=seeds,
        mulch_m3=mulch,
        drip_m=drip,
        stakes=sum(part.plants for part in parts if support(part.crop) == "stake"),
        trellis_m=sum(part.plants * part.spacing_m for part in parts if support(part.crop) == "trellis"),
        **notes.parts(),
    )
