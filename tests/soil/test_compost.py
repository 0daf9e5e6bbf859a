"""Raw manure before a harvest: the careful rule, and what is refused."""

from datetime import UTC, date, datetime

import pytest

from gardenlib.problems import InputProblem
from gardenlib.soil import manure_wait
from gardenlib.words import Voice


def test_careful_rule_where_nobody_knows():
    """Without a word on the crop the longer wait holds (7 CFR 205.203(c)(1)(ii))."""
    assert manure_wait(date(2027, 7, 1)).days == 120


def test_pets_are_never_left_out():
    """The answer always says that dog and cat manure is never used."""
    said = " ".join(Voice().say(item) for item in manure_wait(date(2027, 7, 1)).assumptions)
    assert "dog or cat" in said


@pytest.mark.parametrize("harvest", ["2027-07-01", 20270701, None, datetime(2027, 7, 1, tzinfo=UTC), date(1, 1, 5)])
def test_harvests_that_are_no_dates(harvest):
    """What is no date, or lies before the calendar, is refused in one sentence."""
    with pytest.raises(InputProblem, match="harvest"):
        manure_wait(harvest)
