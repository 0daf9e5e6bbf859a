"""Beds against publications: plants to the acre, bed counts, years of rotation, weights of heads."""

import math

import pytest

from gardenlib import beds, tables

INCH, FOOT = 0.0254, 0.3048
ACRE_SQ_FT = 43_560


@pytest.mark.parametrize(
    ("in_row", "row", "published"),
    # Bailey, Farm and Garden Rule-Book (Macmillan, early 20th century), plants to the acre, fraction dropped.
    [
        (3, 6, 348_480),
        (3, 7, 298_697),
        (3, 8, 261_360),
        (3, 12, 174_240),
        (4, 4, 392_040),
        (4, 7, 224_022),
        (4, 10, 156_816),
        (24, 36, 7_260),
    ],
)
def test_plants_to_the_acre(in_row, row, published):
    """A square acre in rows holds what the rule book prints, but for the last part of a row along two edges."""
    side_in = math.sqrt(ACRE_SQ_FT) * 12
    found = beds.plants_that_fit(
        side_in * INCH, side_in * INCH, in_row * INCH, pattern="rows", row_spacing_m=row * INCH
    )
    # On each edge less than one row and one place is lost or won.
    edge = side_in / in_row + side_in / row + 1
    assert found == pytest.approx(published, abs=edge)


@pytest.mark.parametrize(("in_row_cm", "row_cm", "published"), [(50, 50, 40_000), (50, 30, 66_667)])
def test_plants_on_a_hectare(in_row_cm, row_cm, published):
    """Tegen and Jembere 2022, abstract: 40,000 and 66,667 plants a hectare; the longest side here is 100 m."""
    found = beds.plants_that_fit(100, 100, in_row_cm / 100, pattern="rows", row_spacing_m=row_cm / 100)
    assert found == pytest.approx(published, abs=10_000 / in_row_cm + 10_000 / row_cm + 1)


@pytest.mark.parametrize(
    ("bed", "spacing", "margin", "square", "offset"),
    # Worked out by hand for this course from plane geometry, not printed anywhere: inches. The better of two offset
    # ways, lines along the length or along the width.
    [
        ((96, 48), 4, 2, 288, 311),
        ((96, 48), 6, 3, 128, 140),
        ((96, 48), 8, 4, 72, 72),
        ((96, 48), 10, 5, 36, 45),
        ((96, 48), 12, 6, 32, 32),
        ((96, 48), 15, 7.5, 18, 18),
        ((96, 48), 18, 9, 10, 12),
        ((96, 48), 24, 12, 8, 7),
        ((120, 36), 12, 6, 30, 29),
        ((600, 30), 15, 7.5, 80, 79),
        ((96, 48), 18, 6, 15, 15),
    ],
)
def test_bed_counts(bed, spacing, margin, square, offset):
    """Squares, and the better of the two offset ways, as reckoned by hand; offset is not always more."""
    found = beds.bed_count(bed[0] * INCH, bed[1] * INCH, spacing * INCH, margin_m=margin * INCH)
    assert (found.square, found.offset, found.gain) == (square, offset, offset - square)


def test_peppers_along_a_row():
    """University of Maine, planting chart: 10 ft of row at 18 in give 6 to 7 peppers."""
    one_row = {"pattern": "rows", "row_spacing_m": 1.0}
    found = [beds.plants_that_fit(10 * FOOT, 0.5, 18 * INCH, margin_m=m, **one_row) for m in (None, 0.0)]
    assert found == [6, 7]


@pytest.mark.parametrize(
    ("crop", "low", "high"),
    # University of Arizona, Intensive Gardening Methods, recommended spacing (inches), Colorado State, block layout.
    [
        ("kale", 15, 18),
        ("head", 10, 12),
        ("pepper", 12, 15),
        ("tomato", 18, 24),
        ("spinach", 4, 6),
        ("lettuce_leaf", 4, 6),
        ("onion_sets", 2, 4),
        ("pea", 2, 4),
        ("broccoli", 12, 18),
    ],
)
def test_distances_each_way(crop, low, high):
    """Each way in a bed, as the lists print it."""
    found = beds.crop_spacing("lettuce_head" if crop == "head" else crop).bed
    assert (found.low / 2.54, found.high / 2.54) == pytest.approx((low, high))


def test_distances_in_rows():
    """Minnesota and Missouri print kale at 8 in, Illinois (Allsup 2021) at 18 to 24: the range stays a range."""
    found = beds.crop_spacing("kale").in_row
    assert (found.low / 2.54, found.high / 2.54) == pytest.approx((8, 24))


@pytest.mark.parametrize(
    ("what", "low", "high"),
    # Minnesota, Growing collards and kale: four years without. Iowa State 1992: once every 3 or 4 years.
    # Connecticut, rotation periods: clubroot seven years. First years reckoned from these for a crop of 2026.
    [("kale_relatives", 2031, 2031), ("cole_crops", 2029, 2030), ("clubroot", 2034, 2034), ("general", 2029, 2030)],
)
def test_first_year_back(what, low, high):
    """The first year in which cabbages of 2026 may be followed by their family."""
    table = beds.rotation_of("Brassicaceae", [["Brassicaceae"]], year=2027, disease="clubroot").table
    row = table[table.what == what].iloc[0]
    assert (row.from_low, row.from_high) == (low, high)


def test_chard_may_follow_cabbage_but_turnip_may_not():
    """Maryland, vegetable families: chard is no cabbage. Minnesota: turnip is of the cabbage family."""
    grew = [[tables.crop("cabbage_main").family]]
    families = [tables.crop(crop).family for crop in ("swiss_chard", "turnip")]
    assert [beds.rotation_of(family, grew, year=2027).last_year for family in families] == [None, 2026]


def test_early_blight_year_by_year():
    """MacNab and Zitter, tables 1 and 2: 3, 30, 74 and 70 % of leaves lost in the first to the fourth year."""
    assert tables.table("early_blight").leaves_lost_pct.tolist() == [3, 30, 74, 70]


def test_heads_of_cabbage():
    """Tegen and Jembere 2022, abstract: 923 g at 35 by 30 cm and over 1400 g at 50 by 50 cm enclose 40 cm each way."""
    head = beds.closeness_of("cabbage_main", 0.4).head
    assert (head.low, head.high, head.unit) == (0.923, 1.4, "kg")
