"""The questions of page 02, done again with a pencil."""

import pencil
import pytest

from gardenlib.homework.bank.soil import SKILLS


def test_massachusetts_fertilizer_for_a_thousand_square_feet():
    """25 pounds of 10-10-10 for 1,000 square feet (University of Massachusetts, Fertilizing the vegetable garden)."""
    skill = next(skill for skill in SKILLS if skill.id == "02.bag")
    task = skill.make(pencil.ground(bed=(15.24, 6.096), bag_label="10-10-10"))
    assert pencil.read(task.steps[-1].result, "us") == pytest.approx(25)


def test_what_a_bag_of_10_6_4_brings():
    """40 pounds of 10-6-4 hold 4 pounds of N, 2.4 of P2O5 and 1.6 of K2O (NC State Extension, Caring for Your Lawn)."""
    skill = next(skill for skill in SKILLS if skill.id == "02.brings")
    task = skill.make(pencil.ground(brings_label="10-6-4", brings_bag=40))
    found = {step.key.rpartition("_")[2]: pencil.read(step.result, "us") for step in task.steps}
    assert found == pytest.approx({"n": 4, "p": 2.4, "k": 1.6})


def test_penn_state_lime_from_a_weaker_bag():
    """5 pounds at a CCE of 70 are 7 from the bag, exactly 7.14 (Penn State, notes to the Home Garden report)."""
    skill = next(skill for skill in SKILLS if skill.id == "02.lime")
    task = skill.make(pencil.ground(bed=(3.048, 3.048), lime_rate=50, lime_cce=70))
    assert pencil.read(task.steps[-1].result, "us") == pytest.approx(7.14, abs=0.005)


# Sand, silt, clay; by the rules in words of the Soil Survey Manual (USDA Handbook 18, 2017, chapter 3).
JARS = {
    "sandy loam": {(60, 25, 15), (65, 20, 15)},  # clay 7 to 20, sand above 52
    "loam": {(40, 40, 20), (45, 35, 20)},  # clay 7 to 27, silt 28 to 50, sand 52 or less
    "silt loam": {(25, 55, 20), (20, 60, 20)},  # silt 50 or more, clay 12 to 27
    "clay loam": {(35, 30, 35), (30, 40, 30)},  # clay 27 to 40, sand above 20 to 45
}


def test_jars_by_the_soil_survey_manual():
    """Each jar that is drawn has the class that the manual's rules give it, and all four classes come up."""
    skill = next(skill for skill in SKILLS if skill.id == "02.jar")
    seen = set()
    for code in pencil.CODES:
        task = skill.make(pencil.ground(code))
        mix = tuple(round(step.result.value) for step in task.steps[2:5])
        assert mix in JARS[task.steps[-1].result]
        seen.add(task.steps[-1].result)
    assert seen == set(JARS)


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("skill", SKILLS, ids=lambda skill: skill.id)
def test_who_goes_on_with_printed_numbers_is_right(skill, units):
    """A result reckoned from the printed inputs is accepted, on beds from 8 to 200 square feet."""
    beds = [(2.4384, 1.2192), (3.048, 0.9144), (1.2192, 0.6096), (3.5052, 1.0668), (15.24, 1.2192)]
    if units == "metric":
        beds = [(2.5, 1.0), (3.6, 1.2), (2.4, 1.2), (5.0, 1.0), (10.0, 1.5)]
    for bed in beds:
        for code in pencil.CODES[:20]:
            here = pencil.ground(code, units=units, bed=bed)
            task = skill.make(here)
            for step in task.steps[1:]:
                found = pencil.reckon(step, units)
                assert found is None or pencil.accepted(found, step, task, units), (bed, step, found)
