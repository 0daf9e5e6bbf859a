"""Fertilizer for a bed: which nutrient sets the weight, and what is refused."""

import math

import pytest

from gardenlib.problems import InputProblem
from gardenlib.soil import feeding_need, fertilizer_for_bed
from gardenlib.words import Voice


def test_nutrient_filled_first_sets_the_weight():
    """A bed of 10 square metres that needs 0.1 kg each of N and P2O5, from 10-20-0: P2O5 is full at 0.5 kg."""
    bed = fertilizer_for_bed(0.01, 0.01, 0, 10, label_pct=(10, 20, 0))
    assert (bed.binding, bed.product_kg) == ("p2o5", pytest.approx(0.5))
    assert bed.short == pytest.approx({"n": 0.05})
    assert bed.unasked_phosphorus is None


def test_phosphate_that_nobody_asked_for_is_named():
    """A bag with phosphate is named where none is needed; a bag with 0 in the middle is not."""
    assert "phosphate" in Voice().say(fertilizer_for_bed(0.01, 0, 0, 10, label_pct=(10, 10, 10)).unasked_phosphorus)
    assert fertilizer_for_bed(0.01, 0, 0, 10, label_pct=(21, 0, 0)).unasked_phosphorus is None


def test_nothing_needed_is_nothing_weighed():
    """No need gives no product and brings no phosphate."""
    bed = fertilizer_for_bed(0, 0, 0, 10, label_pct=(10, 10, 10))
    assert (bed.product_kg, bed.binding, bed.unasked_phosphorus) == (0, None, None)


def test_label_comes_before_the_figure():
    """The first assumption sends the reader to the bag's label and the extension office."""
    said = Voice().say(fertilizer_for_bed(0.01, 0, 0, 10, label_pct=(10, 10, 10)).assumptions[0])
    assert "label" in said
    assert "extension office" in said


@pytest.mark.parametrize("label", [(10, 10), "10-10-10", (0, 0, 0), (60, 60, 0), (-5, 1, 1), (math.nan, 1, 1)])
def test_labels_that_cannot_be_read(label):
    """A label that is no three percents is refused in one sentence."""
    with pytest.raises(InputProblem):
        fertilizer_for_bed(0.01, 0, 0, 10, label_pct=label)


def test_label_typed_as_fractions_is_asked_about():
    """0.1-0.1-0.1 is asked back as 10-10-10."""
    with pytest.raises(InputProblem, match="10-10-10"):
        fertilizer_for_bed(0.01, 0, 0, 10, label_pct=(0.1, 0.1, 0.1))


def test_bag_without_what_is_needed():
    """Potash cannot come from a bag of nitrogen."""
    with pytest.raises(InputProblem, match="21-0-0"):
        fertilizer_for_bed(0, 0, 0.01, 10, label_pct=(21, 0, 0))


@pytest.mark.parametrize("rate", [0.12, -0.01, math.nan, math.inf, "6,2", True])
def test_rates_that_cannot_be(rate):
    """Ten times the usual rate, as from per 1,000 read as per 100, is refused, and so is what is no number."""
    with pytest.raises(InputProblem):
        fertilizer_for_bed(rate, 0, 0, 10, label_pct=(10, 10, 10))


@pytest.mark.parametrize("area", [0, -4, math.nan, 1e9, "3 m"])
def test_areas_that_cannot_be(area):
    """A bed has an area."""
    with pytest.raises(InputProblem):
        fertilizer_for_bed(0.01, 0, 0, area, label_pct=(10, 10, 10))


def test_tested_mixed_bed_goes_by_the_lab():
    """No published figure fits a mixed bed with a test, so the lab's own rate is asked for."""
    with pytest.raises(InputProblem, match="lab's sheet"):
        feeding_need("mixed", phosphorus="high")


@pytest.mark.parametrize("words", [("tulip", "low"), ("broccoli", "very high"), ("broccoli", 25), (None, "low")])
def test_words_that_are_not_known(words):
    """A crop class or level outside the tables is refused."""
    with pytest.raises(InputProblem):
        feeding_need(words[0], phosphorus=words[1])
