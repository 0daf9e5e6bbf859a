"""How many plants feed the people at the table."""

import math

import pytest

from gardenlib import InputProblem
from gardenlib.harvest import expected_yield, plants_for_household, weekly_cups
from gardenlib.harvest.foreseen import row_slips


def test_tomatoes_by_hand():
    """Maine's 8 lb a plant, 91 % eaten, 180 g a cup: 18.34 cups; 2 people x 10 weeks x 5 = 100 need 6 plants."""
    found = plants_for_household("tomato", 2, 10, 5)
    assert found.need_servings == 100
    assert found.one_plant.low == pytest.approx(8 * 453.59237 * 0.91 / 180)
    assert (found.plants.low, found.plants.high) == (6, 6)


def test_the_fewest_plants_go_with_the_best_yield():
    """The range runs from the best garden to the poorest, and the poorest yield of the last number is enough."""
    found = plants_for_household("cabbage_main", 4, 12, 2)
    assert found.plants.low < found.plants.high
    poorest = expected_yield("cabbage_main", plants=int(found.plants.high)).servings.low
    best = expected_yield("cabbage_main", plants=int(found.plants.low)).servings.high
    assert poorest >= found.need_servings
    assert best >= found.need_servings
    assert found.servings_from(int(found.plants.high) - 1).low < found.need_servings


def test_a_need_that_comes_out_whole_adds_no_plant():
    """A need of exactly what six plants give asks for six (rounding of floats must not make it seven)."""
    each = plants_for_household("tomato", 1, 1, 1).one_plant.low
    assert plants_for_household("tomato", 1, 6, each).plants.low == 6


@pytest.mark.parametrize(
    ("people", "weeks", "servings", "says"),
    [
        (0, 8, 2, "people is 0"),
        (-2, 8, 2, "people is -2"),
        (51, 8, 2, "people is 51"),
        (2, 0, 2, "weeks is 0"),
        (2, 60, 2, "Count weeks, not days"),
        (2, 8, 0, "servings_per_week is 0"),
        (2, 8, math.nan, "not a number"),
        (math.nan, 8, 2, "not a number"),
        (2, math.nan, 2, "not a number"),
        ("two", 8, 2, "not a number"),
        (2, "8", 2, "not a number"),
        (2, 8, "6,2", "with a point"),
        (2, 8, 5000, "servings_per_week is 5000"),
    ],
)
def test_households_that_cannot_be(people, weeks, servings, says):
    """Hostile numbers get one sentence that names them."""
    with pytest.raises(InputProblem, match=says):
        plants_for_household("cabbage_main", people, weeks, servings)


def test_a_crop_without_a_cup_is_refused():
    """No cup of basil is published with its trim loss; nothing is made up."""
    with pytest.raises(InputProblem, match="what a cup of basil weighs"):
        plants_for_household("basil", 2, 8, 2)


@pytest.mark.parametrize(
    ("people", "says"),
    [([], "people is 0"), ([("cats", 4)], "no row for cats"), ([("women", 5)], "aged 5"), ([("men", "x")], "number")],
)
def test_people_that_the_table_does_not_know(people, says):
    """Nobody, an unknown group or an age outside it is refused."""
    with pytest.raises(InputProblem, match=says):
        weekly_cups(people)


def test_slips_by_hand():
    """6 cups x 13 weeks of broccoli at 91 g, 61 % eaten, 50 lb for 100 ft: 51.3 ft; the mistakes beside it."""
    found, foot = row_slips("broccoli", 6, 3, system="us"), 0.3048
    right = 6 * 13 * 91 / 453.59237 / 0.61 / 0.5
    assert found.weeks == 13
    assert found.right_m / foot == pytest.approx(right)
    assert found.high_end_m / foot == pytest.approx(right / 2)
    assert found.untrimmed_m / foot == pytest.approx(right * 0.61)
    assert found.months_m / foot == pytest.approx(right * 3 / 13)
    assert found.as_plants == 1
    assert found.cups_each == pytest.approx(453.59237 / 91)


def test_slips_refuse_leafy_greens():
    """A cup of greens counts half, so the question is not asked of them."""
    with pytest.raises(InputProblem, match="cup of kale"):
        row_slips("kale", 6, 3, system="us")
