"""Counting back from the first freeze, against the published formulas and worked examples."""

from dataclasses import replace
from datetime import date

import pytest

from gardenlib import sowing
from gardenlib.sowing.windows import later
from gardenlib.tables import Published, crop, table
from gardenlib.units import Range


def _days(low, unit="days"):
    span = Range(low, low, unit)
    return Published(full=span, typical=span, status="published", sources=("seed_packet",))


def _one_kind(name, days, picking_days, *, from_plants=False, weeks_indoor=None):
    """Make a crop of one kind, whose days and picking are the example's."""
    field = "days_from_transplant" if from_plants else "days_from_seed"
    plain = {"days_from_transplant": None, "days_from_seed": None, "days_basis_not_stated": None}
    return replace(
        crop(name),
        **{**plain, field: _days(days)},
        harvest_wk=_days(picking_days / 7, "weeks"),
        weeks_indoor=None if weeks_indoor is None else _days(weeks_indoor, "weeks"),
    )


# Formula: Virginia Cooperative Extension, Fall Vegetable Gardening (2004). Dates: arithmetic on the calendar.
@pytest.mark.parametrize(
    ("plant", "expected"),
    [
        # bush bean: 55 + 21 + 14 + 14 = 104 days before 15 October 2027
        (_one_kind("bean_bush", 55, 21), date(2027, 7, 3)),
        # kale: 55 + 28 + 14 = 97 days before 15 October 2027
        (_one_kind("kale", 55, 28), date(2027, 7, 10)),
    ],
)
def test_safe_is_the_virginia_formula(plant, expected):
    """The safe day is days to harvest, picking, 14, and for a tender crop 14 more, before the freeze."""
    assert sowing.latest_sowing(plant, date(2027, 10, 15), "safe", started="seed").date == expected


def test_own_plants_take_the_days_indoors_too():
    """The Virginia formula with own plants: 48 + 28 + 15 + 10 = 101 days before 19 October is 10 July (calendar)."""
    # Inputs: low end of an example of broccoli published in June 2013; its fall factor is 10 days.
    plant = _one_kind("broccoli", 48, 15, from_plants=True, weeks_indoor=4)
    found = sowing.latest_sowing(plant, date(2027, 10, 19), "safe", started="own", short_days_days=10)
    assert found.date == date(2027, 7, 10)
    bought = sowing.latest_sowing(plant, date(2027, 10, 19), "safe", started="bought", short_days_days=10)
    assert bought.date == bought.set_out == found.set_out == date(2027, 8, 7)


# Rule: University of Tennessee, SP291-G. With 14 days for fall; dates: arithmetic on the calendar.
@pytest.mark.parametrize(
    ("plant", "expected"),
    [
        # bush bean begins to bear 14 days before the freeze: 55 + 14 + 14 = 83 days before 15 October 2027
        (_one_kind("bean_bush", 55, 21), date(2027, 7, 24)),
        # kale may begin 14 days after it: 55 + 14 - 14 = 55 days before
        (_one_kind("kale", 55, 28), date(2027, 8, 21)),
    ],
)
def test_latest_is_the_tennessee_rule(plant, expected):
    """The gamble lets a tender crop bear 14 days before the freeze and a hardy one 14 days after."""
    assert sowing.latest_sowing(plant, date(2027, 10, 15), "latest", started="seed").date == expected


def test_a_crop_of_65_days_needs_about_80_in_fall():
    """Virginia Tech (McDaniel 2011): a 65-day crop may need about 80 days in fall; 65 + 14 = 79 is within 2."""
    found = sowing.latest_sowing(_one_kind("kale", 65, 28), date(2027, 10, 15), "safe", started="seed")
    assert abs((found.first_harvest - found.date).days - 80) <= 2


# Tennessee State University ANR-3 (2011), printed windows, at a first freeze on 14 October.
@pytest.mark.parametrize(
    ("name", "opens", "closes"),
    [
        ("broccoli", (7, 15), (8, 15)),
        ("cabbage_main", (7, 5), (8, 15)),
        ("chinese_cabbage", (7, 1), (7, 30)),
        ("kale", (7, 1), (9, 1)),
        ("lettuce_leaf", (7, 1), (9, 15)),
    ],
)
def test_fall_weeks_are_the_printed_windows(name, opens, closes):
    """Counted from 14 October, the published fall weeks fall on the printed days."""
    rows = table("crop_timing_by_source").query("field == 'fall_wk' and source == 'tennessee_state_anr3'")
    row = rows.set_index("crop").loc[name]
    freeze = date(2027, 10, 14)
    assert (later(freeze, row["low"]), later(freeze, row["high"])) == (date(2027, *opens), date(2027, *closes))


# Table of day lengths on the 21st computed with the package astral: first day under 10 hours, 2025.
@pytest.mark.parametrize(
    ("latitude", "expected"), [(40, date(2025, 11, 14)), (45, date(2025, 11, 4)), (50, date(2025, 10, 28)), (30, None)]
)
def test_days_fall_under_ten_hours(latitude, expected):
    """The first day shorter than 10 hours is within 2 days of an independent program's; at 30 degrees there is none."""
    found = sowing.latest_sowing("kale", date(2025, 10, 15), "safe", latitude=latitude).short_days_from
    assert (found is None) if expected is None else abs((found - expected).days) <= 2
