"""Compost and raw manure: the careful rules, and what is refused."""

import math
from datetime import UTC, date, datetime

import pytest

from gardenlib.problems import InputProblem
from gardenlib.soil import compost_for_bed, compost_nitrogen, manure_wait, soil_touches
from gardenlib.tables import crops
from gardenlib.units import KG_PER_POUND, M_PER_FOOT
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


def test_crops_that_stand_clear_of_the_soil():
    """Two crops alone count as apart from the soil: common practice, no source; an unknown crop counts as touched."""
    apart = {crop for crop in crops().index if not soil_touches(crop)}
    assert apart == {"sweet_corn", "bean_pole"}
    assert soil_touches("a crop of the class")


def test_inch_of_compost_in_pounds():
    """100 square feet an inch deep, 1,000 pounds a cubic yard, 60 % dry, 1.5 % N: 2.78 pounds in all, a tenth freed.

    Worked out by hand: 100 / 12 / 27 cubic yards times 1,000 times 0.6 times 0.015; no published figure.
    """
    inch = {
        "volume_m3": 100 / 12 * M_PER_FOOT**3,
        "kg_m3": 1000 * KG_PER_POUND / (3 * M_PER_FOOT) ** 3,
        "dry_fraction": 0.6,
        "n_fraction": 0.015,
    }
    assert compost_nitrogen(**inch, release_fraction=1) / KG_PER_POUND == pytest.approx(2.78, abs=0.005)
    assert compost_nitrogen(**inch, release_fraction=0.1) / KG_PER_POUND == pytest.approx(0.278, abs=0.0005)


def test_volume_of_a_layer():
    """100 square feet an inch deep are 8.33 cubic feet: by hand, 100 / 12."""
    found = compost_for_bed(100 * M_PER_FOOT**2, M_PER_FOOT / 12)
    assert found.volume_m3 / M_PER_FOOT**3 == pytest.approx(8.33, abs=0.005)


@pytest.mark.parametrize(
    ("level", "verdict"), [("untested", "test_first"), ("low", "ok"), ("high", "wait"), ("very_high", "none")]
)
def test_soil_test_comes_before_the_depth(level, verdict):
    """The level on the sheet speaks first; an untested bed is told to test."""
    assert compost_for_bed(10, 0.0254, phosphorus=level).verdict == verdict
    if level in {"high", "very_high"}:
        assert compost_for_bed(10, 0.2, phosphorus=level).verdict == verdict


def test_nitrogen_is_a_wide_range_and_says_so():
    """The weight of compost is unchecked, and the answer says it beside the range."""
    found = compost_for_bed(10, 0.01)
    # By hand: 100 litres at 800 to 1,200 lb a cubic yard, 60 % dry, 2 to 4 % nitrogen, 5 to 25 % of it set free.
    ends = [0.1 / 0.764554857984 * 0.6 * lb * KG_PER_POUND for lb in (800 * 0.02 * 0.05, 1200 * 0.04 * 0.25)]
    assert (found.n_kg.low, found.n_kg.high) == pytest.approx(ends)
    assert (found.n_kg_m2.low * 10, found.n_kg_m2.high * 10) == pytest.approx((found.n_kg.low, found.n_kg.high))
    assert any("Unchecked" in Voice().say(said) for said in found.assumptions)


@pytest.mark.parametrize("depth", [0, -0.02, 1.0, math.nan, math.inf, "6,2", None, True])
def test_depths_that_cannot_be(depth):
    """A layer that is none, a metre, or no number is refused in one sentence."""
    with pytest.raises(InputProblem, match="depth_m"):
        compost_for_bed(10, depth)


@pytest.mark.parametrize("level", ["very high", "", None, 25])
def test_levels_that_are_not_known(level):
    """A level outside the sheet's words is refused in one sentence."""
    with pytest.raises(InputProblem, match="phosphorus"):
        compost_for_bed(10, 0.02, phosphorus=level)


@pytest.mark.parametrize(
    ("name", "value"),
    [("dry_fraction", 60), ("n_fraction", 15), ("release_fraction", 1.2), ("kg_m3", 5), ("kg_m3", "x")],
)
def test_shares_that_cannot_be(name, value):
    """A percent in place of a fraction, or an impossible weight, is refused in one sentence."""
    given = {"kg_m3": 600, "dry_fraction": 0.6, "n_fraction": 0.02, "release_fraction": 0.1, name: value}
    with pytest.raises(InputProblem, match=name):
        compost_nitrogen(1, **given)
