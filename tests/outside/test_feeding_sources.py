"""Fertilizer, compost, raw manure and mixes against what is printed; each figure is typed from the publication."""

from datetime import date

import pytest

from gardenlib.soil import (
    bed_mix,
    compost_for_bed,
    feeding_need,
    fertilizer_for_bed,
    manure_wait,
    phosphorus_found,
    side_dress,
)
from gardenlib.tables import crops
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
    """At least 120 days before the harvest (7 CFR 205.203(c)(1)(ii)); days counted by the calendar."""
    wait = manure_wait(date(2026, 9, 1), touches_soil=True)
    assert (wait.days, wait.latest) == (120, date(2026, 5, 4))


def test_raw_manure_apart_from_the_soil():
    """At least 90 days before the harvest (7 CFR 205.203(c)(1)(iii)); days counted by the calendar."""
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


def test_north_carolina_lawn_of_5000_square_feet():
    """24-6-6 for 5,000 square feet is 20 pounds (NC State Extension, Caring for your lawn): 4.17, rounded, times 5."""
    assert round(pounds_of_bag(1, 1000, (24, 6, 6))[0]) * 5 == 20
    assert pounds_of_bag(5, 5000, (24, 6, 6))[0] == pytest.approx(20, abs=1)


HEAVY = {
    "potato",
    "sweet_corn",
    "broccoli",
    "cauliflower",
    "cabbage_early",
    "cabbage_main",
    "cabbage_storage",
    "cabbage_mini",
    "kale",
}
LIGHT = {"bean_bush", "bean_pole", "pea", "tomato", "cucumber", "squash_summer", "squash_winter"}


@pytest.mark.parametrize("crop", sorted(crops().index))
def test_colorado_heavy_and_light_feeders(crop):
    """The crops that the page lists, no others (Colorado State University, GardenNotes 711); "vine crops" are ours."""
    feeds = "heavy" if crop in HEAVY else "light" if crop in LIGHT else "unlisted"
    assert side_dress(crop, 10).feeds == feeds


@pytest.mark.parametrize(("label", "product"), [((21, 0, 0), 0.5), ((34, 0, 0), 0.3)])
def test_colorado_side_dressing_of_a_heavy_feeder(label, product):
    """100 square feet of kale take 0.5 pound of 21-0-0 or 0.3 of 34-0-0 (GardenNotes 711); one decimal printed."""
    again = side_dress("kale", 100 * SQ_FT)
    bag = fertilizer_for_bed(again.n_kg_m2, 0, 0, 100 * SQ_FT, label_pct=label)
    assert bag.product_kg / KG_PER_POUND == pytest.approx(product, abs=0.05)


def test_colorado_cup_and_kansas_warning():
    """Half a pound of 21-0-0 is about a cup (GardenNotes 711); no weed killer in the bag (Kansas State University)."""
    said = {item.key: item.values for item in side_dress("kale", 10).assumptions}
    assert said["feeding.cup"]["weight"].value / KG_PER_POUND == pytest.approx(0.5)
    assert "feeding.no_weed_killer" in said


@pytest.mark.parametrize(
    ("crop", "delaware"), [("broccoli", [(2, 3), (4, 6)]), ("cabbage_main", [(2, 3)]), ("cauliflower", [(2, 3)])]
)
def test_weeks_after_planting(crop, delaware):
    """Parts after planting (University of Delaware), about 3 weeks after transplanting (Kansas State University)."""
    weeks = {}
    for time in side_dress(crop, 10).times:
        weeks.setdefault(time.source, []).append((time.weeks.low, time.weeks.high))
    assert weeks == {"delaware_cole_rates": delaware, "kansas_cole_2020": [(3, 3)]}


def test_minnesota_community_gardens():
    """All 20 gardens over, 27 to 244 ppm, very high from 25 on the Bray test (University of Minnesota Extension)."""
    found = phosphorus_found()
    assert (found.gardens, found.over, found.very_high_ppm) == (20, 20, 25)
    assert (found.found_ppm.low, found.found_ppm.high) == (27, 244)


@pytest.mark.parametrize(
    ("inches", "verdict"), [(0.5, "ok"), (1, "ok"), (1.5, "over_year"), (3, "over_year"), (4, "too_deep")]
)
def test_depth_of_compost(inches, verdict):
    """About an inch in a year (University of Minnesota), at most 3 at one time (North Carolina, compost guidelines)."""
    assert compost_for_bed(10, inches * M_PER_FOOT / 12, phosphorus="medium").verdict == verdict


def test_no_compost_where_phosphorus_is_very_high():
    """None for a few years, at any depth (University of Minnesota Extension)."""
    assert compost_for_bed(10, 0.005, phosphorus="very_high").verdict == "none"


def test_colorado_release_of_compost():
    """2 to 4 % nitrogen, 5 to 25 % of it in the first year (Colorado State University, GardenNotes 711)."""
    step = next(step for step in compost_for_bed(10, 0.02).steps if step.key == "compost.nitrogen")
    nitrogen, free = step.inputs["nitrogen"], step.inputs["set free"]
    assert (nitrogen.low, nitrogen.high, free.low, free.high) == pytest.approx((2, 4, 5, 25))
    # The published shares alone make the high end ten times the low one; the unchecked weight can only widen it.
    assert step.result.high / step.result.low >= (4 * 25) / (2 * 5)


def test_maryland_raised_bed_in_two_parts():
    """32 cubic feet at one part of compost to two of topsoil, and to one (University of Maryland Extension 2019).

    The ratio is published; 10.67 and 21.33 cubic feet follow by division.
    """
    cu_ft = M_PER_FOOT**3
    mix = bed_mix(8 * M_PER_FOOT, 4 * M_PER_FOOT, M_PER_FOOT)
    assert (mix.compost_m3.low / cu_ft, mix.soil_m3.high / cu_ft) == pytest.approx((10.67, 21.33), abs=0.005)
    assert (mix.compost_m3.high / cu_ft, mix.soil_m3.low / cu_ft) == pytest.approx((16, 16))


def test_maryland_share_of_organic_matter():
    """Compost stays within 25 to 50 % by volume (University of Maryland Extension, Soil to fill raised beds)."""
    mix = bed_mix(2, 1, 0.4)
    assert 0.25 <= mix.compost_m3.low / mix.volume_m3 <= mix.compost_m3.high / mix.volume_m3 <= 0.5


def test_maryland_ph_and_retest():
    """A pH of 6.2 to 6.8, and a test after one year (University of Maryland Extension, Soil to fill raised beds)."""
    said = next(said for said in bed_mix(2, 1, 0.4).assumptions if said.key == "mixes.retest")
    assert (said.values["low"], said.values["high"], said.values["after"].value) == (6.2, 6.8, 1)
    assert said.values["after"].unit == "years"
