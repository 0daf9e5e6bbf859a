"""What comes before setting out and after planting."""

from __future__ import annotations

from datetime import timedelta

from gardenlib.sowing.ask import Ask, Window, days_to_harvest
from gardenlib.sowing.windows import Days, Path, days_of_weeks, harvest_window
from gardenlib.units import Quantity
from gardenlib.working import Notes, Value

HARDEN_DAYS = (14, 7)


def harvest(ask: Ask, path: Path, window: Window, notes: Notes) -> Days | None:
    """Give the first and the last day of first picking, for plantings of a window."""
    planted, taken = window.days, window.days_to_harvest
    days = days_to_harvest(ask, path, notes) if planted else None
    if planted is None or taken is None or days is None:
        return None
    span = harvest_window(planted, taken)
    for key, day, count, picked in (
        (path.harvest_first_key, planted[0], taken.low, span[0]),
        (path.harvest_last_key, planted[1], taken.high, span[1]),
    ):
        inputs: dict[str, Value] = {"planted": day, "days_to_harvest": Quantity(count, "days")}
        notes.step(key, "planted + days_to_harvest", inputs, picked, days.sources[0])
    return span


def sow_indoors(ask: Ask, set_out: Days | None, started: str, notes: Notes, *, safe: bool = False) -> Days | None:
    """Count the weeks indoors back from the days of setting out; to be safe the most weeks for the last day too."""
    if set_out is None or ask.plant.method == "sets":
        return None
    if started == "bought":
        notes.say("sowing.bought", crop=ask.plant.name)
        return None
    weeks = ask.plant.weeks_indoor
    if weeks is None:
        notes.say("sowing.no_weeks_indoor", crop=ask.plant.name)
        return None
    notes.say("sowing.weeks_indoor", *weeks.sources, weeks=weeks.typical)
    if weeks.status == "memory":
        notes.say("sowing.weeks_indoor_unchecked", crop=ask.plant.name)
    days = []
    for key, day, count in (
        ("sowing.sow_indoors_first", set_out[0], weeks.typical.high),
        (
            "fall.sow_indoors" if safe else "sowing.sow_indoors_last",
            set_out[1],
            weeks.typical.high if safe else weeks.typical.low,
        ),
    ):
        sow = day - timedelta(days=days_of_weeks(count))
        inputs: dict[str, Value] = {"set_out": day, "weeks_indoors": Quantity(count, "weeks")}
        notes.step(key, "set_out - weeks_indoors * 7", inputs, sow, weeks.sources[0])
        days.append(sow)
    return days[0], days[1]


def harden_off(ask: Ask, set_out: Days | None, notes: Notes) -> Days | None:
    """Give the days between which hardening off starts, for the first setting out."""
    if set_out is None or ask.plant.method == "sets" or not ask.hardened:
        return None
    source = "maryland_hardening_2023"
    notes.say("sowing.harden_off", source, "newengland_hardening_2016")
    first, last = (set_out[0] - timedelta(days=days) for days in HARDEN_DAYS)
    for key, days, day in (
        ("sowing.harden_first", HARDEN_DAYS[0], first),
        ("sowing.harden_last", HARDEN_DAYS[1], last),
    ):
        inputs: dict[str, Value] = {"set_out": set_out[0], "days_before": Quantity(days, "days")}
        notes.step(key, "set_out - days_before", inputs, day, source)
    return first, last
