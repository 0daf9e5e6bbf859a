"""The tasks of the whole garden: water, workdays, lime."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from gardenlib.season.task import OpenDays, Task
from gardenlib.units import Range
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.soil import LimeForBed

DAY = timedelta(days=1)


def _task(kind: str, days: tuple[date, date], said: Said, *beside: Said, name: str = "") -> Task:
    return Task(f"garden/{name or kind}", *days, kind, None, None, said, *beside)


def water_tasks(growing: tuple[date, date] | None, water_on: date | None, water_off: date | None) -> Iterator[Task]:
    """Give the days of the tap, and from when to when the beds are checked for water."""
    if water_on is not None:
        yield _task("water_on", (water_on, water_on), Said("task.water_on"))
    if growing is not None:
        first, last = growing
        tap = first if water_on is None else max(first, water_on)
        if first < tap:
            yield _task("carry_water", (first, min(last, tap - DAY)), Said("task.carry_water"))
        if tap <= last:
            yield _task("water_check", (tap, last), Said("task.water_check"))
    if water_off is not None:
        yield _task("water_off", (water_off, water_off), Said("task.water_off"))


def workday_tasks(workdays: Sequence[date], season: tuple[date, date]) -> Iterator[Task]:
    """Give the garden's workdays of the season."""
    for day in sorted(set(workdays)):
        if season[0] <= day <= season[1]:
            yield _task("workday", (day, day), Said("task.workday"), name=f"workday-{day.isoformat()}")


def lime_tasks(lime: LimeForBed | None, days: OpenDays) -> tuple[list[Task], list[Said]]:
    """Give the doses of lime that have a day, and name those that fall while the garden is closed."""
    doses = () if lime is None else lime.applications
    weight = "task.lime_weight" if lime is not None and lime.checked else "task.lime_unchecked"
    dated = [(dose, dose.on) for dose in doses if dose.on is not None]
    tasks = [
        _task(
            "lime",
            (on, on),
            Said("task.lime", {"number": dose.number}),
            Said("task.lime_caution"),
            Said(weight, {"weight": Range(dose.low_kg, dose.high_kg, "kg")}),
            name=f"lime-{dose.number}",
        )
        for dose, on in dated
        if days.is_open(on)
    ]
    return tasks, [Said("plan.lime_closed", {"day": on}) for _, on in dated if not days.is_open(on)]
