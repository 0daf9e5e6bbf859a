"""The questions of page 03, done again with a pencil."""

import pencil
import pytest

from gardenlib.homework.bank.beds import SKILLS


def test_an_inch_of_water_on_a_square_foot():
    """A US gallon is 231 cubic inches (NIST Handbook 44, appendix C), so an inch on a square foot is 144/231 of one."""
    skill = next(skill for skill in SKILLS if skill.id == "03.inch")
    task = skill.make(pencil.ground(bed=(3.048, 3.048), inch_can=2.0))
    assert pencil.read(task.steps[1].result, "us") == pytest.approx(100 * 144 / 231, rel=1e-4)


def test_a_plan_can_be_drawn_by_hand():
    """Where a crop with room to draw is at hand, no learner draws hundreds of plants."""
    skill = next(skill for skill in SKILLS if skill.id == "03.fit")
    for code in pencil.CODES:
        assert 2 < skill.make(pencil.ground(code)).steps[-1].result <= 150


def test_drip_hours_of_the_penn_state_table():
    """An inch on rows 30 inches apart at 27 gallons an hour for 100 feet: 5.8 hours (Penn State Extension 2013)."""
    skill = next(skill for skill in SKILLS if skill.id == "03.drip")
    task = skill.make(pencil.ground(drip_depth=1.0, drip_width=2.5))
    assert pencil.read(task.ask.values["flow"], "us") == pytest.approx(27)
    assert pencil.read(task.steps[-1].result, "us") / 60 == pytest.approx(5.8, abs=0.06)  # printed to one decimal


def test_pots_hold_what_their_makers_print():
    """A pot sold as number 5 holds 4.1 gallons at most (makers' lists), so four of them 16.4, not 20."""
    skill = next(skill for skill in SKILLS if skill.id == "03.pots")
    task = skill.make(pencil.ground(pots_size=5, pots_pots=4))
    assert pencil.read(task.steps[0].result, "us") == pytest.approx(16.4)
