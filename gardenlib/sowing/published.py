"""The published weeks as dates at a place."""

from __future__ import annotations

from datetime import timedelta

from gardenlib.sowing.ask import Ask, as_temp
from gardenlib.sowing.limits import freeze_limit
from gardenlib.sowing.windows import SINGLE_DAY_WINDOW_DAYS, Days, Weeks, days_of_weeks, later
from gardenlib.tables import source
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import Notes, Value

ANCHOR_F, ANCHOR_RISK = 32, 0.5


def say_weeks(ask: Ask, weeks: Weeks | None, notes: Notes) -> None:
    """Say where the weeks come from and how sure they are."""
    if weeks is None:
        notes.say("sowing.no_weeks", crop=ask.plant.name)
        return
    if weeks.from_region:
        notes.say("sowing.weeks_of_region", citation=source(weeks.sources[0]).citation)
    else:
        if ask.region is not None:
            notes.say("sowing.region_silent", crop=ask.plant.name)
        notes.say("sowing.weeks_typical", n=len(weeks.sources))
    if weeks.status == "memory":
        notes.say("sowing.weeks_unchecked", crop=ask.plant.name)
    notes.cite(*weeks.sources)


def published_days(ask: Ask, weeks: Weeks | None, notes: Notes) -> tuple[Days | None, Said | None]:
    """Count the published weeks from the last freeze, or say why there is none to count from."""
    anchor = freeze_limit(ask.freezes, "spring", ANCHOR_F, ANCHOR_RISK, year=ask.year)
    if anchor.state != "date" or anchor.day is None:
        key = {"rare": "sowing.no_last_freeze", "every_month": "sowing.freeze_every_month"}.get(anchor.state)
        return None, Said(key or "sowing.last_freeze_unknown", {"temp": as_temp(ANCHOR_F)})
    notes.step(
        "sowing.last_freeze",
        "date with half of all springs still to freeze",
        {"threshold": as_temp(ANCHOR_F), "springs_in_ten": ANCHOR_RISK * 10, "year": ask.year},
        anchor.day,
        ask.freeze_source,
    )
    if weeks is None:
        return None, None
    days = []
    for key, name, count in (
        ("sowing.published_opens", "weeks_low", weeks.low),
        ("sowing.published_closes", "weeks_high", weeks.high),
    ):
        day = later(anchor.day, days_of_weeks(count))
        inputs: dict[str, Value] = {"last_freeze": anchor.day, name: Quantity(count, "weeks")}
        notes.step(key, f"last_freeze + {name} * 7", inputs, day, weeks.sources[0])
        days.append(day)
    if weeks.single_day:
        days[1] = days[0] + timedelta(days=SINGLE_DAY_WINDOW_DAYS)
    return (days[0], days[1]), None
