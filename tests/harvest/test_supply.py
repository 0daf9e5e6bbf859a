"""Supply against need by week: kernels against a slow count by hand, and the answer's weeks."""

from datetime import date, timedelta

import numpy as np
import pytest

from gardenlib import InputProblem
from gardenlib.harvest import Further, Stand, carry_on, picking_days, supply_by_week, weekly_supply
from gardenlib.units import Range

YEAR = (date(2027, 1, 1), date(2027, 12, 31))


def _slow(supply, need, keeps):
    """Count lots one by one: eat the lot that would spoil first, drop what is too old."""
    lots, out = [], []
    for week, wanted in enumerate(need):
        lots += [[week + kept, row[week]] for row, kept in zip(supply, keeps, strict=True)]
        left = wanted
        for lot in sorted(lots, key=lambda lot: lot[0]):
            taken = min(left, lot[1])
            lot[1] -= taken
            left -= taken
        spoiled = sum(amount for until, amount in lots if until <= week)
        lots = [lot for lot in lots if lot[0] > week]
        out.append((wanted - left, left, spoiled, sum(amount for _, amount in lots)))
    return np.array(out).T


@pytest.mark.parametrize("seed", range(5))
def test_carrying_on_is_the_slow_count(seed):
    """Eaten, lacking, spoiled and stored are those of a slow count lot by lot (our own second way, no source)."""
    rng = np.random.default_rng(seed)
    supply = rng.exponential(2, (4, 20)) * (rng.random((4, 20)) < 0.4)
    need, keeps = rng.exponential(2, 20), rng.integers(0, 6, 4)
    found = np.array(carry_on(supply, need, keeps))
    assert found == pytest.approx(_slow(supply, need, keeps))


def test_nothing_is_lost_on_the_way():
    """What came in was eaten, spoiled, or still lies in store, in each season of many."""
    supply = np.random.default_rng(8).exponential(1, (6, 7, 52))
    found = carry_on(supply, np.full(52, 3.0), [0, 1, 2, 3, 8, 20, 30])
    accounted = found.eaten.sum(-1) + found.spoiled.sum(-1) + found.in_store[..., -1]
    assert accounted == pytest.approx(supply.sum((-1, -2)))
    assert found.eaten + found.gap == pytest.approx(np.full((6, 52), 3.0))


def test_yield_is_spread_over_seasons():
    """Plantings by season: each year's own days, a year without a harvest gives nothing, all is given in the end."""
    first = np.array([[10.0, 30.0], [12.0, np.nan]])
    found = supply_by_week([70.0, 5.0], first, first + 9, np.arange(0, 70, 7))
    assert found.shape == (2, 2, 10)
    assert found.sum(-1) == pytest.approx(np.array([[70, 5], [70, 0]]))
    # Ten days from day 10: four in week 1 (days 7 to 13), six in week 2.
    assert found[0, 0, 1:3] == pytest.approx([28, 42])


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: supply_by_week([-1.0], [0], [6], [0]), "0 or more"),
        (lambda: supply_by_week([np.nan], [0], [6], [0]), "0 or more"),
        (lambda: supply_by_week([1.0], [6], [0], [0]), "before it begins"),
        (lambda: carry_on([[1.0]], [-1.0], [0]), "0 or more"),
        (lambda: carry_on([[1.0]], [np.nan], [0]), "0 or more"),
        (lambda: carry_on([[1.0]], [1.0], [-1]), "keeps"),
        (lambda: carry_on([[1.0]], [1.0], [np.nan]), "keeps"),
        (lambda: carry_on([[1.0]], [1.0], [1000]), "keeps"),
    ],
)
def test_kernels_refuse(call, says):
    """Amounts below nothing, days the wrong way round and impossible keeping are refused."""
    with pytest.raises(InputProblem, match=says):
        call()


def _stand(first, days, servings, keeps=0):
    start = date(2027, *first)
    return Stand(Range(servings, 2 * servings, "servings"), start, start + timedelta(days=days - 1), keeps)


def test_gap_and_left_over_by_hand():
    """40 servings in two whole weeks, 8 a week for 6 weeks: 12 left over twice, then 4 weeks of nothing."""
    found = weekly_supply([_stand((6, 21), 14, 40)], 8, YEAR, need_from=date(2027, 6, 21), need_weeks=6)
    assert (found.gap_weeks, found.too_much_weeks, found.bridged_weeks) == (4, 2, 0)
    busy = found.table[found.table["need"] > 0]
    assert list(busy["too_much"]) == pytest.approx([12, 12, 0, 0, 0, 0])
    assert list(busy["gap"]) == pytest.approx([0, 0, 8, 8, 8, 8])
    assert list(busy["high"][:2]) == pytest.approx([40, 40])


def test_keeping_bridges_by_hand():
    """Kept for three weeks the same harvest feeds five weeks: 12 + 12 left over are 3 more weeks of 8."""
    found = weekly_supply([_stand((6, 21), 14, 40, keeps=3)], 8, YEAR, need_from=date(2027, 6, 21), need_weeks=6)
    assert (found.gap_weeks, found.too_much_weeks, found.bridged_weeks) == (1, 0, 3)


def test_one_more_planting_closes_the_gap():
    """The week is chosen in which a planting comes ripe where food is lacking, the earliest of equals."""
    early, late = _stand((6, 21), 14, 16), _stand((6, 21), 14, 16)
    window = Further(date(2027, 4, 5), date(2027, 6, 14), late)
    found = weekly_supply([early], 8, YEAR, need_from=date(2027, 6, 21), need_weeks=4, further=[window])
    assert found.gap_weeks == 2
    assert found.plant_again == date(2027, 4, 19)  # 14 days after the window's first day: ripe from July 5
    assert found.gap_weeks_then == 0


def test_what_one_more_planting_leaves_and_days_that_are_past():
    """Four weeks lack food: one planting of two weeks leaves two; no week before the first day to try is named."""
    stand = _stand((6, 21), 14, 16)
    for not_before, named in ((None, date(2027, 4, 19)), (date(2027, 4, 20), date(2027, 4, 26))):
        window = Further(date(2027, 4, 5), date(2027, 6, 14), stand, not_before=not_before)
        found = weekly_supply([stand], 8, YEAR, need_from=date(2027, 6, 21), need_weeks=6, further=[window])
        assert (found.plant_again, found.gap_weeks, found.gap_weeks_then) == (named, 4, 2)
    past = Further(date(2027, 4, 5), date(2027, 6, 14), stand, not_before=date(2027, 7, 1))
    found = weekly_supply([stand], 8, YEAR, need_from=date(2027, 6, 21), need_weeks=6, further=[past])
    assert (found.plant_again, found.gap_weeks_then) == (None, None)


def test_nothing_to_plant_again_when_nothing_lacks():
    """Without a gap, or where no week would help, no further planting is named."""
    stand = _stand((6, 21), 14, 16)
    window = Further(date(2027, 4, 5), date(2027, 4, 5), stand)
    enough = weekly_supply([stand], 8, YEAR, need_from=date(2027, 6, 21), need_weeks=2, further=[window])
    assert (enough.gap_weeks, enough.plant_again) == (0, None)
    no_help = weekly_supply([stand], 8, YEAR, need_from=date(2027, 6, 21), need_weeks=4, further=[window])
    assert (no_help.gap_weeks, no_help.plant_again) == (2, None)


def test_weeks_beyond_the_year_are_told():
    """A need that runs past the growing year is cut, and the answer says so."""
    found = weekly_supply([_stand((12, 6), 7, 5)], 5, YEAR, need_from=date(2027, 12, 6), need_weeks=10)
    assert any(said.key == "need.next_year" for said in found.assumptions)


@pytest.mark.parametrize(
    ("how", "says"),
    [
        ({"servings_a_week": 0}, "servings_a_week"),
        ({"servings_a_week": float("nan")}, "not a number"),
        ({"need_weeks": 0}, "need_weeks"),
        ({"need_from": date(2028, 3, 1)}, "not in the growing year"),
    ],
)
def test_answers_refuse(how, says):
    """Hostile numbers and a day of another year get one sentence."""
    given = {"servings_a_week": 4, "need_from": date(2027, 6, 1), "need_weeks": 4, **how}
    with pytest.raises(InputProblem, match=says):
        weekly_supply([_stand((6, 21), 14, 40)], given.pop("servings_a_week"), YEAR, **given)


@pytest.mark.parametrize(
    ("crop", "weeks", "ends", "expected"),
    # Common practice, no source: what is cut once comes within two weeks; other crops for their weeks of picking.
    [
        ("cabbage_main", None, None, (date(2027, 6, 22), date(2027, 7, 5))),
        ("tomato", Range(8, 12, "weeks"), None, (date(2027, 6, 22), date(2027, 9, 13))),
        ("tomato", Range(8, 12, "weeks"), date(2027, 7, 20), (date(2027, 6, 22), date(2027, 7, 20))),
        ("tomato", Range(8, 12, "weeks"), date(2027, 6, 1), None),
        ("tomato", None, None, (date(2027, 6, 22), date(2027, 6, 29))),
    ],
)
def test_days_of_picking(crop, weeks, ends, expected):
    """Picking begins on the first day it may be ready and ends after two weeks, its weeks, or the freeze."""
    assert picking_days(crop, date(2027, 6, 22), date(2027, 6, 29), picked_weeks=weeks, ends=ends) == expected


def test_days_of_picking_the_wrong_way_round():
    """A last day before the first is refused."""
    with pytest.raises(InputProblem, match="before it begins"):
        picking_days("tomato", date(2027, 6, 22), date(2027, 6, 1))
