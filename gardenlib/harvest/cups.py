"""What a published table says people should eat in a week."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from gardenlib.checks import checked_between
from gardenlib.harvest.figures import MOST_PEOPLE, whole
from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.units import Range
from gardenlib.working import Answer, Notes

DAYS_A_WEEK = 7


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
    years = checked_between(age, "age", 0, 120)
    for row in rows("myplate"):
        if row["group"] == group and row["from_age"] <= years <= row["to_age"]:
            return row["low_cups_day"], row["high_cups_day"]
    known = ", ".join(dict.fromkeys(row["group"] for row in rows("myplate")))
    raise InputProblem("need.group", group=str(group)[:40], age=age, known=known)
