"""Hours of wet leaves as a bar: all of it inside the drawing, and told apart without colour."""

import re

import pytest

from gardenlib import charts
from gardenlib.charts import theme
from gardenlib.charts.wet_hours import wet_hours

WORDS = ("sprinkled, before the dew", "dew", "9 hours", "hours of wet leaves at a stretch")


@pytest.mark.parametrize(("sprinkled", "dew"), [(0, 0), (3, 8), (8, 16), (24, 24), (0, 0.5)])
def test_nothing_runs_out(sprinkled, dew):
    """Every line lies between the edges of the drawing, with the shortest and the longest stretch."""
    drawn = wet_hours(sprinkled, dew, 9, words=WORDS).to_dict()
    rules = drawn["datasets"]["rule"]
    assert all(0 <= rule[end] <= theme.CHART_PX for rule in rules for end in ("x", "x2"))
    assert all(0 <= rule[end] <= drawn["height"] for rule in rules for end in ("y", "y2"))


def test_words_and_limit_are_drawn():
    """The key, the axis and the limit's own words stand in the drawing; the limit is a dashed line."""
    drawn = charts.svg(wet_hours(3, 8, 9, words=WORDS))
    assert all(text in drawn for text in WORDS)
    assert re.search(r'stroke-dasharray="4,3"', drawn)


def test_the_two_parts_differ_in_more_than_hue():
    """Dew is filled, sprinkling is an outline alone: one thick line for each dew box, none for sprinkling."""
    thick = [rule for rule in wet_hours(3, 8, 9, words=WORDS).to_dict()["datasets"]["rule"] if rule["w"] > 4]
    only_sprinkled = [rule for rule in wet_hours(3, 0, 9, words=WORDS).to_dict()["datasets"]["rule"] if rule["w"] > 4]
    assert (len(thick), len(only_sprinkled)) == (2, 1)
