"""Homework of page 05: keys worked out again by hand and against published figures."""

import pytest
from demo_ground import ground

from gardenlib.homework.bank.pests import BEDS, HIDDEN, HIT, SKILLS

BY_ID = {skill.id: skill for skill in SKILLS}


def test_degree_days_begin_below_a_published_sum():
    """The sums named are those of Wisconsin XHT1087 and Purdue above 50 F: 90, 150, 185 or 240."""
    for n in range(60):
        task = BY_ID["05.degree_days"].make(ground(f"D{n}"))
        target, so_far = (round(task.ask.values[name].value * 1.8) for name in ("target", "so_far"))
        assert target in {90, 150, 185, 240}
        assert 20 <= target - so_far <= 40
        assert task.ask.values["above"].value == 10.0  # 50 F


def test_one_missed_degree_day_is_seen():
    """A day left out of the sum is not taken for right."""
    from gardenlib.homework.results import asked

    for n in range(30):
        here = ground(f"M{n}")
        task = BY_ID["05.degree_days"].make(here)
        last = task.steps[-1]
        before = task.steps[-2].result.value * 1.8
        assert not asked(last.result, here.voice, task.places).span.holds(before)


def test_a_short_look_misses_as_often_as_cards():
    """Three cards without one of two marked out of ten: 8/10 x 7/9 x 6/8 = 46.7 % (hypergeometric distribution)."""
    found = set()
    for n in range(60):
        task = BY_ID["05.miss"].make(ground(f"C{n}"))
        plants, hit = round(task.ask.values["plants"].value), task.ask.values["hit"]
        assert (plants, hit) in HIDDEN
        if (plants, hit) == (10, 2):
            found.add(round(task.steps[-1].result.value, 1))
    assert found == {46.7}


def test_beds_are_small_ones():
    """Only beds of fewer than 50 plants are asked about, more looked at than hit (common practice, no source)."""
    assert all(looked < plants < 50 and looked > max(HIT) for plants, looked in BEDS)


def test_spores_halve_in_published_years():
    """Half of the spores die in 3 to 6 years (Pacific Northwest Plant Disease Management Handbook, clubroot)."""
    for n in range(60):
        task = BY_ID["05.spores"].make(ground(f"H{n}"))
        half, years = (task.ask.values[name].value for name in ("half", "years"))
        assert 3 <= half <= 6
        assert task.steps[-1].result.value == pytest.approx({2: 25.0, 3: 12.5}[years / half])


@pytest.mark.parametrize("skill", ["05.share", "05.spores"])
def test_the_caution_stands_first(skill):
    """Where somebody might reach for a spray, the caution is there."""
    caution = BY_ID[skill].make(ground()).caution
    assert caution is not None
    assert ground().voice.say(caution)
