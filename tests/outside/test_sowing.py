"""Sowing dates against printed rules and examples; expected dates are typed, never taken from our own output."""

from datetime import date

import pytest

from gardenlib import sowing
from gardenlib.site import FreezeDates
from gardenlib.sowing.windows import later
from gardenlib.tables import crop, crop_from_packet
from gardenlib.units import Range


def _typed(month, day):
    return FreezeDates.typed((month, day), (10, 15), source="printed example", latitude=40.0)


@pytest.mark.parametrize(
    ("days", "expected"),
    # Virginia Cooperative Extension 426-331 (2006), printed example: last frost on 15 April.
    [(-20, date(2027, 3, 26)), (10, date(2027, 4, 25)), (20, date(2027, 5, 5)), (30, date(2027, 5, 15))],
)
def test_days_from_the_last_frost(days, expected):
    """Days before and after the last frost fall on the printed dates."""
    assert later(date(2027, 4, 15), days) == expected


def test_cabbage_two_to_three_weeks_before():
    """Purdue HO-203: cabbage 2 to 3 weeks before a last frost of 15 April is 25 March to 1 April."""
    found = sowing.sowing_dates("cabbage_main", _typed(4, 15), year=2027, region="purdue_ho203")
    assert found.published == (date(2027, 3, 25), date(2027, 4, 1))
    assert found.set_out == found.published


def test_cabbage_four_to_six_weeks_before():
    """Illinois (Mason 2014): cabbage 4 to 6 weeks before a last frost of 15 April is 4 to 18 March; both are shown."""
    found = sowing.sowing_dates("cabbage_main", _typed(4, 15), year=2027, region="illinois_mason")
    assert found.published == (date(2027, 3, 4), date(2027, 3, 18))


def test_hardy_crops_from_sixty_to_fortyfive_days_before():
    """Utah (Beddes 2021): hardy crops 45 to 60 days before a last frost of 15 May 2027 is 16 to 31 March."""
    found = sowing.sowing_dates("cabbage_main", _typed(5, 15), year=2027, region="utah_beddes_2021")
    assert found.published[0] == date(2027, 3, 16)
    assert later(date(2027, 5, 15), -45) == date(2027, 3, 31)


@pytest.mark.parametrize(("year", "expected"), [(2027, date(2027, 1, 14)), (2028, date(2028, 1, 15))])
def test_sowing_indoors_counts_through_a_leap_year(year, expected):
    """Arithmetic on the calendar: last frost 15 April, set out 6 weeks before after 7 weeks indoors."""
    own = crop_from_packet(
        {
            "crop": "early_kind",
            "name": "an early kind",
            "family": "Brassicaceae",
            "hardiness": "hardy",
            "method": "transplant",
            "weeks_indoor_low": "7",
            "transplant_wk_low": "-6",
            "source": "made up",
        }
    )
    assert sowing.sowing_dates(own, _typed(4, 15), year=year).sow_indoors[0] == expected


def test_harvest_of_broccoli():
    """Broccoli set out on 1 April 2027 with 50 to 80 days from transplants is picked from 21 May to 20 June."""
    day = date(2027, 4, 1)
    # Lowest and highest of Florida SP103, Missouri G6201, Georgia C963, Tennessee State ANR-3: 50 to 80 days.
    assert crop("broccoli").days_from_transplant.full == Range(50, 80, "days")
    assert sowing.harvest_window((day, day), Range(50, 80, "days")) == (date(2027, 5, 21), date(2027, 6, 20))


def test_harvest_of_carrot():
    """Carrot sown on 1 April 2027 with 65 to 120 days from seed is pulled from 5 June to 30 July."""
    day = date(2027, 4, 1)
    # Lowest of Maryland GE 007 (65), highest of Florida SP103 (120).
    assert crop("carrot").days_from_seed.full == Range(65, 120, "days")
    assert sowing.harvest_window((day, day), Range(65, 120, "days")) == (date(2027, 6, 5), date(2027, 7, 30))


def test_hardening_off_takes_one_to_two_weeks():
    """University of Maryland Extension (2023): hardening off starts 1 to 2 weeks before setting out."""
    found = sowing.sowing_dates("cabbage_main", _typed(4, 15), year=2027, region="purdue_ho203")
    assert found.harden_off == (date(2027, 3, 11), date(2027, 3, 18))


@pytest.mark.parametrize(
    ("crop_id", "risk"), [("kale", 0.5), ("broccoli", 0.5), ("bean_bush", 0.1), ("tomato", 0.1), ("pepper", 0.1)]
)
def test_default_risk(crop_id, risk):
    """Hardy and half-hardy crops take 5 springs in 10, tender ones 1 (common practice, no source)."""
    assert sowing.default_risk(crop_id) == risk


def test_tender_crops_wait_for_the_one_in_ten_date():
    """NCEI 1991-2020, Lebanon NH, 32 F: 24 May at 1 spring in 10, for tomato; 9 May at 5, for broccoli."""
    lebanon = FreezeDates.typed(
        (5, 9), (10, 6), source="NCEI 1991-2020", latitude=43.6, last_spring_10=(5, 24), last_spring_90=(4, 27)
    )
    assert sowing.sowing_dates("tomato", lebanon, year=2027).set_out[0] == date(2027, 5, 24)
    assert sowing.sowing_dates("broccoli", lebanon, year=2027).set_out[0] == date(2027, 5, 9)
