"""The working of a count: what is free, the plants in a line, the lines, all plants."""

from __future__ import annotations

from gardenlib.beds.fits import Laid
from gardenlib.units import Quantity
from gardenlib.working import COMMON_PRACTICE, Notes, Value

_LINE = "free / {apart}, rounded down, + 1"


def _cm(metres: float) -> Quantity:
    return Quantity(metres * 100, "cm")


def free_steps(notes: Notes, bed_m: tuple[float, float], margin_m: float) -> tuple[float, float]:
    """Take the margins off the length and the width, metres."""
    long, wide = (side - 2 * margin_m for side in bed_m)
    given: dict[str, Value] = {"length": _cm(bed_m[0]), "margin": _cm(margin_m)}
    notes.step("fit.free_length", "length - 2 * margin", given, _cm(long), COMMON_PRACTICE)
    given = {"width": _cm(bed_m[1]), "margin": _cm(margin_m)}
    notes.step("fit.free_width", "width - 2 * margin", given, _cm(wide), COMMON_PRACTICE)
    return long, wide


def row_steps(
    notes: Notes, way: Laid, spacing_m: float, free_m: tuple[float, float], row_spacing_m: float | None
) -> None:
    """Count along a row, then the rows."""
    apart = "spacing" if row_spacing_m is None else "row_distance"
    long: dict[str, Value] = {"free": _cm(free_m[0]), "spacing": _cm(spacing_m)}
    wide: dict[str, Value] = {"free": _cm(free_m[1]), apart: _cm(way.lines_apart_m)}
    notes.step("fit.in_row", _LINE.format(apart="spacing"), long, way.odd, COMMON_PRACTICE)
    notes.step("fit.rows", _LINE.format(apart=apart), wide, way.lines, COMMON_PRACTICE)
    counts: dict[str, Value] = {"rows": way.lines, "in_row": way.odd}
    notes.step("fit.all_rows", "rows * in_row", counts, way.plants, COMMON_PRACTICE)


def offset_steps(notes: Notes, way: Laid, spacing_m: float, free_m: tuple[float, float]) -> None:
    """Count along a line and along a moved one, then the lines."""
    notes.say("fit.both_ways_turned" if way.turned else "fit.both_ways")
    along, across = free_m[::-1] if way.turned else free_m
    line: dict[str, Value] = {"free": _cm(along), "spacing": _cm(spacing_m)}
    notes.step("fit.in_row", _LINE.format(apart="spacing"), line, way.odd, COMMON_PRACTICE)
    notes.step("fit.in_moved", "(free - spacing / 2) / spacing, rounded down, + 1", line, way.even, COMMON_PRACTICE)
    apart = _cm(way.lines_apart_m)
    notes.step("fit.line_distance", "0.866 * spacing", {"spacing": _cm(spacing_m)}, apart, COMMON_PRACTICE)
    wide: dict[str, Value] = {"free": _cm(across), "line_distance": apart}
    notes.step("fit.lines", _LINE.format(apart="line_distance"), wide, way.lines, COMMON_PRACTICE)
    odd, even = (way.lines + 1) // 2, way.lines // 2
    counts: dict[str, Value] = {"lines": odd, "in_line": way.odd, "moved_lines": even, "in_moved": way.even}
    notes.step("fit.all_lines", "lines * in_line + moved_lines * in_moved", counts, way.plants, COMMON_PRACTICE)
