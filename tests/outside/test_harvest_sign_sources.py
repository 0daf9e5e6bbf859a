"""Signs of ripeness, second cuts and amounts to preserve, against the publications that print them."""

import pytest

from gardenlib.harvest import crops_to_preserve, freezer_to_fill, harvest_signs, jars_to_fill
from gardenlib.units import KG_PER_POUND

CM_PER_INCH = 2.54

# Sizes in inches as printed. Iowa State University Extension, Harvesting cole crops (2019, 2020): broccoli heads 6 to
# 7, Brussels sprouts 1 to 1 1/2, cauliflower 6 to 8. National Center for Appropriate Technology, When should I harvest
# cole crops?: kohlrabi 2 to 3, kale and collard leaves 8 to 14. Kansas harvest table after state extension: beets 1 1/4
# to 2.
PRINTED_SIZES_IN = {
    "broccoli": (6, 7),
    "brussels_sprouts": (1, 1.5),
    "cauliflower": (6, 8),
    "kohlrabi": (2, 3),
    "kale": (8, 14),
    "collards": (8, 14),
    "beet": (1.25, 2),
}


@pytest.mark.parametrize("crop", PRINTED_SIZES_IN)
def test_sizes_are_the_printed_ones(crop):
    """The size at which a crop is cut is the printed one, named above the list."""
    found = harvest_signs(crop)
    low, high = PRINTED_SIZES_IN[crop]
    assert (found.size.low, found.size.high) == pytest.approx((low * CM_PER_INCH, high * CM_PER_INCH))
    assert found.checked


def test_second_cuts_are_the_printed_ones():
    """Associated Press (about 2021): two to four or more shoots on a stump; Iowa State (2020): side heads 1 to 3 in."""
    stump = harvest_signs("cabbage_early").second_heads
    assert (stump.low, stump.high, stump.unit) == (2, 4, "heads")
    side = harvest_signs("broccoli").second_heads
    assert (side.low, side.high) == pytest.approx((1 * CM_PER_INCH, 3 * CM_PER_INCH))


def test_cabbage_is_judged_by_the_thumb():
    """UC Davis Produce Facts: only slightly compressible by the hand; Ontario: for storage slightly immature."""
    found = harvest_signs("cabbage_storage")
    assert "davis_cabbage" in {key for sign in found.of("sign") for key in sign.sources}
    assert [sign.sources for sign in found.of("keep")] == [("ontario_cabbage",)]
    assert found.second_heads is None


# National Center for Home Food Preservation, pounds for a load of 7 quarts, as a page compiled them; typed here.
LOADS_LB = {
    "tomato": 22,
    "beet": 21,
    "bean_bush": 14,
    "carrot": 17.5,
    "sweet_corn": 31.5,
    "pea": 31.5,
    "potato": 20,
    "sweet_potato": 17.5,
    "spinach": 28,
}


# The same page: pounds of a bushel, and the quarts it gives; beets also by Michigan (1996), tomatoes by Georgia (2006).
BUSHELS = {
    "tomato": (53, 15, 20),
    "beet": (52, 15, 20),
    "bean_bush": (31, 12, 20),
    "carrot": (50, 17, 25),
    "sweet_corn": (35, 6, 11),
    "pea": (30, 5, 10),
    "potato": (50, 18, 22),
    "sweet_potato": (50, 17, 25),
    "spinach": (18, 3, 9),
}


@pytest.mark.parametrize("crop", LOADS_LB)
def test_the_amount_spans_bushel_and_load(crop):
    """Seven quarts take from the least to the most that the printed bushel and the printed load give."""
    found = jars_to_fill(crop, 7).to_get
    pounds, few, many = BUSHELS[crop]
    printed = [pounds / many * 7, pounds / few * 7, LOADS_LB[crop]]
    assert found.low / KG_PER_POUND == pytest.approx(min(printed))
    assert found.high / KG_PER_POUND == pytest.approx(max(printed))


def test_tomatoes_and_beets_by_the_quart():
    """Georgia (2006): 2.5 to 3.5 lb of tomatoes a quart; Michigan (1996): 2.5 to 3 lb of beets, printed rounded."""
    tomato, beet = (jars_to_fill(crop, 1).to_get for crop in ("tomato", "beet"))
    assert (tomato.low / KG_PER_POUND, tomato.high / KG_PER_POUND) == pytest.approx((2.5, 3.5), abs=0.2)
    assert beet.low / KG_PER_POUND == pytest.approx(2.5, abs=0.2)


def test_a_batch_of_kraut():
    """Michigan State University Extension 01600078 (1998): 25 lb of cabbage make about 9 quarts."""
    found = jars_to_fill("cabbage_main", 9, way="crock")
    assert found.to_get.low == found.to_get.high == pytest.approx(25 * KG_PER_POUND)
    assert found.work_days.high == 1


# USDA National Nutrient Database, release 28 (2016), FOOD_DES, refuse in percent.
REFUSE_PCT = {"cabbage_main": 20, "broccoli": 39, "cauliflower": 61, "brussels_sprouts": 10, "kale": 28, "kohlrabi": 54}


@pytest.mark.parametrize("crop", REFUSE_PCT)
def test_what_is_bought_holds_the_refuse(crop):
    """Taking the published refuse from what is bought leaves what was wanted; 20 lb of cabbage need 25 lb."""
    bought = freezer_to_fill(crop, 10.0).to_get
    assert bought.low * (1 - REFUSE_PCT[crop] / 100) == pytest.approx(10.0)
    assert crop in crops_to_preserve("freezer")
