"""What is asked of a bed in lines, looked at before anything is set out."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from gardenlib import tables
from gardenlib.beds.distances import Which, crop_spacing
from gardenlib.beds.fits import LONGEST_M, checked_length
from gardenlib.beds.line_order import Line, Wanted, half, mean
from gardenlib.beds.line_search import crowded
from gardenlib.problems import InputProblem
from gardenlib.sowing.chance import checked_count
from gardenlib.units import Quantity
from gardenlib.working import Notes

Planting = tuple[str, int, str | None, bool, bool]
MOST = 1000


def checked_degrees(value: float, name: str, low: float, high: float) -> None:
    """Refuse an angle out of its limits."""
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    if not is_number or not low <= value <= high:
        raise InputProblem("lines.degrees", name=name, value=str(value), low=f"{low:g}", high=f"{high:g}")


def wanted_crops(
    plantings: Sequence[Planting], own: Mapping[str, float], which: Which, one: float, notes: Notes
) -> tuple[list[Wanted], dict[str, str]]:
    """Read what is wanted, each crop once, with its spacing in whole units; and the family of each."""
    found: list[Wanted] = []
    kinds: dict[str, str] = {}
    for planting in plantings:
        if not isinstance(planting, tuple | list) or len(planting) != 5:
            raise InputProblem("lines.planting", value=str(planting))
        crop, count, family, tall, daily = planting
        if crop in kinds:
            raise InputProblem("lines.twice", crop=crop)
        if not isinstance(count, int | float) or not math.isfinite(count):
            raise InputProblem("lines.count", crop=crop, value=str(count))
        if crop in own:
            apart = checked_length(own[crop], "spacing_m")
        else:
            spacing = crop_spacing(crop)
            apart, _ = spacing.pick(which, "square")
            notes.cite(*spacing.sources_for("square"))
            if not spacing.is_checked("square"):
                notes.say("fit.unchecked", crop=tables.crop(crop).name)
        kinds[crop] = tables.crop(crop).family if family is None else family
        number = checked_count(count, "plants", MOST)
        found.append(Wanted(crop, number, math.ceil(apart / one - 1e-6), bool(tall), bool(daily)))
    if not found:
        raise InputProblem("lines.none")
    total = sum(crop.count for crop in found)
    if total > MOST:
        raise InputProblem("lines.too_many", value=f"{total:,}", most=f"{MOST:,}")
    return found, kinds


def kept_lines(kept: Sequence[tuple[str, float]], wanted: Sequence[Wanted], one: float, width: int) -> tuple[Line, ...]:
    """Read the lines that stay where they are, and refuse those without room."""
    by_crop, found = {crop.crop: crop for crop in wanted}, []
    for name, at_m in kept:
        if name not in by_crop:
            raise InputProblem("lines.kept_unknown", crop=name)
        crop = by_crop[name]
        at = round(checked_length(at_m, "kept", 0, LONGEST_M) / one)
        if not half(crop.spacing) <= at <= width - half(crop.spacing):
            need = Quantity(half(crop.spacing) * one * 100, "cm")
            raise InputProblem("lines.kept_edge", crop=tables.crop(name).name, need=need)
        found.append(Line(crop, at, kept=True))
    pair = crowded(found)
    if pair is not None:
        need = Quantity(mean(*(line.crop.spacing for line in pair)) * one * 100, "cm")
        first, second = (tables.crop(line.crop.crop).name for line in pair)
        raise InputProblem("lines.kept_close", first=first, second=second, need=need)
    return tuple(sorted(found, key=lambda line: line.at))
