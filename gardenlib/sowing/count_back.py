"""Counting back from the first freeze of fall, by the two published rules."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import TENDER
from gardenlib.sowing.windows import DIRECT, SET_OUT, Path, days_of_weeks, paths_of
from gardenlib.tables import Crop, Published
from gardenlib.units import Quantity
from gardenlib.working import Notes, Value

Rule = Literal["safe", "latest"]
Started = Literal["own", "bought", "seed"]
RULES = ("safe", "latest")
STARTED: tuple[Started, ...] = ("own", "bought", "seed")
VIRGINIA, TENNESSEE = "virginia_fall_2004", "tennessee_sp291g"
SLOWER_DAYS, TENDER_DAYS, HARDY_AFTER_DAYS = 14, 14, 14
MOST_SLOWER_DAYS = 60


@dataclass(frozen=True)
class CountBack:
    """The last day to put a crop into the bed, to sow it, and the first picking that follows."""

    path: Path
    planted: date
    sown: date
    first_harvest: date
    last_harvest: date


def path_for(plant: Crop, started: str) -> Path:
    """Choose from where the days count: plants where the crop is ever set out, else seed in the bed."""
    if started not in STARTED:
        raise InputProblem("fall.started", value=started, known=", ".join(STARTED))
    paths = paths_of(plant)
    if not paths:
        raise InputProblem("fall.not_a_fall_crop", crop=plant.name)
    return SET_OUT if started != "seed" and SET_OUT in paths else DIRECT


def slower_days(asked: float | None) -> float:
    """Give the days that are added for fall: the published ones, or those that were asked for."""
    if asked is None:
        return SLOWER_DAYS
    if not 0 <= asked <= MOST_SLOWER_DAYS:
        raise InputProblem("fall.slower", value=f"{asked:g}", high=MOST_SLOWER_DAYS)
    return asked


def days_needed(plant: Crop, path: Path, notes: Notes) -> Published:
    """Give the days to harvest that count from this start, and say how sure they are."""
    days = path.days(plant) or plant.days_basis_not_stated
    if days is None:
        key = "fall.no_days_from_plants" if path is SET_OUT else "fall.no_days_from_seed"
        raise InputProblem(key, crop=plant.name)
    if path.days(plant) is None:
        notes.say("sowing.days_basis_not_stated", crop=plant.name)
    if days.status == "memory":
        notes.say("sowing.days_unchecked", crop=plant.name)
    if plant.method == "cloves":
        raise InputProblem("fall.not_a_fall_crop", crop=plant.name)
    notes.cite(*days.sources)
    return days


def count_back(
    plant: Crop, end: date, rule: str, started: str, *, slower: float, notes: Notes, path: Path | None = None
) -> CountBack:
    """Count from the end of the season back to the last day of planting and of sowing.

    The safe rule takes the most days of the typical range, the gamble the fewest.
    """
    if rule not in RULES:
        raise InputProblem("fall.rule", value=rule, known=", ".join(RULES))
    path = path or path_for(plant, started)
    days, safe, tender = days_needed(plant, path, notes), rule == "safe", plant.hardiness in TENDER
    grows = math.ceil(days.typical.high if safe else days.typical.low)
    parts: dict[str, int] = {"days_to_harvest": grows, "slower_in_fall": math.ceil(slower)}
    notes.say("fall.slower", VIRGINIA, days=Quantity(parts["slower_in_fall"], "days"))
    picked = 0
    if safe:
        picked = _picking(plant, notes)
        parts |= {"picking": picked} | ({"tender": TENDER_DAYS} if tender else {})
    else:
        parts |= {"tender": TENDER_DAYS} if tender else {"hardy": -HARDY_AFTER_DAYS}
    notes.say("fall.slow_kinds" if safe else "fall.quick_kinds", "common_practice", crop=plant.name)
    source = VIRGINIA if safe else TENNESSEE
    total = sum(parts.values())
    shown: dict[str, Value] = {name: Quantity(count, "days") for name, count in parts.items()}
    key = "fall.total_safe" if safe else "fall.total_latest"
    notes.step(key, " + ".join(parts), shown, Quantity(total, "days"), source)
    planted = end - timedelta(days=total)
    counted: dict[str, Value] = {"season_end": end, "total": Quantity(total, "days")}
    key = "fall.last_set_out" if path is SET_OUT else "fall.last_sow"
    notes.step(key, "season_end - total", counted, planted, source)
    sown = _sown(plant, planted, started, safe, notes) if path is SET_OUT else planted
    first = planted + timedelta(days=grows + parts["slower_in_fall"])
    picking: dict[str, Value] = {
        "planted": planted,
        "days_to_harvest": Quantity(grows, "days"),
        "slower_in_fall": Quantity(parts["slower_in_fall"], "days"),
    }
    notes.step("fall.first_harvest", "planted + days_to_harvest + slower_in_fall", picking, first, source)
    return CountBack(path, planted, sown, first, first + timedelta(days=picked))


def _picking(plant: Crop, notes: Notes) -> int:
    weeks = plant.harvest_wk
    if weeks is None:
        notes.say("fall.no_picking", crop=plant.name)
        return 0
    notes.say("fall.picking", *weeks.sources, crop=plant.name, weeks=Quantity(weeks.typical.low, "weeks"))
    if weeks.status == "memory":
        notes.say("fall.picking_unchecked", crop=plant.name)
    return days_of_weeks(weeks.typical.low)


def _sown(plant: Crop, planted: date, started: str, safe: bool, notes: Notes) -> date:
    if started == "bought" or plant.method == "sets":
        notes.say("fall.bought")
        return planted
    weeks = plant.weeks_indoor
    if weeks is None:
        raise InputProblem("fall.no_weeks_indoor", crop=plant.name)
    if weeks.status == "memory":
        notes.say("sowing.weeks_indoor_unchecked", crop=plant.name)
    count = weeks.typical.high if safe else weeks.typical.low
    sown = planted - timedelta(days=days_of_weeks(count))
    inputs: dict[str, Value] = {"set_out": planted, "weeks_indoors": Quantity(count, "weeks")}
    notes.step("fall.sow_indoors", "set_out - weeks_indoors * 7", inputs, sown, weeks.sources[0])
    return sown
