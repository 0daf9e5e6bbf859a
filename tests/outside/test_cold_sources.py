"""Spacing, bolting and hardening off against what is published.

A value marked "from memory" was written down from memory and not checked.
"""

from datetime import date

import pandas as pd
import pytest

from gardenlib import sowing, tables
from gardenlib.sowing.limits import full_grown_temp_f

OUT = date(2027, 4, 20)
COLD = pd.DataFrame({"tmin_c": 0.0, "tmax_c": 10.0}, index=pd.date_range("2000-01-01", "2024-12-31"))


def _inches(metres):
    return round(metres / 0.0254, 6)


@pytest.mark.parametrize(
    ("crop_id", "low_in", "high_in"),
    [
        ("cabbage_main", 15, 18),  # University of Arizona, Master Gardener Manual, 15 to 18; Colorado State, 18
        ("kale", 15, 18),  # University of Arizona, Master Gardener Manual, recommended spacing
        ("tomato", 18, 24),  # the same
        ("lettuce_head", 10, 12),  # the same
        ("radish", 2, 3),  # the same
        ("bean_bush", 4, 6),  # the same
        ("cabbage_mini", 8, 12),  # from memory
    ],
)
def test_spacing_each_way_is_the_published_one(crop_id, low_in, high_in):
    """The space that a plant takes in a bed is that of the published lists, in metres."""
    from gardenlib.site import FreezeDates

    here = FreezeDates.typed((4, 15), (10, 15), source="invented", latitude=40.0)
    row = sowing.compare_kinds([crop_id], here, year=2027).table.iloc[0]
    assert (_inches(row["spacing_low_m"]), _inches(row["spacing_high_m"])) == (low_in, high_in)
    assert row["spacing_unchecked"] == (crop_id == "cabbage_mini")


def test_cabbage_feels_cold_from_a_stem_of_6_mm():
    """Cold acts on cabbage only past its juvenile phase, near a stem of 6 mm (Wien and Wurr, p. 533, as quoted)."""
    found = sowing.cold_spell_risk("cabbage_early", COLD, OUT)
    assert (found.response, found.stage, found.stem_mm) == ("bolts", "grown", 6)


def test_the_cold_limit_of_cabbage_is_marked_as_memory():
    """10 days or more below 50 F is the usual extension rule; it is from memory and says so."""
    found = sowing.cold_spell_risk("cabbage_early", COLD, OUT)
    assert (found.days, found.below_c, found.unchecked) == (10, pytest.approx(10.0), True)
    assert "bolting.limit_unchecked" in {said.key for said in found.assumptions}


@pytest.mark.parametrize("crop_id", ["chinese_cabbage", "turnip", "radish"])
def test_some_crops_feel_cold_as_seedlings(crop_id):
    """Chinese cabbage, turnip and radish respond as seed or seedling (Johnson, University of Delaware)."""
    assert sowing.cold_spell_risk(crop_id, COLD, OUT).stage == "seedling"


@pytest.mark.parametrize("crop_id", ["broccoli", "cauliflower"])
def test_broccoli_and_cauliflower_button(crop_id):
    """Broccoli and cauliflower button where cabbage bolts (Massachusetts and Connecticut Extension, 2016)."""
    assert sowing.cold_spell_risk(crop_id, COLD, OUT).response == "buttons"


@pytest.mark.parametrize("crop_id", ["kale", "collards"])
def test_kale_and_collards_bolt_with_no_published_limit(crop_id):
    """Kale and collards bolt past a certain age (Johnson, University of Delaware); no figure is given with it."""
    found = sowing.cold_spell_risk(crop_id, COLD, OUT)
    assert (found.response, found.stage, found.below_c) == ("bolts", "grown", None)


@pytest.mark.parametrize(
    ("crop_id", "night_f"),
    [
        ("tomato", 45),  # tender seedlings: not below 45 F
        ("pepper", 45),  # the same
        ("cucumber", 50),  # cucumber and melon: overnight outdoors only above 50 F
        ("kale", 32),  # even hardy plants are hurt if frozen before hardening
    ],
)
def test_nights_stay_above_what_maryland_gives(crop_id, night_f):
    """Nights to stay above are those of University of Maryland Extension, Hardening Vegetable Seedlings (2023)."""
    plan = sowing.hardening_plan(crop_id, OUT)
    assert plan.night_above_c * 1.8 + 32 == pytest.approx(night_f)


def test_the_first_day_is_one_hour():
    """The first day outside is 1 hour (Hennepin County Master Gardeners, 2014)."""
    assert sowing.hardening_plan("tomato", OUT).table["hours_outside"].iloc[0] == 1


def test_published_lengths_of_hardening_off():
    """1 to 2 weeks (Maryland, 2023), 3 to 6 days (Massachusetts and Connecticut, 2016), 2 weeks (Hennepin, 2014)."""
    table = tables.table("hardening_off").set_index(["topic", "plants"])
    spans = [tuple(table.loc[(name, "all"), ["low", "high"]]) for name in ("length", "length_shorter", "length_longer")]
    assert spans == [(7, 14), (3, 6), (14, 14)]


def test_marks_of_the_new_tables_match_their_sources():
    """A figure of the new tables is marked from memory exactly when none of its sources was read."""
    status = tables.table("sources").set_index("key")["status"]
    for name in ("spacing", "cold_response", "hardening_off"):
        table = tables.table(name)
        read = table["source"].map(lambda keys: any(status[key] == "published" for key in keys.split("|")))
        assert ((table["status"] == "published") == read).all(), name
    limits = tables.table("cold_response").dropna(subset=["limit_source"])
    assert (limits["limit_status"] == limits["limit_source"].map(status)).all()


@pytest.mark.parametrize(("crop", "limit_f"), [("tomato", 36), ("basil", 36), ("kale", 28), ("lettuce_leaf", 28)])
def test_a_frost_ends_tender_crops_and_a_hard_freeze_the_others(crop, limit_f):
    """National Weather Service, Jackson: frost at 36 F, hard freeze at 28 F; which ends what is our own rule."""
    assert full_grown_temp_f(tables.crop(crop)) == limit_f
