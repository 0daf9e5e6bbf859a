"""Feeding again, a bag for the whole season and a liquid feed: what is told, and what is refused."""

import math
import re
from datetime import UTC, date, datetime

import pytest

from gardenlib.problems import InputProblem
from gardenlib.soil import feeding_for_bed, label_numbers, liquid_feed, side_dress
from gardenlib.soil.liquid import FL_OZ_PER_GALLON
from gardenlib.units import KG_PER_POUND, LITRES_PER_GALLON, M_PER_FOOT
from gardenlib.words import Voice

SQ_FT_100 = 100 * M_PER_FOOT**2
FL_OZ = LITRES_PER_GALLON / 128


def test_weeks_become_days_of_the_calendar():
    """Two to three weeks after April 10 are April 24 to May 1: days counted by the calendar."""
    times = side_dress("cabbage_main", 10, planted_on=date(2027, 4, 10)).times
    assert times[0].days == (date(2027, 4, 24), date(2027, 5, 1))


def test_without_a_day_there_are_weeks_alone():
    """No day of planting gives no dates."""
    assert all(time.days is None for time in side_dress("cabbage_main", 10).times)


@pytest.mark.parametrize(
    ("crop", "told"), [("tomato", "light feeder"), ("basil", "does not list"), ("x", "does not list")]
)
def test_no_amount_where_none_is_published(crop, told):
    """Light and unlisted crops get no amount, and the reason is said."""
    again = side_dress(crop, 10)
    assert (again.n_kg, again.n_kg_m2, again.times) == (None, None, ())
    assert told in " ".join(Voice().say(said) for said in again.assumptions)


@pytest.mark.parametrize("day", ["2027-04-10", 5, datetime(2027, 4, 10, tzinfo=UTC), date(9999, 12, 30)])
def test_days_that_cannot_be(day):
    """What is no date, or runs past the calendar, is refused in one sentence."""
    with pytest.raises(InputProblem, match="day of planting"):
        side_dress("cabbage_main", 10, planted_on=day)


@pytest.mark.parametrize("area", [0, -1, math.nan, math.inf, "6,2", None])
def test_areas_that_cannot_be(area):
    """A bed has an area, also for a crop that is not fed again."""
    for crop in ("kale", "tomato"):
        with pytest.raises(InputProblem, match="area_m2"):
            side_dress(crop, area)


# ---- a liquid feed ---------------------------------------------------------------------------------


def test_ounce_in_a_gallon():
    """A fluid ounce of 5-1-1 at 1.15 kg a litre holds 1.7 g of nitrogen: 29.57 ml times 1.15 times 0.05, by hand.

    The weight of a litre is given here, not taken from the table, where it is unchecked.
    """
    gallon = {"can_litres": LITRES_PER_GALLON, "product_kg_litre": 1.15, "mix_fraction": 1 / 128}
    feed = liquid_feed(0.1 * KG_PER_POUND / SQ_FT_100, SQ_FT_100, n_pct=5, **gallon)
    assert feed.can_kg * 1000 == pytest.approx(1.70, abs=0.005)
    # 0.1 pound are 45.36 g, and 45.36 / 1.70 are 26.7: ounces of product, and gallons of mix.
    assert feed.product_litres / FL_OZ == pytest.approx(26.7, abs=0.05)
    assert feed.cans == pytest.approx(26.7, abs=0.05)
    assert feed.mix_litres / LITRES_PER_GALLON == pytest.approx(26.7, abs=0.05)


def test_fluid_ounces_in_a_gallon():
    """3.785412 litres through 29.57353 millilitres (NIST Special Publication 811, appendix B.8)."""
    ounces = 3.785412 / 0.02957353
    assert ounces == pytest.approx(FL_OZ_PER_GALLON, abs=0.001)


def test_figures_from_memory_are_said_to_be_unchecked():
    """Where the table's figures stand in, both are named as unchecked; given ones are not."""
    said = [Voice().say(item) for item in liquid_feed(0.001, 10, n_pct=5).assumptions]
    assert sum("Unchecked" in words for words in said) == 2
    given = liquid_feed(0.001, 10, n_pct=5, product_kg_litre=1.0, mix_fraction=0.01)
    assert not any("Unchecked" in Voice().say(item) for item in given.assumptions)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("n_pct", 0.01),
        ("n_pct", 500),
        ("n_pct", math.nan),
        ("can_litres", -9),
        ("product_kg_litre", 9.6),
        ("mix_fraction", 2),
        ("mix_fraction", "1:100"),
    ],
)
def test_liquid_feeds_that_cannot_be(name, value):
    """A number that no bottle or can has is refused in one sentence."""
    with pytest.raises(InputProblem, match=name):
        liquid_feed(0.001, 10, **{"n_pct": 5, name: value})


def test_bottle_without_nitrogen():
    """A bottle whose first number is 0 cannot feed nitrogen."""
    with pytest.raises(InputProblem, match="holds no nitrogen"):
        liquid_feed(0.001, 10, n_pct=0)


# ---- a bag for the season --------------------------------------------------------------------------


def test_range_of_nitrogen_stays_a_range():
    """Where nitrogen sets the weight, both ends of its range are kept."""
    bed = feeding_for_bed("broccoli", 10, label_pct=(21, 0, 0), phosphorus="very_high", potassium="very_high")
    assert bed.weight.high / bed.weight.low == pytest.approx(200 / 150)
    assert (bed.binding, bed.short) == ("n", {})


def test_nutrient_that_is_full_first_stops_the_bag():
    """Broccoli with 50 pounds of phosphate and 10-10-10: 150 to 200 pounds of N leave 100 to 150 short."""
    bed = feeding_for_bed("broccoli", 4046.8564224, label_pct=(10, 10, 10), phosphorus="high", potassium="high")
    assert bed.weight.low == bed.weight.high == pytest.approx(500 * KG_PER_POUND)
    assert (bed.short["n"].low, bed.short["n"].high) == pytest.approx((100 * KG_PER_POUND, 150 * KG_PER_POUND))


def test_high_phosphorus_means_no_compost_for_a_while():
    """High and very high say so, with the study; lower levels do not."""
    for level, plenty in (("low", False), ("medium", False), ("high", True), ("very_high", True)):
        bed = feeding_for_bed("cabbage", 10, label_pct=(10, 10, 10), phosphorus=level)
        assert (bed.no_compost is not None) is plenty
    assert "no compost" in Voice().say(bed.no_compost)
    assert "20 of 20" in Voice().say(bed.no_compost)


def test_mixed_bed_with_a_test_points_to_the_lab():
    """No published figure fits, so the nitrogen stands alone and the lab's rate is named first."""
    bed = feeding_for_bed("mixed", 10, label_pct=(10, 10, 10), phosphorus="high")
    assert set(bed.need) == {"n"}
    said = [Voice().say(item) for item in bed.assumptions]
    assert "own rate" in said[0]
    assert not any("Without a soil test" in words for words in said)


@pytest.mark.parametrize(
    "text", ["10-10", "", "ten-ten-ten", "-5-1-1", "60-60-60", "nan-1-1", "5,1-1-1", "1e9-0-0", None]
)
def test_labels_that_are_none(text):
    """What is no label is refused in one sentence."""
    with pytest.raises(InputProblem):
        label_numbers(text)


@pytest.mark.parametrize(
    ("text", "label"),
    [("12.5-1.5-0.6", (12.5, 1.5, 0.6)), (" 5 - 1 - 1 ", (5, 1, 1)), ("5\N{EN DASH}1\N{EN DASH}1", (5, 1, 1))],
)
def test_labels_as_they_are_typed(text, label):
    """Spaces and long hyphens are read."""
    assert label_numbers(text) == label


@pytest.mark.parametrize("typed", ["10-10", "10-10-10-10", "nan-1-1", "inf-0-0", "", "6,2"])
def test_a_label_is_refused_as_it_was_typed(typed):
    """Two or four numbers, and what is none, are told back as they stand, with an example."""
    with pytest.raises(InputProblem, match=re.escape(f"The label reads {typed or '-'}. Type the three numbers")):
        label_numbers(typed)
