"""How much to plant for the people at the table."""

from __future__ import annotations

import math
from dataclasses import dataclass

from gardenlib.checks import checked_between
from gardenlib.harvest.figures import MOST_PEOPLE, whole
from gardenlib.harvest.guides import guide_sources, guides_say
from gardenlib.harvest.yields import expected_yield
from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.units import Quantity, Range
from gardenlib.working import COMMON_PRACTICE, Answer, Notes, Value

MOST_WEEKS = 52
MOST_SERVINGS = 50.0
MOST_COUNTED = 10_000_000
TIE = 1e-6


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

    def servings_from(self, plants: int) -> Range:
        """Give the servings from so many plants.

        Parameters
        ----------
        plants : int
            How many, 1 or more.

        Returns
        -------
        Range
            Servings, low end first.

        Raises
        ------
        InputProblem
            When it is no whole number.

        Notes
        -----
        Source: that of `one_plant`; common practice, no source, that each plant gives the same.

        Examples
        --------
        >>> found = plants_for_household("tomato", 2, 10, 5)  # Maine: 8 lb a plant; USDA: 91 % eaten, 180 g a cup
        >>> round(found.servings_from(6).low)
        110
        """
        many = whole(plants, "plants", MOST_COUNTED)
        return Range(many * self.one_plant.low, many * self.one_plant.high, "servings")


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
    notes.step("need.servings", "people * weeks * servings", given, Quantity(need, "servings"), COMMON_PRACTICE)
    one = expected_yield(plant, plants=1, in_row_m=in_row_m)
    notes.steps.extend(one.steps)
    notes.assumptions.extend(one.assumptions)
    notes.cite(*one.sources)
    if one.servings is None:
        raise InputProblem("need.no_cup", crop=plant.name)
    few, many = (float(math.ceil(need / end - TIE)) for end in (one.servings.high, one.servings.low))
    wanted: dict[str, Value] = {"all_servings": Quantity(need, "servings"), "one_plant": one.servings}
    plants = Range(few, many, "plants")
    notes.step("need.plants", "all_servings / one_plant, rounded up", wanted, plants, COMMON_PRACTICE)
    notes.say("need.no_loss")
    guides = guides_say(plant, table)
    if guides is not None:
        notes.say("need.guides", *guide_sources(plant.id, "fresh"), crop=plant.name, n=table, guides=guides)
    return HouseholdPlants(
        crop=plant.id,
        plants=plants,
        need_servings=need,
        one_plant=one.servings,
        guides=guides,
        is_sure=one.is_sure,
        **notes.parts(),
    )
