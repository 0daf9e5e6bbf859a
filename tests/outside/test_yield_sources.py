"""Yields, edible parts, cups and weekly cups against the figures their publishers print.

Every expected value is typed from the publication or worked out by hand from it, never from the program.
"""

import pytest

from gardenlib.harvest import expected_yield, guides_say, weekly_cups
from gardenlib.harvest.figures import edible_fraction, grams

POUND, FOOT = 0.45359237, 0.3048  # exact: NIST Special Publication 811 (2008), appendix B.8


@pytest.mark.parametrize(
    ("crop", "feet", "low", "high"),
    # Pounds; lowest and highest of Kansas MF315, Kentucky ID-128, Maine, Florida SP103 and Tennessee ANR-3, as far as
    # each prints the crop, for 100 ft (Maine and Florida for 10 ft): broccoli 50 to 100, carrot 100, bush bean 45 to
    # 120, kale 100 to 150, pea 20 to 100, spinach 40 to 50, cauliflower 50 to 100, cabbage 120 to 200.
    [
        ("broccoli", 25, 12.5, 25),
        ("carrot", 10, 10, 10),
        ("bean_bush", 20, 9, 24),
        ("kale", 10, 10, 15),
        ("pea", 30, 6, 30),
        ("spinach", 20, 8, 10),
        ("cauliflower", 50, 25, 50),
        ("cabbage_main", 100, 120, 200),
        ("turnip", 10, 25, 25),
    ],
)
def test_yield_of_a_row(crop, feet, low, high):
    """A length of row gives what the lowest and the highest source print for it."""
    found = expected_yield(crop, row_m=feet * FOOT).kg
    assert (found.low / POUND, found.high / POUND) == pytest.approx((low, high), rel=1e-9)


@pytest.mark.parametrize(
    ("crop", "plants", "low", "high"),
    # Maine, Planting Chart for the Home Vegetable Garden: pounds for one plant: cabbage 0.75 to 3, eggplant 4 to 5,
    # tomato 8.
    [("cabbage_main", 4, 3, 12), ("eggplant", 2, 8, 10), ("tomato", 3, 24, 24)],
)
def test_yield_of_plants(crop, plants, low, high):
    """Where a source prints a yield for one plant it is used as it stands."""
    found = expected_yield(crop, plants=plants).kg
    assert (found.low / POUND, found.high / POUND) == pytest.approx((low, high), rel=1e-9)


def test_ears_of_sweet_corn():
    """Kansas and Kentucky print 10 dozen ears for 100 ft, Maine 20 to 24 ears for 10 ft: 120 to 240 ears."""
    found = expected_yield("sweet_corn", row_m=100 * FOOT)
    ears = [step.result for step in found.steps if step.key == "much.row"]
    assert min(one.low for one in ears) == pytest.approx(120)
    assert max(one.high for one in ears) == pytest.approx(240)
    # USDA SR28, food 11167: a small ear yields 73 g, a large one 143 g; refuse 64 %.
    assert (found.kg.low, found.kg.high) == pytest.approx((120 * 0.073 / 0.36, 240 * 0.143 / 0.36))


def test_yield_by_area_of_rows():
    """Cabbage at 120 to 200 lb for 100 ft, rows 24 in apart, is 0.6 to 1.0 lb a square foot (computed by hand)."""
    found = expected_yield("cabbage_main", area_m2=FOOT**2, rows_apart_m=2 * FOOT).kg
    assert (found.low / POUND, found.high / POUND) == pytest.approx((0.6, 1.0), rel=1e-9)


def test_mixed_gardens():
    """Rutgers 2012 prints 0.5 lb a square foot, Ohio State 2010 1.24 in a raised bed: 32 sq ft give 16 to 39.7 lb."""
    found = expected_yield("cabbage_main", area_m2=32 * FOOT**2).mixed_kg
    assert found.low / POUND == pytest.approx(16)
    assert found.high / POUND == pytest.approx(39.7, abs=0.05)


@pytest.mark.parametrize(
    ("crop", "refuse_pct"),
    # USDA SR28, food descriptions, refuse in percent of the weight as bought.
    [
        ("cabbage_main", 20),
        ("broccoli", 39),
        ("cauliflower", 61),
        ("brussels_sprouts", 10),
        ("kale", 28),
        ("collards", 43),
        ("kohlrabi", 54),
        ("carrot", 11),
        ("beet", 33),
        ("onion_sets", 10),
        ("leek", 56),
        ("potato", 25),
        ("spinach", 28),
        ("swiss_chard", 8),
        ("bean_bush", 12),
        ("tomato", 9),
        ("pepper", 18),
    ],
)
def test_trim_loss(crop, refuse_pct):
    """What is left to eat is the weight as picked less USDA's refuse."""
    found = expected_yield(crop, plants=10)
    assert found.edible_kg.low / found.kg.low == pytest.approx(1 - refuse_pct / 100)


def test_peas_are_not_shelled_twice():
    """100 ft give 20 lb (Kansas, probably shelled) to 100 lb of pods (Maine), 38 % eaten: 20 to 38 lb (by hand)."""
    found = expected_yield("pea", row_m=100 * FOOT).edible_kg
    assert (found.low / POUND, found.high / POUND) == pytest.approx((20, 38))


def test_pounds_to_buy_for_trimmed_cabbage():
    """20 lb of trimmed cabbage need 25 lb (USDA SR28, refuse 20 %; computed by hand)."""
    found = expected_yield("cabbage_main", plants=1)
    assert 20 * found.kg.low / found.edible_kg.low == pytest.approx(25.0)


def test_cups_of_cabbage():
    """A pound of cabbage as bought fills 4.1 cups chopped (89 g) or 5.2 shredded (70 g): USDA SR28, food 11109."""
    found = expected_yield("cabbage_main", plants=1)
    assert found.servings.low / (found.kg.low / POUND) == pytest.approx(4.1, abs=0.05)
    assert found.servings.high / (found.kg.high / POUND) == pytest.approx(5.2, abs=0.05)


def test_cups_of_carrot_and_broccoli():
    """10 lb of carrots are 31.5 cups chopped (128 g), 5 lb of broccoli 15.2 (91 g): USDA SR28, computed by hand."""
    assert expected_yield("carrot", row_m=10 * FOOT).servings.low == pytest.approx(31.5, abs=0.1)
    assert expected_yield("broccoli", row_m=10 * FOOT).servings.low == pytest.approx(15.2, abs=0.1)


def test_a_head_of_cabbage():
    """USDA SR28, food 11109: heads of 714 to 1248 g; a medium one of 908 g weighed 1135 g as grown."""
    head, part = grams("cabbage_main", "piece"), edible_fraction("cabbage_main")
    assert (head.low, head.high) == (714, 1248)
    assert 908 / part.low == pytest.approx(1135)


@pytest.mark.parametrize(("crop", "cup_g", "counts"), [("lettuce_leaf", 36, 0.5), ("kale", 16, 0.5), ("beet", 136, 1)])
def test_raw_leafy_greens_count_half(crop, cup_g, counts):
    """MyPlate: two cups of raw leafy greens count as one; cups by USDA SR28."""
    found = expected_yield(crop, plants=20)
    assert found.servings.low == pytest.approx(found.edible_kg.low * 1000 / cup_g * counts)


@pytest.mark.parametrize(
    ("people", "low", "high"),
    # MyPlate, Vegetables, daily table, times seven days.
    [
        ([("women", 40), ("men", 40), ("girls", 10), ("children", 6)], 56.0, 87.5),
        ([("men", 19)], 21, 28),
        ([("men", 75)], 17.5, 24.5),
        ([("women", 60)], 14, 21),
        ([("boys", 18)], 17.5, 28),
        ([("children", 3)], 7, 10.5),
        ([("toddlers", 1)], 4.67, 7),
    ],
)
def test_weekly_cups(people, low, high):
    """A household's cups for a week are the sum of the published daily cups, times seven."""
    found = weekly_cups(people).cups
    assert (found.low, found.high) == pytest.approx((low, high), abs=0.005)


@pytest.mark.parametrize(
    ("crop", "people", "use", "expected"),
    # Kansas MF315 3 to 4 and Missouri G6201 3 to 5 plants of cabbage a person, fresh; Kentucky ID-128 5 to 10, put by;
    # dry onions: Kansas 3 to 5 ft, Missouri 25 to 50 ft.
    [
        ("cabbage_main", 4, "fresh", (12, 20, "plants")),
        ("cabbage_main", 4, "preserved", (12, 40, "plants")),
        ("onion_sets", 1, "fresh", (3 * FOOT, 50 * FOOT, "m")),
    ],
)
def test_planting_guides(crop, people, use, expected):
    """The guides' plants or feet for each person, lowest to highest, times the people."""
    found = guides_say(crop, people, use)
    assert (found.low, found.high) == pytest.approx(expected[:2])
    assert found.unit == expected[2]


def test_plants_of_a_row_by_the_source_s_own_distance():
    """Maine prints tomatoes 18 to 36 in apart and 8 lb a plant: 36 ft hold 12 to 24 plants, 96 to 192 lb (by hand)."""
    found = expected_yield("tomato", row_m=36 * FOOT).kg
    assert (found.low / POUND, found.high / POUND) == pytest.approx((96, 192))


def test_bed_in_rows_by_the_published_distances():
    """Spinach rows stand 12 to 18 in apart (Maine): 18 sq ft hold 12 to 18 ft, at 40 to 50 lb for 100 ft (by hand)."""
    found = expected_yield("spinach", area_m2=18 * FOOT**2).kg
    assert (found.low / POUND, found.high / POUND) == pytest.approx((4.8, 9.0))
