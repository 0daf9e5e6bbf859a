"""Lines in a bed: how far from the edge each lies, and which plants stand in it, in whole inches or centimetres."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise


@dataclass(frozen=True)
class Wanted:
    """A crop to be set out: plants wanted, spacing in whole units, whether it is tall or picked daily."""

    crop: str
    count: int
    spacing: int
    tall: bool
    daily: bool


@dataclass
class Line:
    """A line: its widest crop, its distance from the corner, how far its first plant is moved, and its parts.

    `parts` holds (crop, plants), the widest spacing first: so plants of a moved line stay between those of the next.
    """

    crop: Wanted
    at: int
    moved: int = 0
    staggered: bool = False
    kept: bool = False
    parts: list[tuple[Wanted, int]] = field(default_factory=list)

    def starts(self) -> list[int]:
        """Give where the first plant of each part stands."""
        found = [half(self.parts[0][0].spacing) + self.moved]
        for (crop, plants), (after, _) in pairwise(self.parts):
            found.append(found[-1] + (plants - 1) * crop.spacing + mean(crop.spacing, after.spacing))
        return found

    def free(self, length: int) -> int:
        """Give what is left of the line behind the room of its last plant."""
        if not self.parts:
            return length - self.moved
        crop, plants = self.parts[-1]
        return length - self.starts()[-1] - (plants - 1) * crop.spacing - half(crop.spacing)

    def takes(self, other: Wanted, together: bool) -> bool:
        """Tell whether another crop may share the line; `together` lets tall and short ones stand in one line."""
        if other.spacing > self.crop.spacing or not (together or other.tall == self.crop.tall):
            return False
        close = not self.staggered or other.spacing == self.crop.spacing
        return close or mean(self.crop.spacing, other.spacing) <= closer(self.crop.spacing)

    def room_for(self, other: Wanted, length: int) -> int:
        """Count the plants of a crop that could be added."""
        plants = self.free(length) // other.spacing + 1
        while plants > 0 and self.with_more(other, plants).free(length) < 0:
            plants -= 1
        return max(plants, 0)

    def with_more(self, other: Wanted, plants: int) -> Line:
        """Give the line with more plants of a crop."""
        counts = {crop.crop: (crop, number) for crop, number in self.parts}
        _, before = counts.get(other.crop, (other, 0))
        counts[other.crop] = (other, before + plants)
        parts = [part for part in counts.values() if part[1] > 0]
        parts.sort(key=lambda part: -part[0].spacing)
        return Line(self.crop, self.at, self.moved, self.staggered, self.kept, parts)


def half(spacing: int) -> int:
    """Give half a spacing, rounded away from crowding."""
    return (spacing + 1) // 2


def mean(one: int, other: int) -> int:
    """Give the mean of two spacings, rounded away from crowding."""
    return (one + other + 1) // 2


def closer(spacing: int) -> int:
    """Give how far apart two lines of one spacing lie when one is moved by half of it."""
    return math.isqrt(spacing**2 - (spacing // 2) ** 2 - 1) + 1 if spacing > 1 else 1


def set_out(crops: Sequence[Wanted], kept: Sequence[Line], width: int, stagger: bool) -> list[Line] | None:
    """Lay lines side by side in the order given, round those that are kept; None where they do not fit."""
    laid: list[Line] = []
    for crop in crops:
        line = Line(crop, half(crop.spacing))
        if laid:
            before = laid[-1]
            same = stagger and before.crop.spacing == crop.spacing
            line.at = before.at + (closer(crop.spacing) if same else mean(before.crop.spacing, crop.spacing))
            line.moved = crop.spacing // 2 if same and not before.moved else 0
            line.staggered = same
        for fixed in kept:
            apart = mean(fixed.crop.spacing, crop.spacing)
            if abs(line.at - fixed.at) < apart:
                line.at, line.moved, line.staggered = fixed.at + apart, 0, False
        if line.at + half(crop.spacing) > width:
            return None
        if line.staggered:
            laid[-1].staggered = True
        laid.append(line)
    fixed_lines = [Line(line.crop, line.at, kept=True) for line in kept]
    return sorted([*fixed_lines, *laid], key=lambda line: line.at)


def fill(
    lines: Sequence[Line], wanted: Sequence[Wanted], length: int, *, together: bool, small_first: bool
) -> tuple[list[Line], Mapping[str, int]]:
    """Plant the lines: each with its own crop, its end with others; give the lines and what is left of each crop."""
    left = {crop.crop: crop.count for crop in wanted}
    full = list(lines)
    # Kept lines first: what stays where it is must not go empty.
    for place in sorted(range(len(full)), key=lambda number: not full[number].kept):
        full[place] = _add(full[place], full[place].crop, left, length)
    others = sorted(wanted, key=lambda crop: crop.spacing if small_first else -crop.spacing)
    _share(full, others, left, length, together)
    for crop in others:
        if left[crop.crop] == crop.count:
            _make_room(full, crop, left, length, together)
    _share(full, others, left, length, together)
    return [line for line in full if line.parts], left


def _add(line: Line, crop: Wanted, left: dict[str, int], length: int) -> Line:
    plants = min(left[crop.crop], line.room_for(crop, length)) if left[crop.crop] else 0
    left[crop.crop] -= plants
    return line.with_more(crop, plants) if plants else line


def _share(full: list[Line], others: Sequence[Wanted], left: dict[str, int], length: int, together: bool) -> None:
    for crop in others:
        for place, line in enumerate(full):
            if left[crop.crop] and line.takes(crop, together):
                full[place] = _add(line, crop, left, length)


def _make_room(full: list[Line], crop: Wanted, left: dict[str, int], length: int, together: bool) -> None:
    """Let a crop that would be left out wholly stand in for the fewest plants of another that keeps some."""
    best: tuple[int, int, Wanted, Line] | None = None
    for place, line in enumerate(full):
        if not line.takes(crop, together):
            continue
        for other, plants in line.parts:
            for fewer in range(plants):
                changed = line.with_more(other, -fewer).with_more(crop, 1)
                if changed.free(length) >= 0:
                    if best is None or fewer < best[0]:
                        best = (fewer, place, other, changed)
                    break
    if best is not None:
        fewer, place, other, changed = best
        full[place] = changed
        left[other.crop] += fewer
        left[crop.crop] -= 1
