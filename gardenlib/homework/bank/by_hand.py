"""Numbers for a pencil: sides and distances as they are printed, in round figures of the class's units."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from gardenlib.problems import InputProblem
from gardenlib.units import Quantity, in_system
from gardenlib.working import COMMON_PRACTICE, Answer, Step

if TYPE_CHECKING:
    from collections.abc import Iterable

    from gardenlib.homework.ground import Ground
    from gardenlib.homework.skill import Slip
    from gardenlib.words import Voice

Either = TypeVar("Either")
Found = TypeVar("Found", bound=Answer)


def in_class(voice: Voice, us: Either, metric: Either) -> Either:
    """Choose by the class's units."""
    return us if voice.units == "us" else metric


def as_printed(value: float, unit: str, voice: Voice, places: int = 1) -> float:
    """Give a value without offset, in its own unit, as exactly as the class reads it."""
    shown, _ = in_system(value, unit, voice.units)
    return value * round(shown, places) / shown if shown else value


def sides(ground: Ground) -> tuple[float, float]:
    """Give the bed's length and width as they are printed, metres."""
    length_m, width_m = ground.bed.length_m, ground.bed.width_m
    if not length_m or not width_m:
        raise InputProblem("homework_beds.no_bed")
    return as_printed(length_m, "m", ground.voice), as_printed(width_m, "m", ground.voice)


def spacing_cm(spacing_m: float, voice: Voice) -> float:
    """Give a distance in half inches or whole centimetres, rounded away from crowding."""
    shown, _ = in_system(spacing_m * 100, "cm", voice.units)
    step = in_class(voice, 0.5, 1.0)
    return spacing_m * 100 / shown * math.ceil(shown / step - 1e-6) * step


def area_step(length_m: float, width_m: float) -> Step:
    """Give the first step of whatever is reckoned by area."""
    given = {"length": Quantity(length_m, "m"), "width": Quantity(width_m, "m")}
    return Step("homework_beds.area", "length * width", given, Quantity(length_m * width_m, "m2"), COMMON_PRACTICE)


def with_steps(found: Found, steps: Iterable[Step]) -> Found:
    """Give an answer the steps by which a pencil comes to it; their sources join the answer's."""
    steps = tuple(steps)
    return replace(found, steps=steps, sources=tuple(dict.fromkeys((*found.sources, *sources_of(steps)))))


def sources_of(steps: Iterable[Step]) -> tuple[str, ...]:
    """Give the sources of steps, each once."""
    return tuple(dict.fromkeys(step.source for step in steps))


def told_apart(steps: tuple[Step, ...], slips: Iterable[Slip], voice: Voice) -> tuple[Slip, ...]:
    """Keep the slips whose outcome reads unlike the right one and unlike each other's."""
    seen = {(number, voice.value(step.result)) for number, step in enumerate(steps)}
    kept = []
    for slip in slips:
        read = (slip.step % len(steps), voice.value(slip.value))
        if slip.value is not None and read not in seen:
            seen.add(read)
            kept.append(slip)
    return tuple(kept)
