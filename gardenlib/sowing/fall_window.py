"""The fall window: the published weeks before the first freeze, up to the safe date."""

from __future__ import annotations

from datetime import date, timedelta

from gardenlib.problems import InputProblem
from gardenlib.sowing.ask import Ask, Window, as_temp
from gardenlib.sowing.count_back import SLOWER_DAYS, count_back, days_needed
from gardenlib.sowing.limits import cold_row, freeze_limit
from gardenlib.sowing.published import ANCHOR_F, ANCHOR_RISK
from gardenlib.sowing.windows import SINGLE_DAY_WINDOW_DAYS, Days, Path, days_of_weeks, later
from gardenlib.units import Quantity, Range
from gardenlib.words import Said
from gardenlib.working import Notes, Value


def fall_window(ask: Ask, path: Path, notes: Notes) -> Window:
    """Work out the window of a crop before the first freeze of fall.

    It opens with the published weeks and closes on the safe date, counted from the average first freeze or from the
    day on which the garden closes.  Where the safe date comes before the published weeks, their length is moved to
    end on it.  It never opens before the garden does or while spring nights can still hurt the crop.
    """
    freeze = freeze_limit(ask.freezes, "fall", ANCHOR_F, ANCHOR_RISK, year=ask.year)
    if freeze.state != "date" or freeze.day is None:
        key = {"rare": "fall.no_freeze_here", "every_month": "sowing.freeze_every_month"}.get(freeze.state)
        return Window(reason=Said(key or "fall.freeze_unknown", {"temp": as_temp(ANCHOR_F)}))
    asked: dict[str, Value] = {"threshold": as_temp(ANCHOR_F), "falls_in_ten": ANCHOR_RISK * 10, "year": ask.year}
    notes.step(
        "fall.first_freeze", "date with a freeze behind in half of all falls", asked, freeze.day, ask.freeze_source
    )
    notes.say("fall.average_freeze", date=freeze.day)
    end = freeze.day
    if ask.garden_closes is not None and ask.garden_closes < end:
        end = ask.garden_closes
        notes.say("fall.garden_closes", date=end)
    try:
        safe = count_back(ask.plant, end, "safe", "bought", slower=SLOWER_DAYS, notes=notes, path=path).planted
        days = days_needed(ask.plant, path, notes).typical
    except InputProblem as problem:
        return Window(reason=problem.said)
    published = _published(ask, freeze.day, notes)
    kept = published if published is not None and published[0] <= safe else None
    opens, closes = _up_to(published, safe, notes)
    starts: dict[str, Value] = {"weeks_before_freeze" if kept else "safe_less_length": opens}
    for name, day in _earliest(ask, path, notes).items():
        starts[name], opens = day, max(opens, day)
    if opens > closes:
        short = (opens - closes).days
        reason = Said("fall.too_short", {"crop": ask.plant.name, "n": short})
        return Window(published=published, short_by_days=short, reason=reason)
    notes.step(path.opens_key, f"latest of {', '.join(starts)}", starts, opens, "common_practice")
    lasts: dict[str, Value] = {"published_end": kept[1], "safe": safe} if kept else {"safe": safe}
    notes.step(path.closes_key, f"earlier of {', '.join(lasts)}", lasts, closes, "common_practice")
    taken = Range(days.low + SLOWER_DAYS, days.high + SLOWER_DAYS, "days")
    return Window(days=(opens, closes), days_to_harvest=taken, published=published)


def _published(ask: Ask, freeze: date, notes: Notes) -> Days | None:
    weeks = ask.plant.fall_wk
    if weeks is None:
        notes.say("fall.no_weeks", crop=ask.plant.name)
        return None
    notes.say("fall.weeks", *weeks.sources, n=len(weeks.sources))
    if weeks.status == "memory":
        notes.say("sowing.weeks_unchecked", crop=ask.plant.name)
    low, high = weeks.typical.low, weeks.typical.high
    days = later(freeze, days_of_weeks(low)), later(freeze, days_of_weeks(high))
    for key, name, count, day in (
        ("fall.published_opens", "weeks_low", low, days[0]),
        ("fall.published_closes", "weeks_high", high, days[1]),
    ):
        inputs: dict[str, Value] = {"first_freeze": freeze, name: Quantity(count, "weeks")}
        notes.step(key, f"first_freeze + {name} * 7", inputs, day, weeks.sources[0])
    return days


def _up_to(published: Days | None, safe: date, notes: Notes) -> Days:
    if published is not None and published[0] <= safe:
        return published[0], min(published[1], safe)
    length = SINGLE_DAY_WINDOW_DAYS if published is None else (published[1] - published[0]).days
    length = length or SINGLE_DAY_WINDOW_DAYS
    notes.say("fall.moved", "common_practice", days=Quantity(length, "days"))
    return safe - timedelta(days=length), safe


def _earliest(ask: Ask, path: Path, notes: Notes) -> dict[str, date]:
    """Give the days of the garden's opening and of the last harmful spring night, where they are known."""
    row = cold_row(ask.plant, hardened=ask.hardened or path.name == "direct_sow")
    cold = freeze_limit(ask.freezes, "spring", row.temp_f, ask.risk, year=ask.year)
    notes.cite(*row.sources)
    starts = {"spring_cold": cold.day, "garden_opens": ask.garden_opens}
    return {name: day for name, day in starts.items() if day is not None}
