"""Homework of page 06: keys worked out again by hand and against published figures."""

import pytest
from demo_ground import ground

from gardenlib.homework.bank.harvest import SKILLS
from gardenlib.problems import InputProblem

BY_ID = {skill.id: skill for skill in SKILLS}
POUND, FOOT = 0.45359237, 0.3048  # NIST Special Publication 811


def test_cabbage_by_the_printed_yields():
    """Cabbage: 150 lb (Kansas MF315), 12 lb from 10 ft (Florida SP103), 125 to 200 lb (Tennessee ANR-3); 80 % is eaten.

    The part that is eaten is USDA SR28's for cabbage: refuse 20 %. The lowest is 1.2 lb a foot, the highest 2 lb.
    """
    for n in range(20):
        task = BY_ID["06.row"].make(ground(f"R{n}", crops=["cabbage_main"]))
        feet = task.ask.values["row"].value / FOOT
        eaten = task.steps[-1].result
        assert 10 <= feet <= 40
        assert eaten.low / POUND == pytest.approx(feet * 1.2 * 0.8)
        assert eaten.high / POUND == pytest.approx(feet * 2.0 * 0.8)


def test_tomatoes_for_a_table():
    """Maine prints 8 lb a plant; USDA SR28: 91 % is eaten, 180 g fill a cup: 18.3 cups from each plant."""
    cups = 8 * POUND * 1000 * 0.91 / 180
    for n in range(20):
        values = (task := BY_ID["06.household"].make(ground(f"T{n}", crops=["tomato"]))).ask.values
        need = values["people"] * values["weeks"].value * values["each"].value
        fewest = next(plants for plants in range(1, 200) if plants * cups >= need)
        assert task.steps[-1].result.low == task.steps[-1].result.high == fewest


def test_cabbage_in_two_places():
    """Western Australia 2017 prints cabbage 28 to 112 days at 0 C, 14 to 42 at 4 C and 7 at 20 C; the shares add up."""
    printed = {0.0: (28, 112), 4.0: (14, 42), 20.0: (7, 7)}
    for n in range(30):
        task = BY_ID["06.two_places"].make(ground(f"P{n}", crops=["cabbage_main"]))
        said, left = task.ask.values, task.steps[-1].result
        there, here = printed[said["warm"].value], printed[said["cold"].value]
        days = said["spent"].value
        assert left.low == pytest.approx((1 - days / there[0]) * here[0])
        assert left.high == pytest.approx((1 - days / there[1]) * here[1])


def test_kale_in_the_fridge():
    """Australian growers print 7 to 10 days for kale at 5 C: count on one week."""
    task = BY_ID["06.weeks"].make(ground(crops=["kale"]))
    picked, until = task.ask.values["picked"], task.steps[-1].result
    assert (until - picked).days == 7


@pytest.mark.parametrize("skill", ["06.two_places", "06.weeks"])
def test_good_is_not_safe_stands_first(skill):
    """Before the days that food keeps stands that good is not the same as safe."""
    task = BY_ID[skill].make(ground())
    assert "not how long it stays safe" in ground().voice.say(task.caution)


def test_a_crop_without_figures_gets_one_sentence():
    """Basil has no printed cup and no printed life."""
    for skill in ("06.household", "06.two_places"):
        with pytest.raises(InputProblem, match="None of your crops"):
            BY_ID[skill].make(ground(crops=["basil"]))
