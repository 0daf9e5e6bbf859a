"""Foreseen mistakes in counting the row for a household: what comes out when one step is left out or taken wrongly."""

from __future__ import annotations

import math
from dataclasses import dataclass

from gardenlib.checks import checked_between
from gardenlib.harvest.figures import grams, is_leafy, whole
from gardenlib.harvest.yields import expected_yield
from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.units import M_PER_FOOT, Range, System, in_system

WEEKS_A_MONTH = 52 / 12
PRINTED_FOR_M = 100 * M_PER_FOOT


@dataclass(frozen=True)
class RowSlips:
    """A row to plant, what comes out of each mistake, metres, and the figures that the question names.

    Parameters
    ----------
    right_m : float
        By the low end, after trimming, for all weeks.
    high_end_m, untrimmed_m, months_m : float
        By the high end; with nothing trimmed off; with the months taken for weeks.
    as_plants : int
        Plants, where the yield of the printed row is taken for that of one plant.
    weeks : int
        Weeks of the months.
    printed : Range
        Kilograms as picked from `PRINTED_FOR_M` metres of row.
    eaten_in_ten : float
        Parts of ten that are eaten.
    cups_each : float
        Cups from one pound (metric: one kilogram) of what is eaten.
    """

    right_m: float
    high_end_m: float
    untrimmed_m: float
    months_m: float
    as_plants: int
    weeks: int
    printed: Range
    eaten_in_ten: float
    cups_each: float


def row_slips(crop: str, cups_per_week: float, months: int, *, system: System) -> RowSlips:
    """Work out a row for a household, and the foreseen mistakes beside it.

    Parameters
    ----------
    crop : str
        A crop whose yield is printed for a length of row.
    cups_per_week : float
        Cups for all at the table in a week.
    months : int
        Months in which it is eaten, 1 to 12.
    system : {"us", "metric"}
        Units in which somebody reckons: pounds or kilograms.

    Returns
    -------
    RowSlips
        The right row and the others.

    Raises
    ------
    InputProblem
        When a number cannot be used, or no cup is known for the crop.

    Notes
    -----
    Source: the figures of `expected_yield`; a month has 52 / 12 weeks.

    Examples
    --------
    >>> found = row_slips("broccoli", 6, 3, system="us")
    >>> found.weeks, round(found.right_m / 0.3048), round(found.high_end_m / 0.3048)
    (13, 51, 26)
    """
    plant = as_crop(crop)
    long, cups = whole(months, "months", 12), checked_between(cups_per_week, "cups_per_week", 0.1, 500)
    found, cup = expected_yield(plant, row_m=PRINTED_FOR_M), grams(plant.id, "cup")
    if found.edible_kg is None or cup is None or is_leafy(plant.id):
        raise InputProblem("need.no_cup", crop=plant.name)
    weeks = round(long * WEEKS_A_MONTH)
    kg = cups * weeks * cup.high / 1000
    right = kg / found.edible_kg.low * PRINTED_FOR_M
    part = found.edible_kg.low / found.kg.low
    one_kg, _ = in_system(1.0, "kg", system)
    return RowSlips(
        right_m=right,
        high_end_m=kg / found.edible_kg.high * PRINTED_FOR_M,
        untrimmed_m=right * part,
        months_m=right * long / weeks,
        as_plants=math.ceil(kg / found.edible_kg.low),
        weeks=weeks,
        printed=found.kg,
        eaten_in_ten=10 * part,
        cups_each=1000 / cup.high / one_kg,
    )
