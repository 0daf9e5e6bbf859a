"""The questions of page 01, done again with a pencil."""

import pencil
import pytest

from gardenlib.homework.bank.site import SKILLS


@pytest.mark.parametrize(("mean", "zone"), [(-18, "5a"), (-12, "5b"), (-3, "6b"), (2, "7a"), (8, "7b"), (12, "8a")])
def test_zones_of_the_published_map(mean, zone):
    """Half zones of 5 F from 5a, -20 to -15 F, to 8a, 10 to 15 F (USDA Plant Hardiness Zone Map, 2012, its legend)."""
    skill = next(skill for skill in SKILLS if skill.id == "01.zone")
    task = skill.make(pencil.ground(zone_mean=mean))
    assert task.steps[-1].result == zone
    spans = {task.ask.values[f"zone_{n}"]: task.ask.values[f"span_{n}"] for n in range(1, 5)}
    assert spans[zone].low * 1.8 + 32 <= mean < spans[zone].high * 1.8 + 32


def test_the_days_between_are_those_of_a_calendar():
    """From May 2 to October 7 a calendar counts 29 + 30 + 31 + 31 + 30 + 6 days in between."""
    skill = next(skill for skill in SKILLS if skill.id == "01.season")
    task = skill.make(pencil.ground())
    assert [task.ask.values[name].isoformat()[5:] for name in ("last", "first")] == ["05-02", "10-07"]
    assert task.steps[-1].result.value == 29 + 30 + 31 + 31 + 30 + 6


def test_degree_days_of_the_averages_that_are_printed():
    """Highs of 20, 8 and 5 with lows of 10, -2 and -5 C give 15, 3 and 0 degree days above 0 C, each averaged first.

    Source: McMaster and Wilhelm 1997 (Agricultural and Forest Meteorology 87, table 1, method 1); here each day lies
    as far above the crop's own base as theirs above 0 C.
    """
    skill = next(skill for skill in SKILLS if skill.id == "01.degree")
    task = skill.make(pencil.ground(units="metric", degree_swing=5, degree_days=(15, 3, 0)))
    days = [step.result.value for step in task.steps]
    assert days == pytest.approx([15, 3, 0, 15 + 3 + 0], abs=1e-6)
    low, high = (task.steps[0].inputs[name].value - task.steps[0].inputs["base"].value for name in ("low", "high"))
    assert (low, high) == pytest.approx((10, 20))
