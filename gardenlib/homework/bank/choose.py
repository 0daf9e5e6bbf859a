"""Choosing what a question is about, among what the reader grows."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from datetime import date
from typing import TYPE_CHECKING, Literal, TypeVar

from gardenlib.problems import InputProblem
from gardenlib.site.freeze import day_in_season
from gardenlib.units import Quantity

if TYPE_CHECKING:
    from gardenlib.homework.ground import Ground
    from gardenlib.working import Answer, Step

Option = TypeVar("Option")
Found = TypeVar("Found")
MIDDLE, FREEZE_F = 0.5, 32


def drawn_answer(
    ground: Ground, name: str, options: Sequence[Option], find: Callable[[Option], Found | None]
) -> tuple[Option, Found]:
    """Draw an option; where nothing can be found for it, go on to the next one."""
    start = ground.draw(name, range(len(options))) if options else 0
    for option in (*options[start:], *options[:start]):
        try:
            found = find(option)
        except InputProblem:
            continue
        if found is not None:
            return option, found
    raise InputProblem("homework_skills.no_crop")


def steps_of(answer: Answer, *keys: str) -> tuple[Step, ...]:
    """Give the first step of an answer with each key, in this order; none where one is not there."""
    first: dict[str, Step] = {}
    for step in answer.steps:
        first.setdefault(step.key, step)
    return tuple(first[key] for key in keys) if set(keys) <= first.keys() else ()


def amount(step: Step, name: str) -> float:
    """Give what went into a step under a name, in the unit in which it was written down."""
    value = step.inputs[name]
    return value.value if isinstance(value, Quantity) else math.nan


def whole_days(weeks: float) -> bool:
    """Tell whether weeks are whole days, so that nobody has to round half a day."""
    return float(weeks * 7).is_integer()


def middle_freeze(ground: Ground, half: Literal["spring", "fall"]) -> date:
    """Give the date of the middle spring's last freeze or of the middle fall's first."""
    freezes = ground.place.freezes
    if freezes is None or not freezes.knows(half, FREEZE_F, MIDDLE):
        raise InputProblem("homework_skills.no_freeze")
    day = freezes.date(half, FREEZE_F, MIDDLE, year=ground.year)
    if day is None:
        raise InputProblem("homework_skills.no_freeze")
    return day


def garden_opens(ground: Ground) -> date | None:
    """Give the first day on which the garden is open in the season that is planned."""
    opens = ground.klass.garden_opens
    return opens and day_in_season(ground.place.latitude, ground.year, opens)
