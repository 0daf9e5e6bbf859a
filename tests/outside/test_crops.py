"""Crop figures against the publications they come from; expected values are typed from the publication."""

import pytest

from gardenlib import tables


def _by_source(crop, field, source):
    frame = tables.table("crop_timing_by_source")
    row = frame[(frame["crop"] == crop) & (frame["field"] == field) & (frame["source"] == source)].iloc[0]
    return row["low"], row["high"], row["unit"]


@pytest.mark.parametrize(
    ("crop", "field", "source", "expected"),
    [
        # University of Illinois Extension, Mason, 27 March 2014: hardy transplants 4 to 6 weeks before the last frost.
        ("cabbage_main", "transplant_wk", "illinois_mason", (-6, -4, "weeks")),
        # The same: frost-tolerant transplants 2 to 3 weeks before.
        ("cauliflower", "transplant_wk", "illinois_mason", (-3, -2, "weeks")),
        # Purdue Extension HO-203: frost tolerant, 2 to 3 weeks before.
        ("cabbage_main", "transplant_wk", "purdue_ho203", (-3, -2, "weeks")),
        # Purdue Extension HO-203: tender, on or after the date.
        ("tomato", "transplant_wk", "purdue_ho203", (0, 0, "weeks")),
        # Purdue Extension HO-203: warm loving, 1 to 2 weeks after.
        ("pepper", "transplant_wk", "purdue_ho203", (1, 2, "weeks")),
        # University of Idaho CIS 1209: cool-season transplants 2 to 5 weeks before.
        ("broccoli", "transplant_wk", "idaho_cis1209", (-5, -2, "weeks")),
        # University of Idaho CIS 1209, table 1: weeks indoors.
        ("cabbage_main", "weeks_indoor", "idaho_cis1209", (5, 7, "weeks")),
        ("tomato", "weeks_indoor", "idaho_cis1209", (5, 9, "weeks")),
        # Iowa State University Extension, 18 March 1992: 4 to 5 weeks indoors.
        ("broccoli", "weeks_indoor", "iowa_cole_1992", (4, 5, "weeks")),
        # Virginia Cooperative Extension 426-331 (2006), chart: cabbage 40 days before the last killing frost up to it.
        ("cabbage_main", "transplant_wk", "virginia_426_331_2006", (-40, 0, "days")),
        # The same chart: broccoli 30 days before to 10 after.
        ("broccoli", "transplant_wk", "virginia_426_331_2006", (-30, 10, "days")),
        # University of Maryland Extension GE 007, days to harvest from seeding.
        ("carrot", "days_from_seed", "maryland_ge007", (65, 75, "days")),
        ("kohlrabi", "days_from_seed", "maryland_ge007", (40, 45, "days")),
        # Tennessee State University ANR-3 (2011): days to first harvest of plants.
        ("broccoli", "days_from_transplant", "tennessee_state_anr3", (60, 70, "days")),
    ],
)
def test_a_source_s_own_figure_is_kept(crop, field, source, expected):
    """Each source's figure stands in the table as the source prints it."""
    assert _by_source(crop, field, source) == expected


@pytest.mark.parametrize(
    ("crop", "mean_f"),
    [
        # Knott's Handbook 1997, approximate monthly temperatures for best growth and quality, column "maximum".
        ("garlic", 85),
        ("cabbage_main", 75),
        ("lettuce_leaf", 75),
        ("potato", 75),
        ("bean_bush", 80),
        ("sweet_corn", 95),
        ("squash_winter", 90),
        ("cucumber", 90),
        ("pepper", 80),
        ("tomato", 80),
        ("eggplant", 95),
        ("sweet_potato", 95),
    ],
)
def test_heat_limits_are_those_of_the_handbook(crop, mean_f):
    """The highest monthly mean for growth is the handbook's, held in degrees Celsius."""
    assert tables.crop(crop).growth_max_mean_c == pytest.approx((mean_f - 32) / 1.8)


def test_a_heat_limit_that_the_handbook_lacks_is_marked_unchecked():
    """Arugula and pak choi are not in the handbook's table: their limit is from memory; basil has none."""
    assert tables.crop("arugula").growth_status == tables.crop("pak_choi").growth_status == "memory"
    assert tables.crop("basil").growth_max_mean_c is None


@pytest.mark.parametrize(
    ("crop", "days"),
    # Harrington and Minges 1954, column 50 F (10 C), reprinted in Knott's Handbook 1997.
    [
        ("carrot", 17),
        ("beet", 17),
        ("lettuce_leaf", 7),
        ("onion_green", 13),
        ("pea", 14),
        ("radish", 11),
        ("spinach", 12),
    ],
)
def test_days_to_emergence_are_those_of_the_classic_table(crop, days):
    """Days from sowing to emergence in soil at 50 F are the published ones."""
    assert tables.crop(crop).emergence_days == days


def test_no_emergence_is_claimed_where_the_table_says_none():
    """Snap bean does not come up at 50 F (Harrington and Minges 1954: no germination), so it has no figure."""
    assert tables.crop("bean_bush").emergence_days is None


@pytest.mark.parametrize(
    ("row", "temp_f"),
    # Common practice, no source for the margin. Minnesota M1227 (2008): cabbage, collards and kale stand about 20 F
    # when grown, broccoli, cauliflower and kohlrabi light frost (30 to 32 F) only; National Weather Service:
    # 36 F frost, 32 F freeze, 28 F hard freeze.
    [
        ("hardy", 28),
        ("half-hardy", 32),
        ("tender", 36),
        ("very tender", 36),
        ("cabbage", 28),
        ("kale", 28),
        ("collards", 28),
        ("broccoli", 32),
        ("cauliflower", 32),
        ("kohlrabi", 32),
    ],
)
def test_cold_limits_of_hardened_plants(row, temp_f):
    """Hardened plants have the cold limit of their class, or their own."""
    frame = tables.table("cold_limits").set_index(["row", "stage"])
    assert frame.loc[(row, "hardened"), "temp_f"] == temp_f
    assert frame.loc[(row, "not hardened"), "temp_f"] == max(temp_f, 32)


@pytest.mark.parametrize(
    ("crop", "family"),
    # From memory, not checked: families as in current botanical works.
    [
        ("swiss_chard", "Amaranthaceae"),
        ("spinach", "Amaranthaceae"),
        ("radish", "Brassicaceae"),
        ("arugula", "Brassicaceae"),
    ],
)
def test_families_that_are_often_mixed_up(crop, family):
    """Chard is no cabbage, and radish and arugula are."""
    assert tables.crop(crop).family == family
