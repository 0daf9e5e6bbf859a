"""The spring window: the published weeks and the cold limit, never multiplied, made one."""

from __future__ import annotations

from datetime import date, timedelta

from gardenlib.sowing.ask import Ask, Window, as_temp, days_to_harvest, last_useful_day
from gardenlib.sowing.limits import TENDER, cold_row, freeze_limit, full_grown_temp_f
from gardenlib.sowing.published import published_days, say_weeks
from gardenlib.sowing.warm import heat_date, warm_opening
from gardenlib.sowing.windows import DIRECT, SINGLE_DAY_WINDOW_DAYS, Days, Path, weeks_for
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import Notes, Value


def spring_window(ask: Ask, path: Path, notes: Notes) -> Window:
    """Work out the one window of a crop in spring.

    It opens at the later of the published weeks and the cold limit, never before the garden opens.  It closes at the
    end of the published weeks, or on the last day from which the quickest plants are ready before the heat, the first
    freeze of fall or the day on which the garden closes.  Where the cold limit alone is later than the published end,
    the published length is moved to it.
    """
    weeks = weeks_for(ask.plant, path, ask.region)
    say_weeks(ask, weeks, notes)
    published, no_anchor = published_days(ask, weeks, notes)
    limit, cold, every_month = _cold(ask, path, notes)
    warm: date | None = None
    if every_month:
        return Window(published=published, reason=every_month)
    length = timedelta(days=weeks.length_days if weeks else SINGLE_DAY_WINDOW_DAYS)
    if published is not None:
        window = _later_of(published, cold, length, notes)
    else:
        warm, not_warm = warm_opening(ask, notes)
        starts = [day for day in (cold, warm) if day is not None]
        if not starts:
            return Window(reason=not_warm or no_anchor)
        if no_anchor is not None:
            notes.say(no_anchor.key, **no_anchor.values)
        window = max(starts), max(starts) + length
    single = weeks is None or weeks.single_day
    if ask.garden_opens is not None and ask.garden_opens > window[0]:
        notes.say("sowing.garden_opens", date=ask.garden_opens)
        window = ask.garden_opens, ask.garden_opens + length if single or published is None else window[1]
    if single and published is not None:
        window = window[0], window[0] + length
        notes.say("sowing.single_day", "common_practice")
    heat, ends = _ends(ask, notes)
    opens, closes, why = *window, "sowing.short_of_opening"
    if published is None and ends:
        closes = max(closes, min(ends.values()))
    ending_days: dict[str, Value] = {"window_end": closes}
    days = days_to_harvest(ask, path, notes)
    taken = None if days is None else days.typical
    if days is not None and ends:
        ending = min(ends, key=lambda key: ends[key])
        useful, taken = last_useful_day(ask, opens, ends[ending], days, notes)
        ending_days["last_useful"] = useful
        if useful < closes:
            closes, why = useful, ending
    if opens > closes:
        short = (opens - closes).days
        return Window(
            published=published,
            cold_limit=limit,
            heat_date=heat,
            short_by_days=short,
            reason=Said(why, {"crop": ask.plant.name, "n": short}),
        )
    parts: dict[str, Value] = {
        "published_opens": published and published[0],
        "after_cold": cold,
        "warm_enough": warm,
        "garden_opens": ask.garden_opens,
    }
    given = {name: day for name, day in parts.items() if day is not None}
    notes.step(path.opens_key, f"latest of {', '.join(given)}", given, opens, "common_practice")
    notes.step(path.closes_key, f"earlier of {', '.join(ending_days)}", ending_days, closes, "common_practice")
    return Window(days=(opens, closes), days_to_harvest=taken, published=published, cold_limit=limit, heat_date=heat)


def _cold(ask: Ask, path: Path, notes: Notes) -> tuple[date | None, date | None, Said | None]:
    """Give the limit, the day from which planting respects it, and the reason why no day does."""
    plant, outdoors = ask.plant, path is DIRECT
    row = cold_row(plant, hardened=ask.hardened or outdoors)
    temp = as_temp(row.temp_f)
    notes.say("sowing.cold_temp", *row.sources, crop=plant.name, temp=temp, x=ask.springs)
    if not (ask.hardened or outdoors):
        notes.say("sowing.not_hardened", "common_practice")
    limit = freeze_limit(ask.freezes, "spring", row.temp_f, ask.risk, year=ask.year)
    if limit.state == "every_month":
        return None, None, Said("sowing.cold_every_month", {"crop": plant.name, "temp": temp})
    if limit.state in ("unknown", "at_least"):
        notes.say("sowing.cold_unknown", temp=temp, x=ask.springs)
        if plant.hardiness in TENDER:
            notes.say("sowing.wait_or_cover", "common_practice")
    if limit.state == "rare":
        notes.say("sowing.cold_rare", temp=temp, x=ask.springs)
    if limit.day is None:
        return None, None, None
    inputs: dict[str, Value] = {
        "threshold": as_temp(limit.read_f),
        "springs_in_ten": limit.read_risk * 10,
        "year": ask.year,
    }
    notes.step(
        "sowing.cold_limit", "date after which such a night comes this seldom", inputs, limit.day, ask.freeze_source
    )
    if not outdoors:
        return limit.day, limit.day, None
    return limit.day, _before_emergence(ask, limit.day, notes), None


def _before_emergence(ask: Ask, limit: date, notes: Notes) -> date:
    plant = ask.plant
    if plant.hardiness in TENDER:
        notes.say("sowing.tender_seed_waits")
        return limit
    if plant.emergence_days is None:
        notes.say("sowing.emergence_unknown", crop=plant.name)
        return limit
    days = plant.emergence_days
    notes.say("sowing.emergence", *plant.emergence_sources, days=Quantity(days, "days"), temp=as_temp(50))
    sow = limit - timedelta(days=days)
    notes.step(
        "sowing.before_emergence",
        "cold_limit - days_to_emerge",
        {"cold_limit": limit, "days_to_emerge": Quantity(days, "days")},
        sow,
        plant.emergence_sources[0],
    )
    return sow


def _later_of(published: Days, cold: date | None, length: timedelta, notes: Notes) -> Days:
    opens, closes = published
    if cold is None or cold <= opens:
        return published
    if cold < closes:
        return cold, closes
    notes.say("sowing.moved", "common_practice")
    notes.step(
        "sowing.moved_closes",
        "cold_limit + length",
        {"cold_limit": cold, "length": Quantity(length.days, "days")},
        cold + length,
        "common_practice",
    )
    return cold, cold + length


def _ends(ask: Ask, notes: Notes) -> tuple[date | None, dict[str, date]]:
    temp_f = full_grown_temp_f(ask.plant)
    fall = freeze_limit(ask.freezes, "fall", temp_f, ask.risk, year=ask.year)
    ends: dict[str, date] = {}
    if fall.day is not None:
        ends["sowing.short_of_freeze"] = fall.day
        notes.step(
            "sowing.first_freeze",
            "date before which such a night comes this seldom",
            {"threshold": as_temp(fall.read_f), "falls_in_ten": fall.read_risk * 10, "year": ask.year},
            fall.day,
            ask.freeze_source,
        )
    if ask.garden_closes is not None:
        ends["sowing.short_of_closing"] = ask.garden_closes
    heat = heat_date(ask, notes)
    if heat is not None:
        ends["sowing.short_of_heat"] = heat
    return heat, ends
