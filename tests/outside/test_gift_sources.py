"""Figures on gifts and lead against what their publishers print; each is typed from the publication."""

from datetime import date

from gardenlib import tables
from gardenlib.soil import gift_check, lead_reading, pot_check
from gardenlib.units import Quantity
from gardenlib.words import Voice


def test_pot_check_is_washington_s():
    """Peas until three sets of leaves, 2 to 3 weeks (Washington State University, Bioassay test, 8 March 2011)."""
    pots = pot_check("flat", "flat")
    assert (pots.time.low, pots.time.high, pots.time.unit) == (2, 3, "weeks")
    assert pots.leaf_sets == 3
    assert "washington_bioassay_2011" in pots.sources


def test_curled_leaves_beside_clean_pots_are_the_sign():
    """Curled, cupped or twisted leaves, compared with clean pots (Colorado State University Extension, 2014)."""
    curled = pot_check("flat", "curled")
    assert curled.verdict == "refuse"
    assert "colorado_carryover_2014" in curled.sources
    assert Voice().say("gifts.pots.curled") == "curled, cupped or twisted"


def test_weed_killers_that_pass_through_animals():
    """They hurt beans, peas, tomatoes and potatoes (University of Florida IFAS, AG416)."""
    advice = gift_check("manure", {"weed_killer": "yes", "pets": "no"})
    words = Voice().say(advice.because[0]).lower()
    assert all(crop in words for crop in ("beans", "peas", "tomatoes", "potatoes", "animals", "compost"))
    assert "florida_ag416" in advice.sources


def test_days_of_raw_manure_are_the_rule_s():
    """120 days where the food touches soil, 90 days where it does not (7 CFR 205.203(c)(1))."""
    advice = gift_check("manure", {"weed_killer": "no", "pets": "no"})
    waits = {said.key: said.values["time"] for said in advice.to_do[1:]}
    assert waits["gifts.do.manure_touching"] == Quantity(120, "days")
    assert waits["gifts.do.manure_apart"] == Quantity(90, "days")


def test_times_of_the_cabbage_diseases():
    """Black rot up to 40 days until it shows (Florida IFAS 2012); clubroot spores 10 years or more (PNW handbook)."""
    advice = gift_check("seedlings", {"sick": "no", "cabbage_soil": "no"})
    waits = {said.key: said.values["time"] for said in advice.to_do[1:]}
    assert waits["gifts.do.black_rot_shows"] == Quantity(40, "days")
    assert waits["gifts.do.clubroot_lives"] == Quantity(10, "years")


def test_screening_figure_is_that_of_october_2025():
    """One residential screening level of 200 ppm (EPA directive of 16 October 2025, as two summaries give it)."""
    reading = lead_reading(None, is_total=True)
    assert reading.screening == Quantity(200, "ppm")
    assert reading.screening_dated == date(2025, 10, 16)


def test_no_federal_standard_is_said_with_its_source():
    """There is no federal standard for soil that grows food (University of Connecticut interpretation sheet)."""
    reading = lead_reading(150, is_total=True)
    assert "connecticut_lead" in reading.sources
    assert tables.source("connecticut_lead").status == "published"
    assert "no federal standard" in " ".join(Voice().say(said) for said in reading.assumptions)
