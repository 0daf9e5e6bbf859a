"""Fertilizer and raw manure against what is printed; each figure is typed from the publication."""

from datetime import date

import pytest

from gardenlib.soil import feeding_need, fertilizer_for_bed, manure_wait
from gardenlib.units import KG_PER_POUND, M_PER_FOOT

SQ_FT = M_PER_FOOT**2


def pounds_of_bag(n_lb, sq_ft, label):
    """Give the answer for pounds of nitrogen in so many square feet, all in pounds."""
    rate = n_lb * KG_PER_POUND / (sq_ft * SQ_FT)
    bed = fertilizer_for_bed(rate, 0, 0, sq_ft * SQ_FT, label_pct=label)
    return bed.product_kg / KG_PER_POUND, {key: kg / KG_PER_POUND for key, kg in bed.supplied.items()}


@pytest.mark.parametrize(("label", "product", "p2o5", "k2o"), [((10, 10, 10), 25, 2.5, 2.5), ((5, 10, 10), 50, 5, 5)])
def test_massachusetts_vegetable_garden(label, product, p2o5, k2o):
    """2.5 pounds of N in 1,000 square feet (University of Massachusetts, Fertilizing the vegetable garden)."""
    pounds, supplied = pounds_of_bag(2.5, 1000, label)
    assert pounds == pytest.approx(product)
    assert (supplied["p2o5"], supplied["k2o"]) == pytest.approx((p2o5, k2o))


@pytest.mark.parametrize(
    ("label", "product"),
    [
        ((6, 2, 0), 17),
        ((10, 10, 10), 10),
        ((14, 3, 6), 7),
        ((20, 5, 5), 5),
        ((26, 3, 4), 4),
        ((35, 3, 5), 3),
    ],
)
def test_north_carolina_table_of_bags(label, product):
    """One pound of N in 1,000 square feet (NC State Extension, Caring for your lawn); printed in whole pounds."""
    assert pounds_of_bag(1, 1000, label)[0] == pytest.approx(product, abs=0.5)


def test_north_carolina_example_in_words():
    """One pound of N as 24-6-6 is 4.17 pounds (NC State Extension, Caring for your lawn); two decimals printed."""
    assert pounds_of_bag(1, 1000, (24, 6, 6))[0] == pytest.approx(4.17, abs=0.005)


def test_north_carolina_bag():
    """40 pounds of 10-6-4 hold 4, 2.4 and 1.6 pounds (NC State Extension, Caring for your lawn)."""
    pounds, supplied = pounds_of_bag(4, 4000, (10, 6, 4))
    assert pounds == pytest.approx(40)
    assert supplied == pytest.approx({"n": 4, "p2o5": 2.4, "k2o": 1.6})


def test_oregon_blend():
    """One pound of N as 12-11-2 is about 8 pounds (Oregon State University Extension, 2008); printed as about 8."""
    assert pounds_of_bag(1, 1000, (12, 11, 2))[0] == pytest.approx(8, abs=0.5)


@pytest.mark.parametrize(("label", "product"), [((21, 0, 0), 0.5), ((34, 0, 0), 0.3)])
def test_colorado_side_dressing(label, product):
    """0.1 pound of N in 100 square feet (Colorado State University, GardenNotes 711); one decimal printed."""
    assert pounds_of_bag(0.1, 100, label)[0] == pytest.approx(product, abs=0.05)


def test_raw_manure_touching_the_soil():
    """At least 120 days before the harvest (7 CFR 205.203(c)(1)(ii)); the day is counted by hand on a calendar."""
    wait = manure_wait(date(2026, 9, 1), touches_soil=True)
    assert (wait.days, wait.latest) == (120, date(2026, 5, 4))


def test_raw_manure_apart_from_the_soil():
    """At least 90 days before the harvest (7 CFR 205.203(c)(1)(iii)); the day is counted by hand on a calendar."""
    wait = manure_wait(date(2026, 9, 1), touches_soil=False)
    assert (wait.days, wait.latest) == (90, date(2026, 6, 3))


@pytest.mark.parametrize(("level", "rate"), [("low", 200), ("medium", 100), ("high", 50), ("very_high", 0)])
@pytest.mark.parametrize(("crop_class", "low", "high"), [("broccoli", 150, 200), ("cabbage", 100, 150)])
def test_delaware_cole_crops(crop_class, low, high, level, rate):
    """Pounds an acre by soil test (University of Delaware, Weekly Crop Update); an acre is 43,560 square feet."""
    lb_ac = KG_PER_POUND / (43560 * SQ_FT)
    need = feeding_need(crop_class, phosphorus=level, potassium="medium")
    assert (need.n_kg_m2.low, need.n_kg_m2.high) == pytest.approx((low * lb_ac, high * lb_ac))
    assert need.p2o5_kg_m2 == pytest.approx(rate * lb_ac)
    assert need.k2o_kg_m2 == pytest.approx(100 * lb_ac)


def test_massachusetts_untested_garden():
    """2.5 pounds of N in 1,000 square feet (University of Massachusetts); untested, so no phosphate or potash."""
    need = feeding_need("mixed")
    assert need.n_kg_m2.low == need.n_kg_m2.high == pytest.approx(2.5 * KG_PER_POUND / (1000 * SQ_FT))
    assert (need.p2o5_kg_m2, need.k2o_kg_m2) == (None, None)
