"""The questions of page 03, done again with a pencil."""

import pencil
import pytest

from gardenlib.homework.bank.beds import SKILLS

IDS = [skill.id for skill in SKILLS]


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("skill", SKILLS, ids=IDS)
def test_printed_working_holds(skill, units):
    """Each printed expression gives, from printed inputs, what is accepted, and needs only what is printed before."""
    pencil.holds(skill, units)


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
