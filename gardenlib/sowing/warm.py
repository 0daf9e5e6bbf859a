"""What warmth says: when it is too warm for a crop, and when it is warm enough."""

from __future__ import annotations

from datetime import date

from gardenlib.sowing.ask import Ask
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import Notes


def heat_date(ask: Ask, notes: Notes) -> date | None:
    """Give the day from which the month's mean is too warm for the crop in a typical year."""
    plant = ask.plant
    if plant.growth_max_mean_c is None:
        notes.say("sowing.heat_no_figure", crop=plant.name)
        return None
    if ask.warmth is None:
        notes.say("sowing.heat_unknown", crop=plant.name)
        return None
    limit = Quantity(plant.growth_max_mean_c, "degC")
    day: date | None = ask.warmth.first_above(plant.growth_max_mean_c, year=ask.year)
    notes.cite(*plant.growth_sources)
    if plant.growth_status == "memory":
        notes.say("sowing.heat_unchecked", crop=plant.name)
    if day is None:
        notes.say("sowing.heat_never", crop=plant.name, temp=limit)
        return None
    notes.say("sowing.heat_date", crop=plant.name, temp=limit, date=day)
    notes.step(
        "sowing.heat_date",
        "first day with a 30-day mean above growth_max",
        {"growth_max": limit, "year": ask.year},
        day,
        plant.growth_sources[0],
    )
    return day


def warm_opening(ask: Ask, notes: Notes) -> tuple[date | None, Said | None]:
    """Give the day from which it is warm enough to grow, for places without a last freeze to count from."""
    plant = ask.plant
    if plant.growth_min_mean_c is None:
        return None, Said("sowing.warm_no_figure", {"crop": plant.name})
    if ask.warmth is None:
        return None, Said("sowing.warm_unknown", {"crop": plant.name})
    limit = Quantity(plant.growth_min_mean_c, "degC")
    day: date | None = ask.warmth.first_above(plant.growth_min_mean_c, year=ask.year)
    if day is None:
        return None, Said("sowing.warm_never", {"crop": plant.name, "temp": limit})
    notes.say("sowing.warm_opening", *plant.growth_sources, crop=plant.name, temp=limit, date=day)
    notes.step(
        "sowing.warm_opening",
        "first day with a 30-day mean above growth_min",
        {"growth_min": limit, "year": ask.year},
        day,
        plant.growth_sources[0],
    )
    return day, None
