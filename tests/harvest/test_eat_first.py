"""What to eat first, against all orders and against linear programming."""

from itertools import pairwise, permutations

import numpy as np
import pytest
from scipy.optimize import linprog

from gardenlib.harvest import Lot, eating_order
from gardenlib.problems import InputProblem

LIFE = 14.0  # cabbage at 4 C, the shortest life that Western Australia prints


def _lots(kg, good):
    return [Lot("cabbage_main", amount, 4.0, LIFE - days) for amount, days in zip(kg, good, strict=True)]


def _lost_in_order(kg, good, a_day):
    """Eat in a given order, a thousandth of a day at a time."""
    left, lost, now = list(kg), 0.0, 0.0
    for place, until in enumerate(good):
        while left[place] > 1e-9 and now < until - 1e-9:
            bite = min(left[place], a_day * 0.001)
            left[place] -= bite
            now += bite / a_day
        lost += left[place]
    return lost


def _least_lost(kg, good, a_day):
    """Share each stretch between two ends of life among the lots, by linear programming."""
    ends = [0.0, *sorted(set(good))]
    stretches = list(pairwise(ends))
    lots = range(len(kg))
    allowed = [(lot, n) for lot in lots for n, (_, last) in enumerate(stretches) if last <= good[lot] + 1e-9]
    of_lot = [[float(one == lot) for one, _ in allowed] for lot in lots]
    of_stretch = [[float(at == n) for _, at in allowed] for n in range(len(stretches))]
    room = [a_day * (last - first) for first, last in stretches]
    found = linprog([-1.0] * len(allowed), A_ub=of_lot + of_stretch, b_ub=[*kg, *room])
    return sum(kg) + found.fun


@pytest.mark.parametrize("seed", range(25))
def test_no_way_of_eating_loses_less(seed):
    """The loss is the least that any sharing of the days among the lots can reach (scipy.optimize.linprog)."""
    rng = np.random.default_rng(seed)
    n = int(rng.integers(1, 7))
    kg, good, week = rng.uniform(0.2, 4, n), rng.uniform(0.5, LIFE, n), rng.uniform(0.5, 6)
    found = eating_order(_lots(kg, good), week)
    assert found.lost_kg == pytest.approx(_least_lost(kg, good, week / 7), abs=1e-6)
    assert found.lost_kg == pytest.approx(sum(turn.lost_kg for turn in found.turns))


@pytest.mark.parametrize("seed", range(4))
def test_no_other_order_loses_less(seed):
    """Of all orders of four lots, eaten bite by bite, none loses less."""
    rng = np.random.default_rng(100 + seed)
    kg, good, week = rng.uniform(0.2, 1.5, 4), rng.uniform(1, LIFE, 4), 2.0
    losses = [_lost_in_order(kg[list(o)], good[list(o)], week / 7) for o in permutations(range(4))]
    assert eating_order(_lots(kg, good), week).lost_kg == pytest.approx(min(losses), abs=0.01)
    assert max(losses) > min(losses) + 0.05


def test_what_is_left_week_by_week():
    """2 kg good for one week and 4 kg for two, 2 kg a week: 6, then 4, then what is left goes bad."""
    found = eating_order(_lots([4.0, 2.0], [14.0, 7.0]), 2.0, weeks=3)
    assert [turn.place for turn in found.turns] == [1, 0]
    assert found.left_kg.tolist() == [[2.0, 4.0], [0.0, 4.0], [0.0, 0.0], [0.0, 0.0]]
    assert found.lost_kg == pytest.approx(2.0)


def test_what_is_past_its_time_is_lost_at_once():
    """A lot whose shortest life is used up stands first, and all of it counts as lost."""
    found = eating_order([Lot("cabbage_main", 3.0, 4.0, 20), Lot("kale", 1.0, 4.0)], 5.0)
    assert (found.turns[0].good_days, found.turns[0].lost_kg, found.lost_kg) == (0.0, 3.0, 3.0)
    assert found.left_kg[0].tolist() == [0.0, 1.0]


@pytest.mark.parametrize(
    ("lots", "week"),
    [
        ([], 1.0),
        ([Lot("cabbage_main", -1.0, 4.0)], 1.0),
        ([Lot("cabbage_main", 0.0, 4.0)], 1.0),
        ([Lot("cabbage_main", float("nan"), 4.0)], 1.0),
        ([Lot("cabbage_main", 1.0, -40.0)], 1.0),
        ([Lot("cabbage_main", 1.0, 4.0, -3)], 1.0),
        ([Lot("moon", 1.0, 4.0)], 1.0),
        ([Lot("cabbage_main", 1.0, 4.0)], 0.0),
        ([Lot("cabbage_main", 1.0, 4.0)], -2.0),
        ([Lot("cabbage_main", 1.0, 4.0)] * 41, 1.0),
    ],
)
def test_what_cannot_be_is_refused(lots, week):
    """Each is refused in one sentence."""
    with pytest.raises(InputProblem):
        eating_order(lots, week)
