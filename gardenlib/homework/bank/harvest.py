"""Page 06: what a row gives, plants for a household, and how long a harvest keeps."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from gardenlib.harvest import days_left, expected_yield, plants_for_household, storage_life
from gardenlib.homework.bank.by_hand import as_printed, in_class, told_apart, with_steps
from gardenlib.homework.bank.choose import drawn_answer, steps_of
from gardenlib.homework.bank.sowing import dates_here
from gardenlib.homework.skill import Skill, Slip, Task
from gardenlib.sowing import days_of_weeks
from gardenlib.sowing.windows import later
from gardenlib.units import M_PER_FOOT, Quantity, Range
from gardenlib.words import Said
from gardenlib.working import COMMON_PRACTICE, Answer, Notes

if TYPE_CHECKING:
    from datetime import date

    from gardenlib.harvest import ExpectedYield, HouseholdPlants, StorageLife
    from gardenlib.harvest.keeping_rows import Point
    from gardenlib.homework.ground import Ground
    from gardenlib.tables import Crop
    from gardenlib.words import Voice
    from gardenlib.working import Step, Value

ROWS_FT = (10, 15, 20, 25, 30, 40)
ROWS_M = (3, 4, 5, 6, 8, 10)
PRINTED_FT = 100
MOST_STEPS = 6
READ_AS = 0.007
"""Three figures so near to what they are come to a product within 2 %."""
PEOPLE, WEEKS, SERVINGS = (2, 3, 4, 5), (6, 8, 10, 12, 16), (1, 2, 3)
FRIDGE_C = Range(3.0, 5.0, "degC")
"""Home fridges by a thermometer; common practice, no source."""
MOST_WARM_DAYS = 5
_ROW = ("much.row", "much.all", "much.edible")


# ---- what a row gives -----------------------------------------------------------------------------


def _row(ground: Ground) -> Task:
    voice = ground.voice
    row_m = in_class(voice, ground.draw("row_ft", ROWS_FT) * M_PER_FOOT, float(ground.draw("row_m", ROWS_M)))
    crop, (found, steps) = drawn_answer(ground, "row", ground.crops, lambda crop: _from_row(crop, row_m, voice))
    printed_m = PRINTED_FT * M_PER_FOOT
    foreseen = (
        Slip("not_trimmed", found.kg, Said("homework_harvest.not_trimmed"), "06.much"),
        Slip(
            "as_printed",
            expected_yield(crop, row_m=printed_m).edible_kg,
            Said("homework_harvest.as_printed"),
            "06.much",
        ),
        Slip(
            "per_foot",
            expected_yield(crop, row_m=row_m * PRINTED_FT).edible_kg,
            Said("homework_harvest.per_foot"),
            "06.much",
        ),
    )
    return Task(
        ask=Said(
            "homework_harvest.row_ask",
            {
                "crop": crop.name,
                "row": Quantity(row_m, "m"),
                "figures": "; ".join(_figures(steps, voice)),
                "part": steps[-1].inputs["edible_part"],
            },
        ),
        answer=with_steps(found, steps),
        steps=steps,
        slips=told_apart(steps, foreseen, voice),
    )


def _from_row(crop: Crop, row_m: float, voice: Voice) -> tuple[ExpectedYield, tuple[Step, ...]] | None:
    """Give a crop's yield from a row and the steps to what is eaten, those that read alike once."""
    found = expected_yield(crop, row_m=row_m)
    told: dict[tuple[str, ...], Step] = {}
    for step in found.steps:
        if step.key in {"much.cups", "much.leafy"}:
            continue
        if step.key not in _ROW:
            return None
        shown = replace(step, inputs={}) if step.key == "much.all" else step
        told.setdefault((shown.key, *(voice.value(value) for value in shown.inputs.values())), shown)
    steps = tuple(told.values())
    fits = 2 <= len(steps) <= MOST_STEPS and steps[-1].key == "much.edible"
    rows = (value for step in steps if step.key == "much.row" for value in step.inputs.values())
    sure = fits and found.is_sure and not any(_crumbs(step.result) for step in steps)
    return (found, steps) if sure and all(_reads_true(value, voice) for value in rows) else None


def _crumbs(value: Value) -> bool:
    """Tell whether the ends of a range differ by the crumbs of a conversion alone: it reads as one figure."""
    return isinstance(value, Range) and value.low != value.high and math.isclose(value.low, value.high)


def _reads_true(value: Value, voice: Voice) -> bool:
    """Tell whether a figure, as it is printed, is so near to itself that one can go on with it."""
    if not isinstance(value, Quantity | Range):
        return True
    ends = (value.value,) if isinstance(value, Quantity) else (value.low, value.high)
    return all(math.isclose(end, as_printed(end, value.unit, voice), rel_tol=READ_AS) for end in ends)


def _figures(steps: tuple[Step, ...], voice: Voice) -> list[str]:
    """Say what the books print, one figure after the other."""
    rows = [step.inputs for step in steps if step.key == "much.row"]
    return [voice.say("homework_harvest.figure", printed=given["printed"], row=given["for_each"]) for given in rows]


# ---- plants for the people at the table -----------------------------------------------------------


def _household(ground: Ground) -> Task:
    people, weeks, each = (
        ground.draw(f"household_{name}", values)
        for name, values in (("people", PEOPLE), ("weeks", WEEKS), ("servings", SERVINGS))
    )
    crop, found = drawn_answer(ground, "household", ground.crops, lambda crop: _fed(crop, people, weeks, each))
    steps = steps_of(found, "need.servings", "need.plants")
    whole = Range(found.need_servings, found.need_servings, "plants")
    foreseen = (
        Slip(
            "one_person",
            plants_for_household(crop, 1, weeks, each).plants,
            Said("homework_harvest.one_person"),
            "06.much",
        ),
        Slip(
            "one_week", plants_for_household(crop, people, 1, each).plants, Said("homework_harvest.one_week"), "06.much"
        ),
        Slip(
            "best_only",
            Range(found.plants.low, found.plants.low, "plants"),
            Said("homework_harvest.best_only"),
            "06.much",
        ),
        Slip("one_each", whole, Said("homework_harvest.one_each"), "06.much"),
    )
    return Task(
        ask=Said(
            "homework_harvest.household_ask",
            {
                "crop": crop.name,
                "people": people,
                "weeks": Quantity(weeks, "weeks"),
                "each": Quantity(each, "servings"),
                "one": found.one_plant,
            },
        ),
        answer=with_steps(found, steps),
        steps=steps,
        slips=told_apart(steps, foreseen, ground.voice),
    )


def _fed(crop: Crop, people: int, weeks: int, each: int) -> HouseholdPlants | None:
    """Give the plants for a household, where the yield as it is printed leads to the same number of them."""
    found = plants_for_household(crop, people, weeks, each)
    if not found.is_sure or found.one_plant.low < 1:
        return None
    ends = ((found.one_plant.high, found.plants.low), (found.one_plant.low, found.plants.high))
    alike = all(math.ceil(found.need_servings / round(one, 1)) == plants for one, plants in ends)
    return found if alike else None


# ---- how long it keeps ----------------------------------------------------------------------------


def _two_places(ground: Ground) -> Task:
    crop, (warm, cold) = drawn_answer(ground, "two_places", ground.crops, lambda crop: _two_points(ground, crop))
    spent = ground.draw("two_places_days", range(1, min(int(warm.low_days) - 1, MOST_WARM_DAYS) + 1))
    there, here = storage_life(crop, warm.temp_c), storage_life(crop, cold.temp_c)
    past = [(warm.temp_c, spent)]
    left_there, left_here = days_left(crop, warm.temp_c, past), days_left(crop, cold.temp_c, past)
    notes = Notes([*steps_of(there, "keep.printed"), *steps_of(here, "keep.printed")], [], [*there.sources])
    notes.say("twoplaces.shares")
    stay: dict[str, Value] = {"life_there": there.days, "days_there": Quantity(spent, "days")}
    notes.step("homework_harvest.left_there", "life_there - days_there", stay, left_there, COMMON_PRACTICE)
    share: dict[str, Value] = {"left_there": left_there, "life_there": there.days, "life_here": here.days}
    how = "left_there / life_there * life_here, end by end"
    notes.step("homework_harvest.left_here", how, share, left_here, COMMON_PRACTICE)
    answer = Answer(**notes.parts())
    plain = days_left(crop, cold.temp_c, [(cold.temp_c, spent)])
    foreseen = (
        Slip("days_for_share", plain, Said("homework_harvest.days_for_share"), "06.twoplaces"),
        Slip("new_again", here.days, Said("homework_harvest.new_again"), "06.twoplaces"),
        Slip("still_warm", left_there, Said("homework_harvest.still_warm"), "06.twoplaces"),
    )
    return Task(
        ask=Said(
            "homework_harvest.two_places_ask",
            {
                "crop": crop.name,
                "spent": Quantity(spent, "days"),
                "warm": Quantity(warm.temp_c, "degC"),
                "there": there.days,
                "cold": Quantity(cold.temp_c, "degC"),
                "here": here.days,
            },
        ),
        answer=answer,
        steps=answer.steps,
        slips=told_apart(answer.steps, foreseen, ground.voice),
        places=0,
        caution=Said("keep.caution"),
    )


def _printed(crop: Crop) -> list[Point]:
    """List what the crop's first source prints in whole days, the coldest place first."""
    from gardenlib.harvest.keeping_rows import series_of

    points = [point for series in series_of(crop.id)[:1] for point in series.points]
    return [point for point in points if float(point.low_days).is_integer() and float(point.high_days).is_integer()]


def _two_points(ground: Ground, crop: Crop) -> tuple[Point, Point] | None:
    """Give a warm and a colder place in which the crop stays good longer."""
    points = _printed(crop)
    pairs = [
        (warm, cold)
        for cold in points
        for warm in points
        if cold.temp_c < warm.temp_c and cold.low_days > warm.low_days > 1
    ]
    return ground.draw("two_places_pair", pairs) if pairs else None


def _weeks(ground: Ground) -> Task:
    crop, (life, picked) = drawn_answer(ground, "weeks", ground.crops, lambda crop: _in_fridge(ground, crop))
    until, notes = later(picked, days_of_weeks(life.whole_weeks)), Notes()
    notes.steps.extend(steps_of(life, "keep.printed"))
    notes.assumptions.extend(life.assumptions)
    notes.cite(*life.sources)
    shortest: dict[str, Value] = {"shortest": Quantity(life.days.low, "days")}
    notes.step("homework_harvest.weeks", "shortest / 7, rounded down", shortest, life.whole_weeks, COMMON_PRACTICE)
    counted: dict[str, Value] = {"picked": picked, "weeks": life.whole_weeks}
    notes.step("homework_harvest.until", "picked + weeks * 7", counted, until, COMMON_PRACTICE)
    answer = Answer(**notes.parts())
    coldest = storage_life(crop, life.published.points[0].temp_c)
    foreseen = (
        Slip("longest", later(picked, life.days.high), Said("homework_harvest.longest"), "06.keep"),
        Slip("days", later(picked, life.whole_weeks), Said("homework_harvest.days_for_weeks"), "06.keep"),
        Slip("cold_store", later(picked, coldest.days.low), Said("homework_harvest.cold_store"), "06.keep"),
    )
    return Task(
        ask=Said(
            "homework_harvest.weeks_ask",
            {"crop": crop.name, "picked": picked, "temp": Quantity(life.temp_c, "degC"), "life": life.days},
        ),
        answer=answer,
        steps=answer.steps,
        slips=told_apart(answer.steps, foreseen, ground.voice),
        caution=Said("keep.caution"),
    )


def _in_fridge(ground: Ground, crop: Crop) -> tuple[StorageLife, date] | None:
    """Give a crop's life at a printed fridge temperature, where it is a week or more, and its first harvest."""
    points = [point for point in _printed(crop) if FRIDGE_C.low <= point.temp_c <= FRIDGE_C.high]
    picked = dates_here(ground, crop).harvest
    if not points or picked is None:
        return None
    life = storage_life(crop, points[0].temp_c)
    return (life, picked[0]) if life.whole_weeks else None


SKILLS = (
    Skill("06.row", "06_harvest_and_storage", Said("homework_harvest.row_title"), "06.much", _row),
    Skill("06.household", "06_harvest_and_storage", Said("homework_harvest.household_title"), "06.much", _household),
    Skill(
        "06.two_places",
        "06_harvest_and_storage",
        Said("homework_harvest.two_places_title"),
        "06.twoplaces",
        _two_places,
    ),
    Skill("06.weeks", "06_harvest_and_storage", Said("homework_harvest.weeks_title"), "06.keep", _weeks),
)
