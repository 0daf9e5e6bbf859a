"""Page 04: when to sow, and how many seeds."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from gardenlib.homework.bank.by_hand import sources_of, told_apart
from gardenlib.homework.bank.choose import (
    amount,
    drawn_answer,
    garden_opens,
    middle_freeze,
    steps_of,
    whole_days,
)
from gardenlib.homework.bank.season_drawing import season_drawing
from gardenlib.homework.skill import Skill, Slip, Task
from gardenlib.problems import InputProblem
from gardenlib.sowing import (
    days_of_weeks,
    has_seed,
    latest_sowing,
    seed_plan,
    sowing_dates,
    sowings_between,
)
from gardenlib.sowing.coming_short import simple_sowing
from gardenlib.sowing.windows import later
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import COMMON_PRACTICE, Answer, Notes

if TYPE_CHECKING:
    from datetime import date

    from gardenlib.homework.ground import Ground
    from gardenlib.sowing import LatestSowing, SowingDates
    from gardenlib.tables import Crop
    from gardenlib.units import Range
    from gardenlib.working import Step, Value

MONTH_WEEKS = 4
PLANTS = (6, 8, 10, 12, 15, 18, 20, 24)
SPROUTED = ((7, 10), (8, 10), (9, 10), (15, 20), (17, 20), (18, 20))
LOST = (0.1, 0.2, 0.25)
WEEKS_APART = (1, 2, 3, 4)
SOWINGS = range(3, 6)
_BEARING = frozenset(
    f"sowing.{name}"
    for name in ("weeks_typical", "weeks_unchecked", "cold_temp", "weeks_indoor", "weeks_indoor_unchecked")
)
"""What a reader who counts back from the freeze takes for granted; heat and harvest are not asked about."""
_INDOORS = ("sowing.published_opens", "sowing.set_out_opens", "sowing.sow_indoors_first")


def dates_here(ground: Ground, crop: Crop) -> SowingDates:
    """Work out a crop's dates as the calendar page does."""
    freezes = ground.place.freezes
    if freezes is None:
        raise InputProblem("homework_skills.no_freeze")
    return sowing_dates(
        crop,
        freezes,
        year=ground.year,
        warmth=ground.place.warmth,
        garden_opens=garden_opens(ground),
        region=ground.klass.region,
    )


# ---- the day to sow indoors -----------------------------------------------------------------------


def _indoors(ground: Ground) -> Task:
    last = middle_freeze(ground, "spring")
    crop, (found, span) = drawn_answer(ground, "indoors", ground.crops, lambda crop: _raised(ground, crop))
    assert found.set_out is not None  # noqa: S101  (else nothing is sown indoors)
    out, (opens, waits, indoors) = found.set_out[0], steps_of(found, *_INDOORS)
    weeks, most = amount(opens, "weeks_low"), days_of_weeks(amount(indoors, "weeks_indoors"))
    first = later(last, days_of_weeks(weeks))
    whole = weeks.is_integer()
    steps = (opens, waits, indoors) if whole else (waits, indoors)
    foreseen = [
        Slip("earliest", min(first, out), Said("homework_sowing.earliest"), "04.crop", -2),
        Slip("forward", later(out, most), Said("calendar.check_forward"), "04.crop"),
        Slip("months", later(out, -MONTH_WEEKS * most), Said("calendar.check_months"), "04.crop"),
        Slip("from_freeze", later(last, -most), Said("homework_sowing.from_freeze"), "04.crop"),
        Slip("fewest", later(out, -days_of_weeks(span.low)), Said("homework_sowing.fewest"), "04.crop"),
    ]
    if whole:
        other = later(last, days_of_weeks(-weeks))
        foreseen.append(Slip("other_side", other, Said("homework_sowing.other_side"), "04.crop", 0))
    books = _books(weeks) if whole else Said("homework_sowing.books_day", {"day": first})
    return Task(
        ask=Said(
            "homework_sowing.indoors_ask",
            {"crop": crop.name, "freeze": last, "books": books, "waits": _waits(waits), "span": span},
        ),
        answer=replace(
            found,
            assumptions=tuple(said for said in found.assumptions if said.key in _BEARING),
            sources=tuple(dict.fromkeys((*_freeze_sources(ground), *sources_of(steps)))),
        ),
        steps=steps,
        slips=told_apart(steps, foreseen, ground.voice),
        drawing=lambda: season_drawing(ground, {"homework_sowing.mark_last": last}),
        alt=Said("homework_sowing.season_alt", {"freeze": last}),
    )


def _freeze_sources(ground: Ground) -> tuple[str, ...]:
    """Give the sources of the freeze from which is counted; heat and harvest are not asked about."""
    freezes = ground.place.freezes
    return () if freezes is None else freezes.sources


def _raised(ground: Ground, crop: Crop) -> tuple[SowingDates, Range] | None:
    """Give the dates of a crop that is raised indoors, and how long it stays there."""
    found = dates_here(ground, crop)
    steps = steps_of(found, *_INDOORS)
    if not steps or crop.weeks_indoor is None or not whole_days(amount(steps[2], "weeks_indoors")):
        return None
    return found, crop.weeks_indoor.typical


def _books(weeks: float) -> Said:
    """Say how a count of weeks lies to the last freeze."""
    count = {"weeks": Quantity(abs(weeks), "weeks")}
    if weeks == 0:
        return Said("homework_sowing.books_then")
    return Said("homework_sowing.books_before" if weeks < 0 else "homework_sowing.books_after", count)


def _waits(out: Step) -> Said:
    """Say what else a crop waits for: the cold, the garden, both or nothing."""
    cold, opens = (out.inputs.get(name) for name in ("after_cold", "garden_opens"))
    if cold is None and opens is None:
        return Said("homework_sowing.waits_nothing")
    if cold is None:
        return Said("homework_sowing.waits_garden", {"opens": opens})
    if opens is None:
        return Said("homework_sowing.waits_cold", {"cold": cold})
    return Said("homework_sowing.waits_both", {"cold": cold, "opens": opens})


# ---- the last day to sow for fall -----------------------------------------------------------------


def _fall(ground: Ground) -> Task:
    freeze, last = middle_freeze(ground, "fall"), middle_freeze(ground, "spring")
    crop, found = drawn_answer(ground, "fall", ground.crops, lambda crop: _safe(crop, freeze, last))
    total, *others = _fall_steps(found)
    parts: dict[str, Value] = dict(total.inputs)
    hurried = latest_sowing(crop, freeze, "safe", short_days_days=0)
    gamble, spring = latest_sowing(crop, freeze, "latest"), latest_sowing(crop, last, "safe")
    slips = [
        Slip("not_slower", hurried.date, Said("homework_sowing.not_slower"), "04.fall"),
        Slip("gamble", gamble.date, Said("homework_sowing.gamble"), "04.fall"),
        Slip("spring_freeze", spring.date, Said("homework_sowing.spring_freeze"), "04.fall"),
    ]
    said = {
        "crop": crop.name,
        "freeze": freeze,
        "days": parts["days_to_harvest"],
        "slower": parts["slower_in_fall"],
        "picking": parts["picking"],
        "tender": Said("homework_sowing.fall_tender", {"days": parts["tender"]})
        if "tender" in parts
        else Said("homework_sowing.fall_hardy"),
    }
    if found.set_out is None:
        ask = Said("homework_sowing.fall_ask_seed", said)
    else:
        ask = Said("homework_sowing.fall_ask_plants", {**said, "weeks": others[-1].inputs["weeks_indoors"]})
        slips.append(Slip("no_indoors", found.set_out, Said("homework_sowing.no_indoors"), "04.fall"))
    steps = (total, *others)
    return Task(ask=ask, answer=found, steps=steps, slips=told_apart(steps, slips, ground.voice))


def _safe(crop: Crop, freeze: date, last: date) -> LatestSowing | None:
    """Give the safe day of a crop, where it comes after spring and its weeks indoors are whole days."""
    found = latest_sowing(crop, freeze, "safe")
    steps = _fall_steps(found)
    if not steps or found.date <= last:
        return None
    weeks = amount(steps[-1], "weeks_indoors") if found.set_out is not None else 0.0
    return found if whole_days(weeks) else None


def _fall_steps(found: LatestSowing) -> tuple[Step, ...]:
    if found.set_out is None:
        return steps_of(found, "fall.total_safe", "fall.last_sow")
    return steps_of(found, "fall.total_safe", "fall.last_set_out", "fall.sow_indoors")


# ---- how many seeds -------------------------------------------------------------------------------


def _seeds(ground: Ground) -> Task:
    plants, lost = ground.draw("seeds_plants", PLANTS), ground.draw("seeds_lost", LOST)
    towel = ground.draw("seeds_towel", SPROUTED)
    crop, found = drawn_answer(
        ground,
        "seeds",
        [crop for crop in ground.crops if has_seed(crop)],
        lambda crop: seed_plan(crop, plants, towel_test=towel, field_loss_fraction=lost),
    )
    sprouted, stand = found.germination_fraction, found.stand_fraction
    steps = steps_of(found, "seeds.towel", "seeds.stand", "seeds.average")
    foreseen = (
        Slip("no_loss", simple_sowing(plants, sprouted), Said("homework_sowing.no_loss"), "04.seeds"),
        Slip("all_sprout", simple_sowing(plants, 1 - lost), Said("homework_sowing.all_sprout"), "04.seeds"),
        Slip("one_each", simple_sowing(plants, 1.0), Said("homework_sowing.one_each"), "04.seeds"),
        Slip("lost_for_left", simple_sowing(plants, 1 - stand), Said("homework_sowing.lost_for_left"), "04.seeds"),
    )
    return Task(
        ask=Said(
            "homework_sowing.seeds_ask",
            {
                "crop": crop.name,
                "plants": Quantity(plants, "plants"),
                "sprouted": towel[0],
                "tested": towel[1],
                "lost": Quantity(100 * lost, "percent"),
            },
        ),
        answer=found,
        steps=steps,
        slips=told_apart(steps, foreseen, ground.voice),
    )


# ---- sowing again and again -----------------------------------------------------------------------


def _again(ground: Ground) -> Task:
    crop, (window, weeks) = drawn_answer(ground, "again", ground.crops, lambda crop: _often(ground, crop))
    (first, last), every = window, days_of_weeks(weeks)
    sowings, notes = sowings_between(first, last, every), Notes()
    weeks_apart = Quantity(weeks, "weeks")
    for before, after in pairwise(sowings):
        given: dict[str, Value] = {"sowing": before, "weeks_apart": weeks_apart}
        notes.step("homework_sowing.next", "sowing + weeks_apart * 7", given, after, COMMON_PRACTICE)
    counted = len(sowings)
    notes.step("homework_sowing.count", "first + later", {"first": 1, "later": counted - 1}, counted, COMMON_PRACTICE)
    answer = Answer(**notes.parts())
    too_few = len(sowings_between(sowings[1], last, every))
    too_many = len(sowings_between(first, later(last, every), every))
    return Task(
        ask=Said(
            "homework_sowing.again_ask",
            {"crop": crop.name, "first": first, "last": last, "n": weeks, "weeks": weeks_apart},
        ),
        answer=answer,
        steps=answer.steps,
        slips=(
            Slip("days", later(first, weeks), Said("homework_sowing.days_for_weeks"), "04.even", 0),
            Slip("first_forgotten", too_few, Said("homework_sowing.first_forgotten"), "04.even"),
            Slip("past_the_end", too_many, Said("homework_sowing.past_the_end"), "04.even"),
        ),
    )


def _often(ground: Ground, crop: Crop) -> tuple[tuple[date, date], int] | None:
    """Give a crop's days for sowing in the bed, and weeks apart that fit a few sowings into them."""
    found = dates_here(ground, crop)
    if found.direct_sow is None:
        return None
    first, last = found.direct_sow
    if found.heat_date is None:
        # Heat does not stop it, so it can be sown on until the safe day for fall.
        last = latest_sowing(crop, middle_freeze(ground, "fall"), "safe", started="seed").date
    fit = [weeks for weeks in WEEKS_APART if len(sowings_between(first, last, days_of_weeks(weeks))) in SOWINGS]
    return ((first, last), ground.draw("again_weeks", fit)) if fit else None


SKILLS = (
    Skill("04.indoors", "04_sowing_calendar", Said("homework_sowing.indoors_title"), "04.crop", _indoors),
    Skill("04.fall", "04_sowing_calendar", Said("homework_sowing.fall_title"), "04.fall", _fall),
    Skill("04.seeds", "04_sowing_calendar", Said("homework_sowing.seeds_title"), "04.seeds", _seeds),
    Skill("04.again", "04_sowing_calendar", Said("homework_sowing.again_title"), "04.even", _again),
)
