"""The cool season of a place where heat, not frost, sets the time to grow."""

from __future__ import annotations

from datetime import date, timedelta
from math import ceil

from gardenlib.problems import InputProblem
from gardenlib.sowing.ask import Ask, Window, as_temp, days_to_harvest, last_useful_day
from gardenlib.sowing.limits import TENDER, Limit, cold_row, freeze_limit
from gardenlib.sowing.windows import Days, Path
from gardenlib.units import Quantity, Range
from gardenlib.words import Said
from gardenlib.working import Notes, Value


def cool_window(ask: Ask, path: Path, notes: Notes) -> Window:
    """Work out the window of a crop from the end of the heat to the next heat.

    It opens when the 30-day mean of the typical year falls below the crop's limit.  It closes on the last day from
    which the quickest plants are ready before it is too warm again, or too cold to grow.  Young hardy plants are not
    set out between the first and the last night at their damage temperature; tender ones are ready before the first
    or wait for the last.
    """
    heat = _heat(ask, notes)
    if isinstance(heat, Said):
        return Window(reason=heat)
    opens, too_warm = heat
    starts: dict[str, Value] = {"cool_enough": opens}
    days = days_to_harvest(ask, path, notes)
    if days is None:
        return Window(heat_date=too_warm, reason=Said("sowing.no_days", {"crop": ask.plant.name}))
    if ask.garden_opens is not None and ask.garden_opens > opens:
        notes.say("sowing.garden_opens", date=ask.garden_opens)
        opens = starts["garden_opens"] = ask.garden_opens
    ends = {"sowing.short_of_heat": too_warm}
    if ask.garden_closes is not None:
        ends["sowing.short_of_closing"] = ask.garden_closes
    too_cold = _too_cold(ask, notes)
    if too_cold is not None:
        ends["sowing.short_of_cold"] = too_cold
    why = min(ends, key=lambda key: ends[key])
    useful, taken = last_useful_day(ask, opens, ends[why], days, notes)
    window, cold = _clear_of_cold(ask, path, (opens, useful), taken, notes)
    if window[0] > window[1]:
        short = (window[0] - window[1]).days
        reason = Said(why, {"crop": ask.plant.name, "n": short})
        return Window(cold_limit=cold, heat_date=too_warm, short_by_days=short, reason=reason)
    lasts: dict[str, Value] = {"last_useful": useful}
    if window[0] > opens:
        starts["after_cold"] = window[0]
    if window[1] < useful:
        lasts["before_cold"] = window[1]
    notes.step(path.opens_key, f"latest of {', '.join(starts)}", starts, window[0], "common_practice")
    notes.step(path.closes_key, f"earlier of {', '.join(lasts)}", lasts, window[1], "common_practice")
    return Window(days=window, days_to_harvest=taken, cold_limit=cold, heat_date=too_warm)


def _heat(ask: Ask, notes: Notes) -> Days | Said:
    plant, warmth = ask.plant, ask.warmth
    if warmth is None:
        raise InputProblem("sowing.needs_warmth", crop=plant.name)
    if plant.growth_max_mean_c is None:
        return Said("sowing.heat_no_figure", {"crop": plant.name})
    limit = Quantity(plant.growth_max_mean_c, "degC")
    said = {"crop": plant.name, "temp": limit}
    if warmth.first_above(plant.growth_max_mean_c, year=ask.year) is None:
        return Said("sowing.not_heat_limited", said)
    cool = warmth.first_below(plant.growth_max_mean_c, year=ask.year)
    warm = warmth.first_above(plant.growth_max_mean_c, year=ask.year + 1)
    if cool is None or warm is None:
        return Said("sowing.too_warm_all_year", said)
    if plant.growth_status == "memory":
        notes.say("sowing.heat_unchecked", crop=plant.name)
    notes.say("sowing.cool_season", *plant.growth_sources, **said)
    source = plant.growth_sources[0]
    notes.step(
        "sowing.cool_enough",
        "first day after the heat with a 30-day mean below growth_max",
        {"growth_max": limit, "year": ask.year},
        cool,
        source,
    )
    notes.step(
        "sowing.heat_date",
        "first day with a 30-day mean above growth_max",
        {"growth_max": limit, "year": ask.year + 1},
        warm,
        source,
    )
    return cool, warm


def _too_cold(ask: Ask, notes: Notes) -> date | None:
    plant = ask.plant
    if plant.growth_min_mean_c is None or ask.warmth is None:
        return None
    day: date | None = ask.warmth.first_below(plant.growth_min_mean_c, year=ask.year)
    if day is not None:
        limit = Quantity(plant.growth_min_mean_c, "degC")
        notes.say("sowing.cold_stops_growth", *plant.growth_sources, crop=plant.name, temp=limit, date=day)
        inputs: dict[str, Value] = {"growth_min": limit, "year": ask.year}
        expression = "first day after the heat with a 30-day mean below growth_min"
        notes.step("sowing.too_cold", expression, inputs, day, plant.growth_sources[0])
    return day


def _clear_of_cold(ask: Ask, path: Path, window: Days, days: Range, notes: Notes) -> tuple[Days, date | None]:
    plant = ask.plant
    row = cold_row(plant, hardened=ask.hardened or path.name == "direct_sow")
    notes.say("sowing.cold_temp", *row.sources, crop=plant.name, temp=as_temp(row.temp_f), x=ask.springs)
    first = _limit(ask, "fall", row.temp_f, ask.year, notes)
    last = _limit(ask, "spring", row.temp_f, ask.year + 1, notes)
    if first.day is None or last.day is None:
        return window, None
    before = first.day - timedelta(days=ceil(days.low)) if plant.hardiness in TENDER else first.day
    opens, closes = window
    if opens <= before:
        return (opens, min(closes, before)), first.day
    return (max(opens, last.day), closes), last.day


def _limit(ask: Ask, half: str, temp_f: int, year: int, notes: Notes) -> Limit:
    limit = freeze_limit(ask.freezes, "fall" if half == "fall" else "spring", temp_f, ask.risk, year=year)
    if limit.state in ("unknown", "at_least"):
        notes.say("sowing.cold_unknown", temp=as_temp(temp_f), x=ask.springs)
    elif limit.state == "rare":
        notes.say("sowing.cold_rare", temp=as_temp(temp_f), x=ask.springs)
    elif limit.day is not None:
        key = "sowing.first_freeze" if half == "fall" else "sowing.cold_limit"
        seasons = "falls_in_ten" if half == "fall" else "springs_in_ten"
        inputs: dict[str, Value] = {"threshold": as_temp(temp_f), seasons: ask.springs, "year": year}
        notes.step(key, "date at this risk", inputs, limit.day, ask.freeze_source)
    return limit
