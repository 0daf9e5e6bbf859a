"""Homework of page 07: keys worked out again by hand, and counts against the daily record itself."""

import re
from datetime import date, timedelta

import pytest
from demo_ground import ground

from gardenlib.homework.bank.season import SKILLS
from gardenlib.problems import InputProblem
from gardenlib.site import FreezeDates, place
from gardenlib.tables import crop

BY_ID = {skill.id: skill for skill in SKILLS}


def test_the_picture_shows_the_count():
    """The full dots of the picture, less the one of its key, are the springs that worked; the rings those hurt."""
    task = BY_ID["07.replay"].make(ground())
    marks = re.findall(r'<path [^>]*?fill="([^"]+)"[^>]*?stroke="([^"]+)"[^>]*?>', task.drawing())
    assert marks
    full = sum(fill == stroke for fill, stroke in marks)
    hollow = sum(fill != stroke for fill, stroke in marks)
    worked, hurt = task.steps[0].result, task.steps[0].inputs["hurt"]
    assert {full - 1, hollow - 1} == {worked, hurt}


def test_real_days_are_in_the_published_range():
    """The days in the bed lie in the crop's published typical range, and their count is that of a calendar."""
    for n in range(60):
        task = BY_ID["07.days"].make(ground(f"L{n}"))
        said, days = task.ask.values, round(task.steps[-1].result.value)
        assert said["went_in"] + timedelta(days=days) == said["picked"]
        assert said["last"] < said["went_in"] <= said["last"] + timedelta(days=11)
        row = next(
            crop(i)
            for i in ground().klass.crop_ids
            if crop(i).name.values == said["crop"].values and crop(i).name.key == said["crop"].key
        )
        spans = [s.typical for s in (row.days_from_transplant, row.days_from_seed) if s is not None]
        assert any(span.low <= days <= span.high for span in spans)


def test_weeks_run_from_monday_to_sunday():
    """The first week holds its Sunday (ISO 8601:2019), and what is given away is in the sum already."""
    for n in range(40):
        task = BY_ID["07.weeks"].make(ground(f"G{n}"))
        said = task.ask.values
        assert said["monday"].isoweekday() == 1
        assert said["day_3"].isoweekday() == 7
        assert said["day_4"] - said["monday"] >= timedelta(days=7)
        weights = [said[f"kg_{n}"].value for n in range(1, 6)]
        assert task.steps[0].result.value == pytest.approx(sum(weights[:3]))
        assert task.steps[-1].result.value == pytest.approx(sum(weights))
        assert said["gift"].value <= sum(weights[:2])


def test_without_a_record_past_springs_are_not_asked():
    """Dates from a list alone cannot be replayed: one sentence says so."""
    dates = FreezeDates.typed((4, 15), (10, 15), source="class list", latitude=40.0)
    with pytest.raises(InputProblem, match="past seasons cannot be replayed"):
        BY_ID["07.replay"].make(ground(place=place("Invented", 40.0, typed=dates)))


def test_days_are_days_of_the_season_that_is_planned():
    """What was picked lies in the planned year."""
    picked = BY_ID["07.days"].make(ground()).ask.values["picked"]
    assert date(2027, 1, 1) < picked <= date(2027, 12, 31)
