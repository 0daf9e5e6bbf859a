"""Page 05: degree days, what a look at plants tells, covers, and clubroot's spores."""

from __future__ import annotations

from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, Any

from gardenlib.homework.bank.by_hand import told_apart
from gardenlib.homework.bank.choose import amount, drawn_answer, steps_of
from gardenlib.homework.bank.sowing import dates_here
from gardenlib.homework.skill import Skill, Slip, Task
from gardenlib.pests import (
    attacks,
    chance_to_miss,
    cover_dates,
    pest_names,
    scouting_decision,
    spores_left,
)
from gardenlib.pests.models import events_of, pest_name
from gardenlib.pests.scouting import DAYS_APART
from gardenlib.site import degree_days
from gardenlib.sowing.chance import as_percent, chance_of_enough
from gardenlib.sowing.windows import later
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import COMMON_PRACTICE, Answer, Notes

if TYPE_CHECKING:
    from datetime import date

    from gardenlib.homework.ground import Ground
    from gardenlib.pests import CoverDates
    from gardenlib.pests.models import PestEvent
    from gardenlib.sowing import SowingDates
    from gardenlib.tables import Crop
    from gardenlib.units import Range
    from gardenlib.working import Value

BASE_C, OTHER_BASE_C = 10.0, 4.0
"""The threshold of most published models, and that of the cabbage maggot."""
LOW_HIGH_C = ((5.0, 25.0), (10.0, 20.0), (10.0, 30.0), (15.0, 25.0))
"""Spring and summer days whose degree days are whole in both scales."""
SHORT_BY_F = (20, 25, 31, 34, 40)
MOST_F = 240
"""Of a small sum one day more is seen in the answer."""
DAYS = 3
LEAF_PESTS = (
    "imported_cabbageworm",
    "cabbage_looper",
    "diamondback_moth",
    "cabbage_aphid",
    "flea_beetle",
    "harlequin_bug",
    "potato_beetle",
)
BEDS = ((12, 10), (16, 12), (24, 20), (36, 25), (40, 32))
HIT = (2, 3, 4, 5)
WEEKS_IN = 4
HIDDEN = ((10, 2), (12, 2), (12, 3), (16, 4), (20, 4))
LOOKED_AT = 3
HALVINGS = (2, 3)


# ---- degree days ----------------------------------------------------------------------------------


def _degree_days(ground: Ground) -> Task:
    pests = [pest for pest in pest_names() if any(attacks(pest, crop) for crop in ground.crops)]
    pest, events = drawn_answer(ground, "degree_pest", pests, lambda pest: _countable(pest) or None)
    event = ground.draw("degree_event", events)
    days = [ground.draw(f"degree_day_{n}", LOW_HIGH_C) for n in range(1, DAYS + 1)]
    so_far_c = event.sum_low_c - ground.draw("degree_short", SHORT_BY_F) / 1.8
    sums, notes = _sums(so_far_c, days, BASE_C), Notes()
    for before, after, (low, high) in zip(sums, sums[1:], days, strict=False):
        given: dict[str, Value] = {
            "sum": _dd(before),
            "low": Quantity(low, "degC"),
            "high": Quantity(high, "degC"),
            "above": Quantity(BASE_C, "degC"),
        }
        notes.step("homework_pests.day", "sum + (low + high) / 2 - above", given, _dd(after), event.sources[0])
    notes.say("pests.planning_aid")
    answer = Answer(**notes.parts())
    highs = [(high, high) for _, high in days]
    foreseen = (
        Slip("not_taken_off", _dd(_sums(so_far_c, days, 0.0)[-1]), Said("homework_pests.not_taken_off"), "05.when"),
        Slip("high_only", _dd(_sums(so_far_c, highs, BASE_C)[-1]), Said("homework_pests.high_only"), "05.when"),
        Slip("other_base", _dd(_sums(so_far_c, days, OTHER_BASE_C)[-1]), Said("homework_pests.other_base"), "05.when"),
        Slip("from_zero", _dd(_sums(0.0, days, BASE_C)[-1]), Said("homework_pests.from_zero"), "05.when"),
    )
    weather = {
        f"{end}_{n}": Quantity(temp_c, "degC")
        for n, day in enumerate(days, 1)
        for end, temp_c in zip(("low", "high"), day, strict=True)
    }
    said: dict[str, Any] = {
        "pest": pest_name(pest),
        "event": Said(f"pest_event.{event.event}"),
        "target": _dd(event.sum_low_c),
        "above": Quantity(BASE_C, "degC"),
        "so_far": _dd(so_far_c),
        **weather,
    }
    return Task(
        ask=Said("homework_pests.day_ask", said),
        answer=answer,
        steps=answer.steps,
        slips=told_apart(answer.steps, foreseen, ground.voice),
        places=0,
    )


def _countable(pest: str) -> list[PestEvent]:
    """List a pest's events that are counted by the plain mean above the usual threshold."""
    return [
        event
        for event in events_of(pest)
        if event.unit == "F"
        and event.thresholds == (BASE_C, None, "average")
        and max(SHORT_BY_F) < event.sum_low_c * 1.8 < MOST_F + 1
    ]


def _sums(so_far_c: float, days: list[tuple[float, float]], base_c: float) -> list[float]:
    """Give the running sum before and after each day."""
    return [
        *accumulate((float(degree_days(low, high, base_c, method="average")) for low, high in days), initial=so_far_c)
    ]


def _dd(total_c: float) -> Quantity:
    return Quantity(total_c, "degC_days")


# ---- a look at the plants -------------------------------------------------------------------------


def _share(ground: Ground) -> Task:
    (plants, looked), hit = ground.draw("share_bed", BEDS), ground.draw("share_hit", HIT)
    crop, (pest, day) = drawn_answer(ground, "share", ground.crops, lambda crop: _visited(ground, crop))
    found = scouting_decision(pest, crop, "growing", looked, hit, plants, looked_on=day)
    assert found.look_again is not None  # noqa: S101  (the day of the look is given)
    soonest, latest = found.look_again
    notes = Notes([*steps_of(found, "scouting.share")], [*found.assumptions], [*found.sources])
    beds: dict[str, Value] = {"plants": plants, "looked_at": looked}
    notes.step("homework_pests.left", "plants - looked_at", beds, found.plants_left, COMMON_PRACTICE)
    apart = Quantity(DAYS_APART[1], "days")
    notes.step("homework_pests.again", "day + days_apart", {"day": day, "days_apart": apart}, latest, COMMON_PRACTICE)
    answer = Answer(**notes.parts())
    everyone = scouting_decision(pest, crop, "growing", plants, hit, plants)
    foreseen = (
        Slip("of_all", everyone.steps[0].result, Said("homework_pests.of_all"), "05.look", 0),
        Slip("hit_left", plants - hit, Said("homework_pests.hit_left"), "05.look", 1),
        Slip("soonest", soonest, Said("homework_pests.soonest"), "05.look"),
        Slip("weekly", later(day, 7), Said("homework_pests.weekly"), "05.look"),
        Slip("two_weeks", later(day, 14), Said("homework_pests.two_weeks"), "05.look"),
    )
    return Task(
        ask=Said(
            "homework_pests.share_ask",
            {
                "plants": Quantity(plants, "plants"),
                "crop": crop.name,
                "day": day,
                "looked": looked,
                "hit": hit,
                "pest": pest_name(pest),
                "low": DAYS_APART[0],
                "apart": apart,
            },
        ),
        answer=answer,
        steps=answer.steps,
        slips=told_apart(answer.steps, foreseen, ground.voice),
        caution=Said("scouting.first_line"),
    )


def _visited(ground: Ground, crop: Crop) -> tuple[str, date] | None:
    """Give a pest of the leaves that goes for a crop, and a day some weeks after the crop went into the bed."""
    pests = [pest for pest in LEAF_PESTS if attacks(pest, crop)]
    out = _goes_out(dates_here(ground, crop))
    return (ground.draw("share_pest", pests), later(out, WEEKS_IN * 7)) if pests and out else None


def _goes_out(found: SowingDates) -> date | None:
    window = found.set_out or found.direct_sow
    return None if window is None else window[0]


def _miss(ground: Ground) -> Task:
    plants, hit = ground.draw("miss", HIDDEN)
    missed = [as_percent(chance_to_miss(plants, hit, looked)) for looked in range(1, LOOKED_AT + 1)]
    notes = Notes()
    first: dict[str, Value] = {"clean": plants - hit, "plants": plants}
    notes.step("homework_pests.first", "clean / plants", first, missed[0], COMMON_PRACTICE)
    for n in range(1, LOOKED_AT):
        given: dict[str, Value] = {"missed": missed[n - 1], "clean_left": plants - hit - n, "plants_left": plants - n}
        notes.step("homework_pests.next", "missed * clean_left / plants_left", given, missed[n], COMMON_PRACTICE)
    answer = Answer(**notes.parts())
    put_back = 1 - chance_of_enough(1, hit / plants, LOOKED_AT)
    seen = 1 - chance_to_miss(plants, hit, LOOKED_AT)
    foreseen = (
        Slip("put_back", as_percent(put_back), Said("homework_pests.put_back"), "05.look"),
        Slip("one_look", missed[0], Said("homework_pests.one_look"), "05.look"),
        Slip("seen", as_percent(seen), Said("homework_pests.seen"), "05.look"),
    )
    return Task(
        ask=Said(
            "homework_pests.miss_ask",
            {"plants": Quantity(plants, "plants"), "hit": hit, "looked": LOOKED_AT},
        ),
        answer=answer,
        steps=answer.steps,
        slips=told_apart(answer.steps, foreseen, ground.voice),
    )


# ---- before it happens ----------------------------------------------------------------------------


def _cover(ground: Ground) -> Task:
    crop, (dates, cover, days) = drawn_answer(ground, "cover", ground.crops, lambda crop: _covered(ground, crop))
    out = cover.on
    assert out is not None  # noqa: S101  (the ground is said to be a new one)
    steps = (*steps_of(cover, "covers.on"), *_picked(dates))
    quick = amount(steps[-1], "days_to_harvest")
    foreseen = [
        Slip("late", later(out, 14), Said("homework_pests.cover_late"), "05.before", 0),
        Slip("slow_kind", later(out, days.high), Said("homework_pests.slow_kind"), "05.before"),
        Slip("uncovered_at_once", out, Said("homework_pests.uncovered_at_once"), "05.before"),
    ]
    if dates.sow_indoors and dates.set_out:
        foreseen.append(
            Slip("from_indoors", later(dates.sow_indoors[0], quick), Said("homework_pests.from_indoors"), "05.before")
        )
    how = Said("homework_pests.goes_as_plants" if dates.set_out else "homework_pests.goes_as_seed")
    return Task(
        ask=Said(
            "homework_pests.cover_ask", {"crop": crop.name, "how": how, "out": out, "days": Quantity(quick, "days")}
        ),
        answer=Answer(
            steps=steps, assumptions=cover.assumptions, sources=(*cover.sources, *(step.source for step in steps[1:]))
        ),
        steps=steps,
        slips=told_apart(steps, foreseen, ground.voice),
    )


def _covered(ground: Ground, crop: Crop) -> tuple[SowingDates, CoverDates, Range] | None:
    """Give the dates of a crop whose cover stays on until the first harvest, and its days to that."""
    dates = dates_here(ground, crop)
    out, steps = _goes_out(dates), _picked(dates)
    days = crop.days_from_transplant if dates.set_out else crop.days_from_seed
    if out is None or days is None or dates.harvest is None or not steps:
        return None
    cover = cover_dates(crop, out, ground="rotated", first_harvest=dates.harvest[0])
    return None if cover.until is None or cover.why == "not_listed" else (dates, cover, days.typical)


def _picked(dates: SowingDates) -> tuple[Any, ...]:
    return steps_of(dates, "sowing.harvest_first" if dates.set_out else "sowing.harvest_first_from_seed")


def _spores(ground: Ground) -> Task:
    row = next(row for row in rows("diseases") if row["property"] == "half_life")
    half = ground.draw("spores_half", range(int(row["low"]), int(row["high"]) + 1))
    halvings = ground.draw("spores_years", HALVINGS)
    left = [as_percent(float(spores_left(half * n, half))) for n in range(halvings + 2)]
    notes = Notes()
    for before, after in pairwise(left[: halvings + 1]):
        notes.step("homework_pests.half", "left / 2", {"left": before}, after, row["source"])
    notes.say("disease.spores_if")
    answer = Answer(**notes.parts())
    dead = as_percent(1 - float(spores_left(half * halvings, half)))
    foreseen = (
        Slip("too_few", left[halvings - 1], Said("homework_pests.too_few"), "05.disease"),
        Slip("too_many", left[halvings + 1], Said("homework_pests.too_many"), "05.disease"),
        Slip("dead", dead, Said("homework_pests.dead"), "05.disease"),
    )
    return Task(
        ask=Said(
            "homework_pests.spores_ask", {"half": Quantity(half, "years"), "years": Quantity(half * halvings, "years")}
        ),
        answer=answer,
        steps=answer.steps,
        slips=told_apart(answer.steps, foreseen, ground.voice),
        caution=Said("disease.caution"),
    )


SKILLS = (
    Skill("05.degree_days", "05_pests", Said("homework_pests.day_title"), "05.when", _degree_days),
    Skill("05.share", "05_pests", Said("homework_pests.share_title"), "05.look", _share),
    Skill("05.miss", "05_pests", Said("homework_pests.miss_title"), "05.look", _miss),
    Skill("05.cover", "05_pests", Said("homework_pests.cover_title"), "05.before", _cover),
    Skill("05.spores", "05_pests", Said("homework_pests.spores_title"), "05.disease", _spores),
)
