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
