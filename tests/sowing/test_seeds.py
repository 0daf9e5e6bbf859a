"""Seeds to raise: what the plan counts, what it refuses, and what always holds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardenlib import InputProblem, sowing

FRACTIONS = st.floats(0.05, 1.0)


@given(st.integers(1, 300), FRACTIONS, st.tuples(st.floats(0.01, 0.99), st.floats(0.01, 0.99)))
def test_more_confidence_never_asks_for_fewer_seeds(plants, germination, pair):
    """Who wants to be surer sows as many seeds or more, and never fewer than the plants wanted."""
    low, high = sorted(pair)
    few = sowing.seeds_to_sow(plants, germination, low)
    assert plants <= few <= sowing.seeds_to_sow(plants, germination, high)


@given(st.integers(1, 300), st.tuples(FRACTIONS, FRACTIONS))
def test_better_seed_never_asks_for_more(plants, pair):
    """Seed that comes up better never needs more of it."""
    worse, better = sorted(pair)
    assert sowing.seeds_to_sow(plants, better) <= sowing.seeds_to_sow(plants, worse)


def test_a_tie_counts_as_enough():
    """One seed of 9 in 10 gives one plant 9 times in 10: the chance asked for exactly is enough."""
    assert sowing.seeds_to_sow(1, 0.9, 0.9) == 1
    assert sowing.seeds_to_sow(1, 0.5, 0.75) == 2


def test_losses_are_taken_off_only_when_given():
    """Without a loss none is taken and the page says so; with one it is multiplied in."""
    plain = sowing.seed_plan("tomato", 20, germination_fraction=0.8)
    lossy = sowing.seed_plan("tomato", 20, germination_fraction=0.8, field_loss_fraction=0.25)
    assert plain.stand_fraction == 0.8
    assert "seeds.no_loss_counted" in [said.key for said in plain.assumptions]
    assert lossy.stand_fraction == pytest.approx(0.6)
    assert lossy.seeds == sowing.seeds_to_sow(20, 0.6)
    assert "seeds.no_loss_counted" not in [said.key for said in lossy.assumptions]


def test_trays_are_whole():
    """Cells that do not fill a tray take a whole one."""
    plan = sowing.seed_plan("tomato", 20, germination_fraction=0.75, cells_per_tray=30)
    assert (plan.cells, plan.trays) == (31, 2)
    assert sowing.seed_plan("tomato", 20, germination_fraction=0.75, cells_per_tray=31).trays == 1


def test_two_seeds_a_cell_save_cells_and_cost_seeds():
    """Two seeds in a cell need fewer cells and more seeds, of which one plant a cell is kept."""
    one, two = (sowing.seed_plan("tomato", 20, germination_fraction=0.75, seeds_per_cell=s) for s in (1, 2))
    assert two.cells < one.cells < two.seeds == 2 * two.cells
    assert "seeds.one_kept" in [said.key for said in two.assumptions]


def test_germination_says_where_it_comes_from():
    """The learner's own test, the packet and the standard are told apart; the standard is dated."""
    assert "1994" in str(sowing.seed_plan("tomato", 5).germination_from)
    assert "packet" in str(sowing.seed_plan("tomato", 5, germination_fraction=0.9).germination_from)
    towel = sowing.seed_plan("tomato", 5, towel_test=(7, 10))
    assert "7 of your 10" in str(towel.germination_from)
    assert any("4 to 9 of 10" in str(said) for said in towel.assumptions)


def test_a_towel_test_gives_a_wide_range_of_seeds():
    """After a test of ten seeds the plan holds the seeds for both ends of what the test leaves open."""
    plan = sowing.seed_plan("tomato", 20, towel_test=(7, 10))
    assert plan.seeds_between.low < plan.seeds < plan.seeds_between.high
    assert plan.seeds_between.high > 2 * plan.seeds_between.low


def test_a_perfect_test_needs_no_more_than_the_plants():
    """Ten of ten: as many seeds as plants, with the low end beside them."""
    plan = sowing.seed_plan("tomato", 20, towel_test=(10, 10))
    assert plan.seeds == plan.seeds_between.low == 20
    assert plan.seeds_between.high > 20


def test_the_same_seed_gives_the_same_sowings():
    """The tried sowings can be repeated."""
    assert sowing.shortfall(20, 0.75, 27).came_up == sowing.shortfall(20, 0.75, 27).came_up
    assert sowing.shortfall(20, 0.75, 27, seed=1).came_up != sowing.shortfall(20, 0.75, 27).came_up


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"germination_fraction": 0.0}, "nothing to plan with"),
        ({"germination_fraction": 140}, "Did you mean 1.4"),
        ({"germination_fraction": 75}, "Did you mean 0.75"),
        ({"germination_fraction": -0.2}, "-0.2"),
        ({"germination_fraction": float("nan")}, "nan"),
        ({"plants": 0}, "plants is 0"),
        ({"plants": -3}, "plants is -3"),
        ({"plants": 2.5}, "plants is 2.5"),
        ({"plants": float("nan")}, "plants is nan"),
        ({"plants": float("inf")}, "plants is inf"),
        ({"plants": 10**9}, "plants is"),
        ({"confidence": 1.5}, "confidence is 1.5"),
        ({"confidence": 1.0}, "how sure"),
        ({"confidence": 0.0}, "how sure"),
        ({"towel_test": (0, 10)}, "None of your 10"),
        ({"towel_test": (11, 10)}, "11 of 10"),
        ({"towel_test": (1, 0)}, "tested is 0"),
        ({"towel_test": (7, 10), "germination_fraction": 0.9}, "not both"),
        ({"field_loss_fraction": 1.0}, "hardly one seed"),
        ({"field_loss_fraction": 30}, "Did you mean 0.3"),
        ({"seeds_per_cell": 0}, "seeds_per_cell is 0"),
        ({"cells_per_tray": 0}, "cells_per_tray is 0"),
        ({"crop": "garlic"}, "not grown from seed"),
        ({"crop": "arugula"}, "No germination standard"),
        ({"crop": "tomatoe"}, "tomato"),
    ],
)
def test_what_cannot_be_used_gets_one_sentence(given, told):
    """A number that cannot be used is refused, named and mended in one plain sentence or two."""
    with pytest.raises(InputProblem) as problem:
        sowing.seed_plan(**{"crop": "tomato", "plants": 20, **given})
    assert told in str(problem.value)
