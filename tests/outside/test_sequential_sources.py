"""The sequential plan against its published parameters, Wald's formulas, scipy and simulation."""

import math

import numpy as np
import pandas as pd
import pytest
from scipy.stats import binom

from gardenlib.pests.sequential import chance_to_act, sequential_plan, walks
from gardenlib.problems import InputProblem


def test_lines_of_the_published_plan():
    """Bounds 5 and 15 %, errors 10 % (Burkness and Hutchison 2001) by Wald 1947: slope 0.0919, lines 1.816 apart."""
    plan = sequential_plan()
    assert plan.slope == pytest.approx(0.0919, abs=5e-5)
    assert (plan.apart_low, plan.apart_high) == pytest.approx((1.8161, 1.8161), abs=5e-5)
    other = sequential_plan(0.15, 0.25)
    assert (other.slope, other.apart_low) == pytest.approx((0.1968, 3.4548), abs=5e-5)


@pytest.mark.parametrize(
    ("looked_at", "under", "over"),
    # Computed by hand from the published parameters, row by row.
    [
        *((1, None, None), (2, None, 2), (3, None, 3), (12, None, 3), (13, None, 4), (20, 0, 4), (24, 0, 5)),
        *((31, 1, 5), (35, 1, 6), (42, 2, 6), (46, 2, 7), (50, 2, 7), (53, 3, 7), (57, 3, 8)),
    ],
)
def test_where_one_stops(looked_at, under, over):
    """The hit plants at which the published plan stops, and the verdicts on both sides of them."""
    plan = sequential_plan()
    row = plan.limits(60).loc[looked_at]
    assert [None if pd.isna(value) else int(value) for value in row] == [under, over]
    if under is not None:
        assert plan.verdict(looked_at, under) == "under"
        assert plan.verdict(looked_at, under + 1) == "go_on"
    if over is not None:
        assert plan.verdict(looked_at, over) == "over"
        assert plan.verdict(looked_at, over - 1) == "go_on"


@pytest.mark.parametrize(
    ("true", "under", "over", "undecided", "plants"),
    # Computed by dynamic programming, one plant at a time, apart from this project.
    [
        (0.05, 0.7045, 0.0556, 0.2399, 32.51),
        (0.10, 0.2668, 0.3810, 0.3522, 34.13),
        (0.15, 0.0755, 0.7518, 0.1727, 26.59),
    ],
)
def test_outcomes_when_stopped_at_fifty(true, under, over, undecided, plants):
    """A quarter of the walks at 5 % end undecided after 50 plants, so that outcome has a name of its own."""
    found = sequential_plan().outcomes(true, 50)
    assert [found[name] for name in ("under", "over", "undecided")] == pytest.approx([under, over, undecided], abs=5e-4)
    assert found["plants"] == pytest.approx(plants, abs=0.01)


@pytest.mark.parametrize("true", [0.05, 0.15])
def test_error_rates_by_simulation_keep_the_published_ones(true):
    """Walks of up to 2,000 plants end on the wrong side in at most the published 10 % (Burkness and Hutchison 2001)."""
    plan, dice = sequential_plan(), np.random.Generator(np.random.PCG64(5))
    looked = np.arange(1, 2001)
    hits = (dice.random((2000, looked.size)) < true).cumsum(axis=1)
    under = hits <= plan.slope * looked - plan.apart_low + 1e-9
    over = hits >= plan.slope * looked + plan.apart_high - 1e-9
    first = (
        np.where(under.any(axis=1), under.argmax(axis=1), 10**6),
        np.where(over.any(axis=1), over.argmax(axis=1), 10**6),
    )
    wrong = (first[1] < first[0]) if true == 0.05 else (first[0] < first[1])
    assert 0.02 < wrong.mean() <= 0.10
    exact = plan.outcomes(true, 2000)
    # Three standard errors of 2,000 walks.
    assert wrong.mean() == pytest.approx(
        exact["over" if true == 0.05 else "under"], abs=3 * math.sqrt(0.1 * 0.9 / 2000)
    )


@pytest.mark.parametrize(("true", "plants"), [(0.05, 34.7), (0.15, 25.0)])
def test_mean_count_is_near_wald_s(true, plants):
    """Wald's approximate mean numbers are 34.7 and 25.0; he leaves out the overshoot, which adds up to three plants."""
    assert plants <= sequential_plan().outcomes(true, 2000)["plants"] <= plants + 7


@pytest.mark.parametrize(
    ("true", "looked_at", "limit"),
    [(0.05, 10, 0.1), (0.2, 10, 0.1), (0.1, 50, 0.1), (0.02, 33, 0.05), (0.5, 2000, 0.5), (1.0, 50, 1.0)],
)
def test_chance_to_act_is_scipy_s(true, looked_at, limit):
    """The chance that a walk is at its limit is the upper tail of scipy.stats.binom, and walks show it."""
    needed = math.ceil(looked_at * limit - 1e-9)
    expected = binom.sf(needed - 1, looked_at, true)
    assert chance_to_act(true, looked_at, limit) == pytest.approx(expected, abs=1e-12)
    many = walks(true, looked_at, trials=20000, seed=3)
    assert (many >= needed).mean() == pytest.approx(expected, abs=0.012)


@pytest.mark.parametrize("bounds", [(0.15, 0.05, 0.1), (0.0, 0.15, 0.1), (0.05, 0.15, 0.5), (0.05, 15, 0.1)])
def test_plans_that_cannot_be_are_refused(bounds):
    """Bounds out of order, at an end, or typed as percent get one sentence."""
    with pytest.raises(InputProblem):
        sequential_plan(*bounds)
