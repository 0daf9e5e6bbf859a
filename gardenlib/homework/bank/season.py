"""Page 07: what past springs say of a plan, and what the log says of a season."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from gardenlib.homework.bank.by_hand import in_class, told_apart, with_steps
from gardenlib.homework.bank.choose import drawn_answer, garden_opens, steps_of
from gardenlib.homework.bank.sowing import dates_here
from gardenlib.homework.skill import Skill, Slip, Task
from gardenlib.plot import LogEntry, Planting
from gardenlib.season import (
    PastWeather,
    PlannedDays,
    picked_and_given,
    plan_dates,
    planned_and_real,
    replay_counts,
    replay_planned,
)
from gardenlib.sowing import week_of
from gardenlib.units import KG_PER_POUND, Quantity
from gardenlib.words import Said
from gardenlib.working import COMMON_PRACTICE, Answer, Notes

if TYPE_CHECKING:
    import pandas as pd

    from gardenlib.homework.ground import Ground
    from gardenlib.season import PickedAndGiven, PlannedAndReal, PlannedPlanting
    from gardenlib.site import Place
    from gardenlib.sowing import SowingDates
    from gardenlib.tables import Crop
    from gardenlib.units import Range
    from gardenlib.working import Value

RISKS = (0.5, 0.3, 0.1)
RECENT, TOO_RECENT = 15, 10
LATE_DAYS = (3, 4, 5, 6, 8, 9, 11)
WEIGHTS = (0.5, 1.0, 1.5, 2.0, 2.5, 3.0)
PICKED_ON = (1, 4, 6, 8, 11)
"""Days after a Monday: three in one week, the last of them its Sunday, and two in the next."""
GIVEN_ON, GIVEN = 5, (0.5, 1.0)
_ID = "p1"


# ---- past springs ---------------------------------------------------------------------------------


def _replay(ground: Ground) -> Task:
    weather = _weather(ground.place)
    options = [(crop, risk) for crop in ground.crops for risk in RISKS]
    (crop, _), (one, table) = drawn_answer(ground, "replay", options, lambda option: _replayed(ground, option, weather))
    found = replay_counts(table, (one,), planting=_ID, last=RECENT)
    worked, last = steps_of(found, "replay.worked", "replay.last")
    steps = (
        replace(worked, key="homework_season.worked", expression="seasons - hurt - late"),
        replace(last, key="homework_season.last", expression="full dots among the last seasons"),
    )
    fewer = replay_counts(table, (one,), planting=_ID, last=TOO_RECENT)
    foreseen = (
        Slip("rings", found.hurt, Said("homework_season.rings"), "07.replay", 0),
        Slip("all", found.worked, Said("homework_season.all"), "07.replay"),
        Slip("ten", fewer.last_worked, Said("homework_season.ten"), "07.replay"),
    )
    return Task(
        ask=Said(
            "homework_season.replay_ask",
            {"crop": crop.name, "day": one.planted_on, "n": found.seasons, "last": found.last_seasons},
        ),
        answer=with_steps(found, steps),
        steps=steps,
        slips=told_apart(steps, foreseen, ground.voice),
        drawing=lambda: _seasons(ground, crop, table),
        alt=Said("homework_season.replay_alt", {"n": found.seasons}),
    )


@lru_cache(maxsize=4)
def _laid_out(station: Any, latitude: float, night_offset_c: float) -> PastWeather:
    return PastWeather.of(station, latitude=latitude, offset_c=night_offset_c)


def _weather(place: Place) -> PastWeather:
    return _laid_out(place.station, place.latitude, place.night_offset_c)


def _replayed(
    ground: Ground, option: tuple[Crop, float], weather: PastWeather
) -> tuple[PlannedPlanting, pd.DataFrame] | None:
    """Replay a planting that worked in some springs, and where each other spring failed for one reason."""
    (crop, risk), freezes = option, ground.place.freezes
    if freezes is None:
        return None
    plot = ground.plot.model_copy(update={"plantings": (Planting(id=_ID, crop=crop.id, risk=risk),)})
    planned = plan_dates(
        plot,
        freezes,
        year=ground.year,
        warmth=weather.warmth,
        crops={crop.id: crop},
        region=ground.klass.region,
        garden_opens=garden_opens(ground),
    )
    table = replay_planned(planned, weather, year=ground.year)
    found = replay_counts(table, planned, planting=_ID)
    some, once = 0 < found.worked < found.seasons, found.worked + found.hurt + found.late == found.seasons
    return (planned[0], table) if some and once else None


def _seasons(ground: Ground, crop: Crop, table: pd.DataFrame) -> str:
    """Draw each past spring as a mark."""
    from gardenlib import charts
    from gardenlib.charts.replay import SORTS, Run, past_seasons

    columns = (table[name].to_numpy() for name in ("year", "worked", "cold_nights"))
    went = {
        int(year): "worked" if worked else "hurt" if cold > 0 else "late"
        for year, worked, cold in zip(*columns, strict=True)
    }
    voice = ground.voice
    words = {sort: voice.say(f"replay.key_{sort}") for sort in SORTS}
    return charts.svg(past_seasons([Run(voice.value(crop.name), went)], words=words, voice=voice))


# ---- planned and real -----------------------------------------------------------------------------


def _days(ground: Ground) -> Task:
    crop, (dates, typical) = drawn_answer(ground, "days", ground.crops, lambda crop: _dated(ground, crop))
    as_plants = dates.set_out is not None
    window = dates.set_out or dates.direct_sow
    assert window is not None  # noqa: S101  (only crops with a window are asked about)
    plan = PlannedDays(planting=_ID, crop=crop, how="set_out" if as_plants else "direct_sow", days=window)
    went_in = window[1] + timedelta(days=ground.draw("days_late", LATE_DAYS))
    picked = went_in + timedelta(days=ground.draw("days_real", range(int(typical.low), int(typical.high) + 1)))
    found = _logged(plan, went_in, picked)
    row, notes = found.rows[0], Notes([], [*found.assumptions], [*found.sources])
    off: dict[str, Value] = {"went_in": went_in, "last_planned": window[1]}
    notes.step(
        "homework_season.off", "went_in - last_planned", off, Quantity(row.days_off or 0, "days"), COMMON_PRACTICE
    )
    notes.steps.extend(steps_of(found, "log.own_days"))
    answer = Answer(**notes.parts())
    from_plan, day_more = _own(plan, window[1], picked), _own(plan, went_in, picked + timedelta(days=1))
    foreseen = [
        Slip("from_first", _off(plan, went_in, picked, window[0]), Said("homework_season.from_first"), "07.log", 0),
        Slip("from_plan", from_plan, Said("homework_season.from_plan"), "07.log"),
        Slip("both_ends", day_more, Said("homework_season.both_ends"), "07.log"),
    ]
    if as_plants and dates.sow_indoors:
        indoors = _own(plan, dates.sow_indoors[0], picked)
        foreseen.append(Slip("from_indoors", indoors, Said("homework_season.from_indoors"), "07.log"))
    how = Said("homework_season.set_out" if as_plants else "homework_season.sow")
    return Task(
        ask=Said(
            "homework_season.days_ask",
            {
                "crop": crop.name,
                "how": how,
                "first": window[0],
                "last": window[1],
                "went_in": went_in,
                "picked": picked,
            },
        ),
        answer=answer,
        steps=answer.steps,
        slips=told_apart(answer.steps, foreseen, ground.voice),
    )


def _dated(ground: Ground, crop: Crop) -> tuple[SowingDates, Range] | None:
    """Give a crop's dates, and the published days from going into the bed to the first picking."""
    dates = dates_here(ground, crop)
    days = crop.days_from_transplant if dates.set_out else crop.days_from_seed
    return (dates, days.typical) if days is not None and (dates.set_out or dates.direct_sow) else None


def _logged(plan: PlannedDays, went_in: date, picked: date) -> PlannedAndReal:
    """Keep a log of two lines and set it beside the plan."""
    log = [
        LogEntry(day=went_in, did="set_out" if plan.how == "set_out" else "sown", planting=plan.planting),
        LogEntry(day=picked, did="picked", planting=plan.planting),
    ]
    return planned_and_real(log, [plan], first=went_in, last=picked, today=picked)


def _own(plan: PlannedDays, went_in: date, picked: date) -> Quantity:
    return Quantity(_logged(plan, went_in, picked).rows[0].own_days or 0, "days")


def _off(plan: PlannedDays, went_in: date, picked: date, planned: date) -> Quantity:
    """Give the days off a plan for one day alone."""
    one_day = replace(plan, days=(planned, planned))
    return Quantity(_logged(one_day, went_in, picked).rows[0].days_off or 0, "days")


# ---- pounds by the week ---------------------------------------------------------------------------


def _weeks(ground: Ground) -> Task:
    crop, first = drawn_answer(ground, "weeks", ground.crops, lambda crop: _picked_from(ground, crop))
    monday = week_of(first)
    by = in_class(ground.voice, KG_PER_POUND, 1.0)
    weights = [ground.draw(f"weeks_{day}", WEIGHTS) * by for day in PICKED_ON]
    given = ground.draw("weeks_given", GIVEN) * by
    days = [monday + timedelta(days=day) for day in PICKED_ON]
    log = [LogEntry(day=day, did="picked", crop=crop.id, amount_kg=kg) for day, kg in zip(days, weights, strict=True)]
    gift = LogEntry(day=monday + timedelta(days=GIVEN_ON), did="given", crop=crop.id, amount_kg=given)
    found = _summed([*log, gift])
    by_week = [Quantity(kg, "kg") for kg in found.by("week")["picked_kg"]]
    told, notes = [Quantity(kg, "kg") for kg in weights], Notes([], [*found.assumptions], [*found.sources])
    week_1: dict[str, Value] = dict(zip(("first", "second", "third"), told, strict=False))
    week_2: dict[str, Value] = dict(zip(("fourth", "fifth"), told[3:], strict=True))
    notes.step("homework_season.week", "first + second + third", week_1, by_week[0], COMMON_PRACTICE)
    notes.step("homework_season.week", "fourth + fifth", week_2, by_week[1], COMMON_PRACTICE)
    weeks: dict[str, Value] = {"week_1": by_week[0], "week_2": by_week[1]}
    notes.step("homework_season.both", "week_1 + week_2", weeks, Quantity(found.picked_kg, "kg"), COMMON_PRACTICE)
    answer = Answer(**notes.parts())
    sunday = _summed([*log[:2], log[2].model_copy(update={"day": days[2] + timedelta(days=1)}), *log[3:]])
    twice = _summed([*log, gift.model_copy(update={"did": "picked"})])
    sunday_week = Quantity(float(sunday.by("week")["picked_kg"].iloc[0]), "kg")
    foreseen = (
        Slip("sunday", sunday_week, Said("homework_season.sunday"), "07.log", 0),
        Slip("gift_added", Quantity(twice.picked_kg, "kg"), Said("homework_season.gift_added"), "07.log"),
        Slip("one_week", by_week[1], Said("homework_season.one_week"), "07.log"),
    )
    said: dict[str, Any] = {"crop": crop.name, "monday": monday, "gift": Quantity(given, "kg"), "given_on": gift.day}
    said |= {f"day_{n}": day for n, day in enumerate(days, 1)} | {f"kg_{n}": kg for n, kg in enumerate(told, 1)}
    return Task(
        ask=Said("homework_season.weeks_ask", said),
        answer=answer,
        steps=answer.steps,
        slips=told_apart(answer.steps, foreseen, ground.voice),
    )


def _picked_from(ground: Ground, crop: Crop) -> date | None:
    harvest = dates_here(ground, crop).harvest
    return None if harvest is None else harvest[0]


def _summed(log: Sequence[LogEntry]) -> PickedAndGiven:
    days = [entry.day for entry in log]
    return picked_and_given(log, first=min(days), last=max(days), today=max(days))


SKILLS = (
    Skill("07.replay", "07_season_plan", Said("homework_season.replay_title"), "07.replay", _replay),
    Skill("07.days", "07_season_plan", Said("homework_season.days_title"), "07.log", _days),
    Skill("07.weeks", "07_season_plan", Said("homework_season.weeks_title"), "07.log", _weeks),
)
