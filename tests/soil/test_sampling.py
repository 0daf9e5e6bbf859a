"""The sampling plan and what is typed from a sheet: shapes, refusals, and one rate in every unit."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardenlib import InputProblem
from gardenlib.soil import LAB_RATE_UNITS, lab_number, lab_rate_kg_m2, sampling_plan


@given(st.floats(0.1, 10_000))
def test_the_places_share_the_ground(area):
    """Each place stands for its part of the ground, and the parts make the whole."""
    plan = sampling_plan(area)
    assert plan.share_m2 * plan.places == pytest.approx(area)


def test_new_ground_is_a_sample_of_its_own():
    """One kind of ground gives one sample, two kinds give two."""
    assert sampling_plan(10.0).samples == 1
    assert sampling_plan(10.0, new_ground=True).samples == 2


def test_lead_is_asked_for_only_where_wanted():
    """Without a reason in the place's history nobody pays for a lead test."""
    assert "lead" not in sampling_plan(10.0).tests
    assert sampling_plan(10.0, lead_asked=True).tests[-1] == "lead"


def test_what_is_from_memory_says_unchecked():
    """The rule on metal tools is from memory and says so; the bucket is published and does not."""
    said = [str(rule) for rule in sampling_plan(10.0).rules]
    assert [("unchecked" in rule, "brass" in rule) for rule in said] == [(False, False)] * 3 + [(True, True)]


@pytest.mark.parametrize("area", [0, -1, math.nan, math.inf, 1e9, "12", True, None])
def test_a_hostile_area_is_one_sentence(area):
    """The sentence names the value and the limit."""
    with pytest.raises(InputProblem, match=r"^The ground cannot be .*at most .*\.$"):
        sampling_plan(area)


@pytest.mark.parametrize(
    ("typed", "kind", "sentence"),
    [
        ("70", "water_ph", "Did you mean 7?"),
        ("62", "water_ph", "Did you mean 6.2?"),
        ("0", "water_ph", "from 3 to 10"),
        ("6,2", "water_ph", "Type a point in place of the comma: 6.2."),
        ("six", "water_ph", "which is no number"),
        ("-6", "water_ph", "which is no number"),
        ("nan", "water_ph", "which is no number"),
        ("1e3", "amount", "which is no number"),
        ("8.4", "buffer_ph", "at most. Check that you read the right line"),
        ("66", "buffer_ph", "Did you mean 6.6?"),
        ("2.5", "buffer_ph", "from 3 to 8"),
        ("101", "amount", "from 0 to 100"),
        ("6.2 <b>", "water_ph", "which is no number"),
        ("9" * 500, "amount", "from 0 to 100"),
    ],
)
def test_a_hostile_number_is_one_sentence(typed, kind, sentence):
    """What cannot stand on a sheet is refused with its mend, and never takes more than a few lines."""
    with pytest.raises(InputProblem) as problem:
        lab_number(typed, "pH", kind, 100.0)
    assert sentence in str(problem.value)
    assert len(str(problem.value)) < 200


@pytest.mark.parametrize(("typed", "number"), [("6.2", 6.2), (" 6.20 ", 6.2), ("7", 7.0), (".5", 0.5), ("", None)])
def test_a_number_is_read_as_typed(typed, number):
    """Spaces and a missing zero do no harm; an empty field is nothing."""
    assert lab_number(typed, "x", "amount", 10.0) == number


@pytest.mark.parametrize("rate", [-1, math.nan, math.inf, "5", True])
def test_a_hostile_rate_is_one_sentence(rate):
    """A rate is a number of 0 or more, and below what any table asks for."""
    with pytest.raises(InputProblem, match="rate"):
        lab_rate_kg_m2(rate, "kg_m2")


def test_an_unknown_unit_is_one_sentence():
    """The sentence lists the units."""
    with pytest.raises(InputProblem, match="kg_m2"):
        lab_rate_kg_m2(1, "stone")


def test_a_rate_in_the_unit_of_ten_times_less_ground_is_refused_or_ten_times_as_much():
    """50 lb per 100 sq ft is ten times 50 lb per 1,000; 150 in the smaller unit is above all tables."""
    assert lab_rate_kg_m2(50, "lb_100_sq_ft") == pytest.approx(10 * lab_rate_kg_m2(50, "lb_1000_sq_ft"))
    with pytest.raises(InputProblem, match="Check the unit"):
        lab_rate_kg_m2(150, "lb_100_sq_ft")


@pytest.mark.parametrize("unit", LAB_RATE_UNITS)
def test_no_rate_is_no_lime(unit):
    """0 is 0 in every unit."""
    assert lab_rate_kg_m2(0, unit) == 0
