"""How much to plant for the people at the table, and what a published table says they should eat."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from gardenlib.harvest.figures import whole
from gardenlib.harvest.yields import expected_yield
from gardenlib.problems import InputProblem
from gardenlib.soil.lime_checks import checked_between, checked_choice
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import M_PER_FOOT, Quantity, Range
from gardenlib.working import Answer, Notes, Value

__all__ = ["HouseholdPlants", "WeeklyCups", "guides_say", "plants_for_household", "weekly_cups"]

Use = Literal["fresh", "preserved"]
MOST_PEOPLE = 50
MOST_WEEKS = 52
MOST_SERVINGS = 50.0
DAYS_A_WEEK = 7
TIE = 1e-6
_PLAIN = "common_practice"


@dataclass(frozen=True, kw_only=True)
class HouseholdPlants(Answer):
    """How many plants of a crop the people at the table need.

    Parameters
    ----------
    crop : str
        Crop id.
    plants : Range
        Fewest, where each gives what the best source prints, to most, where each gives what the poorest prints.
    need_servings : float
        Servings for all, over all weeks.
    one_plant : Range
        Servings from one plant.
    guides : Range or None
        What planting guides print for as many people: plants, or metres of row.
    is_sure : bool
        Whether every figure was read in a source.
    """

    crop: str
    plants: Range
    need_servings: float
    one_plant: Range
    guides: Range | None
    is_sure: bool


def plants_for_household(
    crop: str | Crop, people: int, weeks: int, servings_per_week: float, *, in_row_m: float | None = None
) -> HouseholdPlants:
    """Tell how many plants feed the people at the table.

    Parameters
    ----------
    crop : str or Crop
        What is eaten.
    people : int
        How many eat, 1 to 50.
    weeks : int
        Weeks, not months, in which it is eaten, 1 to 52.
    servings_per_week : float
        Servings a week for each person, up to 50; one is a cup, or two cups of raw leafy greens.
    in_row_m : float, optional
        Metres from plant to plant; without it those of the published lists.

    Returns
    -------
    HouseholdPlants
        The plants as a range with the working.

    Raises
    ------
    InputProblem
        When a number cannot be used, or no yield or no cup is known for the crop.

    Notes
    -----
    Source: the yields and weights of `expected_yield`; planting guides of Kansas, Missouri and Kentucky beside it.
    The fewest plants belong to the highest yield, the most to the lowest; parts of a plant count as a plant.

    Examples
    --------
    >>> plants_for_household("cabbage_main", 2, 8, 2).need_servings
    32.0
    """
    plant, notes = as_crop(crop), Notes()
    table = whole(people, "people", MOST_PEOPLE)
    if isinstance(weeks, int | float) and weeks > MOST_WEEKS:
        raise InputProblem("need.weeks", value=f"{weeks:g}", most=MOST_WEEKS)
    long = whole(weeks, "weeks", MOST_WEEKS)
    each = checked_between(servings_per_week, "servings_per_week", 0.1, MOST_SERVINGS)
    need = table * long * each
    given: dict[str, Value] = {"people": table, "weeks": long, "servings": each}
    notes.step("need.servings", "people * weeks * servings", given, Quantity(need, "servings"), _PLAIN)
    one = expected_yield(plant, plants=1, in_row_m=in_row_m)
    notes.steps.extend(one.steps)
    notes.assumptions.extend(one.assumptions)
    notes.cite(*one.sources)
    if one.servings is None:
        raise InputProblem("need.no_cup", crop=plant.name)
    few, many = (float(math.ceil(need / end - TIE)) for end in (one.servings.high, one.servings.low))
    wanted: dict[str, Value] = {"all_servings": Quantity(need, "servings"), "one_plant": one.servings}
    plants = Range(few, many, "plants")
    notes.step("need.plants", "all_servings / one_plant, rounded up", wanted, plants, _PLAIN)
    notes.say("need.no_loss")
    guides = guides_say(plant, table)
    if guides is not None:
        notes.say("need.guides", *_guide_sources(plant.id, "fresh"), crop=plant.name, n=table, guides=guides)
    return HouseholdPlants(
        crop=plant.id,
        plants=plants,
        need_servings=need,
        one_plant=one.servings,
        guides=guides,
        is_sure=one.is_sure,
        **notes.parts(),
    )


def guides_say(crop: str | Crop, people: int, use: Use = "fresh") -> Range | None:
    """Give what planting guides print for so many people.

    Parameters
    ----------
    crop : str or Crop
        What is eaten.
    people : int
        How many eat, 1 to 50.
    use : {"fresh", "preserved"}
        Eaten fresh, or put by.

    Returns
    -------
    Range or None
        Plants, or metres of row where the guides print no plants; None where they print neither.

    Raises
    ------
    InputProblem
        When the number or the use cannot be used.

    Notes
    -----
    Source: Kansas MF315, Missouri G6201, Kentucky ID-128. They do not say how often it is eaten.

    Examples
    --------
    >>> guides_say("cabbage_main", 4)
    Range(low=12.0, high=20.0, unit='plants')
    """
    plant, table = as_crop(crop), whole(people, "people", MOST_PEOPLE)
    wanted = checked_choice(use, "use", get_args(Use))
    for unit, by, name in (("plants", 1.0, "plants"), ("ft", M_PER_FOOT, "m")):
        found = [row for row in rows("planting_per_person") if (row["crop"], row["use"]) == (plant.id, wanted)]
        found = [row for row in found if row["unit"] == unit]
        if found:
            low, high = min(row["low"] for row in found), max(row["high"] for row in found)
            return Range(low * table * by, high * table * by, name)
    return None


def _guide_sources(crop: str, use: Use) -> list[str]:
    return [row["source"] for row in rows("planting_per_person") if (row["crop"], row["use"]) == (crop, use)]


@dataclass(frozen=True, kw_only=True)
class WeeklyCups(Answer):
    """How many cups of vegetables, of all kinds, some people should eat in a week."""

    cups: Range


def weekly_cups(people: Sequence[tuple[str, int]]) -> WeeklyCups:
    """Add up the published cups of vegetables for a week.

    Parameters
    ----------
    people : sequence of (str, int)
        Each person's group (toddlers, children, girls, boys, women, men) and age in years.

    Returns
    -------
    WeeklyCups
        Cups of all vegetables together, low to high.

    Raises
    ------
    InputProblem
        When nobody is given, or the table has no row for a person.

    Notes
    -----
    Source: MyPlate, Vegetables, daily recommendation table; a week is seven days. It is advice for healthy people.

    Examples
    --------
    >>> weekly_cups([("women", 40), ("men", 40), ("girls", 10), ("children", 6)]).cups
    Range(low=56.0, high=87.5, unit='cups')
    """
    notes = Notes()
    table = whole(len(people), "people", MOST_PEOPLE)
    daily = [_daily(group, age) for group, age in people]
    day = Range(sum(low for low, _ in daily), sum(high for _, high in daily), "cups")
    cups = Range(day.low * DAYS_A_WEEK, day.high * DAYS_A_WEEK, "cups")
    notes.step("need.day", "sum of the daily cups", {"people": table}, day, "myplate")
    notes.step("need.week", "cups_a_day * 7", {"cups_a_day": day}, cups, "myplate")
    return WeeklyCups(cups=cups, **notes.parts())


def _daily(group: str, age: int) -> tuple[float, float]:
    for row in rows("myplate"):
        if row["group"] == group and row["from_age"] <= age <= row["to_age"]:
            return row["low_cups_day"], row["high_cups_day"]
    known = ", ".join(dict.fromkeys(row["group"] for row in rows("myplate")))
    raise InputProblem("need.group", group=str(group)[:40], age=age, known=known)
