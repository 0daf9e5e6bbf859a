"""A mixed bed in straight lines along its long edge, as it is set out with a string."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Literal

from gardenlib.beds.distances import Which
from gardenlib.beds.fits import LONGEST_M, checked_length
from gardenlib.beds.line_answer import BedLine, LeftOver, LinesAnswer, Part
from gardenlib.beds.line_input import Planting, checked_degrees, kept_lines, wanted_crops
from gardenlib.beds.line_order import Line, closer, half, mean
from gardenlib.beds.line_search import Found, Ground, best_lines, shading
from gardenlib.problems import InputProblem
from gardenlib.units import MM_PER_INCH, Quantity
from gardenlib.working import COMMON_PRACTICE, Notes, Value

UNIT_M = {"in": MM_PER_INCH / 1000, "cm": 0.01}
TROPIC_DEG = 23.44
"""Nearer to the equator the noon sun stands to the north for a part of the year and to the south for the other."""
SIDE = math.sin(math.radians(20))
"""Long edges within 20 degrees of north and south have no shaded side: each gets half of the day."""


def lines(
    length_m: float,
    width_m: float,
    plantings: Sequence[Planting],
    *,
    latitude: float,
    bearing_deg: float = 0,
    reach_m: float = 0.6,
    reach_from: Literal["both", "one"] = "both",
    kept: Sequence[tuple[str, float]] = (),
    spacing_m: Mapping[str, float] | None = None,
    which: Which = "closest",
    unit: Literal["in", "cm"] = "in",
    seed: int = 0,
) -> LinesAnswer:
    """Set out what we eat as straight lines along the long edge of a bed.

    First each crop gets some place, then as many plants as can be; then tall crops go to the side away from the
    sun, then what is picked daily comes within reach, then fewer lines are better. For the reach, free width is left
    inside the bed: the lines behind it are measured from the far edge.

    Parameters
    ----------
    length_m, width_m : float
        The bed, metres, up to 100 m; the greater one is the long edge.
    plantings : list of (crop, count, family or None, tall, picked_daily)
        What is wanted, each crop once; 1,000 plants in all at most.
    latitude : float
        Degrees, north positive.
    bearing_deg : float
        Where the long edge runs to, degrees clockwise from north. Lines are measured from the edge on the left
        hand of someone who looks that way.
    reach_m : float
        How far an arm reaches from the edge, metres.
    reach_from : {"both", "one"}
        Whether both long edges can be reached, or only the one that lines are measured from.
    kept : sequence of (crop, distance in metres)
        Lines that stay where they are.
    spacing_m : mapping of str to float, optional
        Spacings of the learner's own, metres, by crop.
    which : {"closest", "middle", "widest"}
        Which of the published spacings, for crops without one of their own.
    unit : {"in", "cm"}
        Distances come in whole inches or whole centimetres, rounded away from crowding.
    seed : int
        The same seed gives the same bed.

    Returns
    -------
    LinesAnswer
        The lines, and what is left over.

    Raises
    ------
    InputProblem
        When a number cannot be used, a crop comes twice, or a kept line has no room.

    Notes
    -----
    Plane geometry; common practice, no source. Each plant has half its spacing free on all sides. Lines of one
    spacing, the second moved by half of it, come closer: to sqrt(3)/2 of the spacing.

    Examples
    --------
    >>> found = lines(2.4384, 1.2192, [("cabbage_main", 12, None, False, False)], latitude=40,
    ...               spacing_m={"cabbage_main": 0.4572})
    >>> [round(line.from_edge_m / 0.0254) for line in found.lines], found.placed
    ([9, 27], 10)
    """
    if reach_from not in {"both", "one"}:
        raise InputProblem("lines.reach_from", value=str(reach_from))
    if unit not in UNIT_M:
        raise InputProblem("lines.unit", value=str(unit))
    for name, value in (("length_m", length_m), ("width_m", width_m)):
        checked_length(value, name, 0, LONGEST_M, zero=False)
    long_m, wide_m = max(length_m, width_m), min(length_m, width_m)
    checked_length(reach_m, "reach_m", 0)
    checked_degrees(latitude, "latitude", -90, 90)
    checked_degrees(bearing_deg, "bearing_deg", -360, 360)
    notes, one = Notes(), UNIT_M[unit]
    wanted, kinds = wanted_crops(plantings, spacing_m or {}, which, one, notes)
    length, width = (math.floor(side / one + 1e-6) for side in (long_m, wide_m))
    fixed = kept_lines(kept, wanted, one, width)
    shaded = _shaded(latitude, bearing_deg, notes)
    ground = Ground(length, width, fixed, shaded, math.floor(reach_m / one + 1e-6), reach_from == "both")
    found = best_lines(wanted, ground, seed)
    over = dict(found.left)
    left_over = tuple(
        LeftOver(crop.crop, crop.count, crop.count - over[crop.crop]) for crop in wanted if over[crop.crop]
    )
    against = len(shading(found.lines, ground))
    _tell(notes, found, sum(crop.count for crop in wanted), unit, against)
    return LinesAnswer(
        length_m=long_m,
        width_m=wide_m,
        lines=tuple(_line(line, kinds, one, ground) for line in found.lines),
        left_over=left_over,
        edge_deg=(bearing_deg - 90) % 360,
        end_deg=(bearing_deg + 180) % 360,
        shading=against,
        **notes.parts(),
    )


def _shaded(latitude: float, bearing_deg: float, notes: Notes) -> int:
    """Tell which long edge lies away from the noon sun: -1 the one measured from, 1 the other, 0 neither."""
    if abs(latitude) < TROPIC_DEG:
        notes.say("lines.no_side_tropics", COMMON_PRACTICE)
        return 0
    sun_deg = 180.0 if latitude > 0 else 0.0
    towards = math.cos(math.radians(bearing_deg + 90 - sun_deg))
    if abs(towards) < SIDE:
        notes.say("lines.no_side", COMMON_PRACTICE)
        return 0
    notes.say("lines.tall_side_north" if latitude > 0 else "lines.tall_side_south", COMMON_PRACTICE)
    return -1 if towards > 0 else 1


def _line(line: Line, kinds: Mapping[str, str], one: float, ground: Ground) -> BedLine:
    parts = tuple(
        Part(crop.crop, kinds[crop.crop], plants, crop.spacing * one, start * one)
        for (crop, plants), start in zip(line.parts, line.starts(), strict=True)
    )
    return BedLine(line.at * one, parts, line.kept, ground.in_reach(line.at))


def _close(line: Line, other: Line) -> bool:
    """Tell whether two lines lie as close as one spacing lets moved ones lie."""
    same = line.crop.spacing == other.crop.spacing
    return same and other.at - line.at == closer(line.crop.spacing)


def _tell(notes: Notes, found: Found, asked: int, unit: str, against: int) -> None:
    cm = UNIT_M[unit] * 100

    def size(units: int) -> Quantity:
        return Quantity(units * cm, "cm")

    for line in found.lines[:1]:
        given: dict[str, Value] = {"spacing": size(line.crop.spacing)}
        notes.step("lines.edge", "spacing / 2, rounded up", given, size(half(line.crop.spacing)), COMMON_PRACTICE)
    pairs = list(zip(found.lines, found.lines[1:], strict=False))
    # A pair that was drawn apart for the arm's sake shows nothing of how close moved lines may come.
    moved = next((pair for pair in pairs if any(line.moved for line in pair) and _close(*pair)), None)
    plain = next((pair for pair in pairs if not any(line.moved for line in pair)), None)
    if plain is not None:
        one, other = (line.crop.spacing for line in plain)
        given = {"first": size(one), "second": size(other)}
        notes.step("lines.between", "(first + second) / 2, rounded up", given, size(mean(one, other)), COMMON_PRACTICE)
    if moved is not None:
        given = {"spacing": size(moved[0].crop.spacing)}
        apart = size(moved[1].at - moved[0].at)
        notes.step("lines.moved", "0.866 * spacing, rounded up", given, apart, COMMON_PRACTICE)
    left = sum(number for _, number in found.left)
    counts: dict[str, Value] = {"wanted": asked, "left_over": left}
    notes.step("lines.placed", "wanted - left_over", counts, asked - left, COMMON_PRACTICE)
    notes.say("lines.rules", COMMON_PRACTICE)
    notes.say("lines.whole_in" if unit == "in" else "lines.whole_cm", COMMON_PRACTICE)
    if against:
        notes.say("lines.shades", n=against)
