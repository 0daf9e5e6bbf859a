"""Warm enough: what is read, what is not, and what always holds."""

from datetime import date, timedelta

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_places import warmth

from gardenlib import InputProblem, sowing, tables
from gardenlib.units import Range

TABLE = tables.table("emergence_by_temp")
PAIRS = [
    (crop, low, high)
    for crop, rows in TABLE.groupby("crop")
    for low, high in zip(rows.to_dict("records")[:-1], rows.to_dict("records")[1:], strict=True)
]
WITH_DAYS = [
    pair for pair in PAIRS if pair[1]["state"] == pair[2]["state"] == "days" and pair[1]["vegetable"] != "cabbage"
]
ACROSS = [pair for pair in PAIRS if "days" in (pair[1]["state"], pair[2]["state"]) and pair not in WITH_DAYS]
SHARES = st.floats(0.001, 0.999)


def _between(pair, share):
    crop, low, high = pair
    temp_f = low["soil_temp_f"] + (high["soil_temp_f"] - low["soil_temp_f"]) * share
    return sowing.days_to_emerge(crop, (temp_f - 32) / 1.8)


@given(st.sampled_from(WITH_DAYS), SHARES)
def test_between_two_cells_the_days_stay_between_theirs(pair, share):
    """Between two tested temperatures the days lie between those of the two."""
    found = _between(pair, share)
    low, high = sorted([pair[1]["days"], pair[2]["days"]])
    assert low - 1e-9 <= found.days <= high + 1e-9


@given(st.sampled_from([pair for pair in ACROSS if pair[1]["state"] != pair[2]["state"]]), SHARES)
def test_nothing_is_drawn_across_a_cell_without_days(pair, share):
    """Between a cell with days and one without there are none, and the reason is said."""
    found = _between(pair, share)
    assert (found.state, found.days) == ("between", None)
    assert str(found.reason)


@given(st.sampled_from(sorted(set(TABLE["crop"]))), st.one_of(st.floats(-30, -0.01), st.floats(40.01, 70)))
def test_nothing_is_read_beyond_the_table(crop, temp_c):
    """Colder than 0 C or warmer than 40 C the table says nothing."""
    found = sowing.days_to_emerge(crop, temp_c)
    assert (found.state, found.days) == ("beyond", None)


def test_cabbage_is_shown_to_85_f_only():
    """Copies of the table differ for cabbage in warmer soil, so no days are given above 85 F."""
    assert sowing.days_to_emerge("cabbage_main", (85 - 32) / 1.8).state == "days"
    hot = sowing.days_to_emerge("cabbage_main", 30.0)
    assert (hot.state, hot.days) == ("sources differ", None)
    assert "85" in str(hot.reason)


def test_a_crop_without_a_row_says_so():
    """Leek is not in the table; no other crop's days are taken for it."""
    found = sowing.days_to_emerge("leek", 10.0)
    assert (found.state, found.days, found.tested) == ("no row", None, ())
    assert "leek" in str(found.reason)


def test_kale_says_that_it_reads_the_cabbage_row():
    """A crop that reads another's row says so."""
    assert "warm.as_cabbage" in [said.key for said in sowing.days_to_emerge("kale", 10.0).assumptions]
    assert "warm.as_cabbage" not in [said.key for said in sowing.days_to_emerge("cabbage_main", 10.0).assumptions]


def test_the_error_of_the_soil_gives_a_span_of_days():
    """With an error the fewest and most days within it are given, also across a turning point."""
    # Printed: carrot 17 days at 10 C and 10 at 15 C; 6 at 25 and 30 C, 9 at 35 C.
    assert sowing.days_to_emerge("carrot", 12.5, error_c=2.5).span == Range(10.0, 17.0, "days")
    assert sowing.days_to_emerge("carrot", 30.0, error_c=5.0).span == Range(6.0, 9.0, "days")
    assert sowing.days_to_emerge("carrot", 12.5).span is None


def test_a_span_that_leaves_the_cells_with_days_is_not_given():
    """Bush bean at 60 F: the colder end reaches soil where none came up, so there is no span."""
    found = sowing.days_to_emerge("bean_bush", (60 - 32) / 1.8, error_c=3.0)
    assert found.days is not None
    assert found.span is None


@pytest.mark.parametrize("temp_c", [-40.0, 75.0, float("nan"), float("inf")])
def test_impossible_soil_is_refused(temp_c):
    """A temperature that no soil has is refused in one sentence."""
    with pytest.raises(InputProblem, match="Soil cannot be"):
        sowing.days_to_emerge("carrot", temp_c)


def test_an_error_below_zero_is_refused():
    """An error cannot be below zero."""
    with pytest.raises(InputProblem, match="0 or more"):
        sowing.days_to_emerge("carrot", 10.0, error_c=-1.0)


def _air(first="2027-03-01", n=40, **missing):
    days = pd.date_range(first, periods=n)
    air = pd.DataFrame({"tmin_c": np.arange(n, dtype=float), "tmax_c": np.arange(n, dtype=float) + 10}, index=days)
    air.loc[[pd.Timestamp(day) for day in missing.get("out", [])], "tmin_c"] = np.nan
    return air


def test_the_record_of_the_days_is_used_where_it_is_whole():
    """With all 11 days the record counts; with one missing, or none of them, the typical year does."""
    day = date(2027, 3, 20)
    year = warmth(4.0, 10.0)
    assert sowing.soil_temp_from_air(_air(), day, warmth=year).air_from == "record"
    # Invented record: means of 5 + number of the day, days 9 to 19: 5 + 14.
    assert sowing.soil_temp_from_air(_air(), day).temp_c == pytest.approx(19.0)
    for air in (_air(out=["2027-03-15"]), _air("2020-03-01"), None):
        found = sowing.soil_temp_from_air(air, day, warmth=year)
        assert found.air_from == "typical year"
        assert "warm.typical_year" in [said.key for said in found.assumptions]


def test_the_typical_year_goes_round_new_year_and_a_leap_day():
    """The 11 days before 5 January and before 1 March of a leap year are found in the typical year."""
    year = warmth(4.0, 10.0)
    january = sowing.soil_temp_from_air(None, date(2027, 1, 5), warmth=year).temp_c
    assert january == pytest.approx(np.mean([*year.mean_c[:5], *year.mean_c[-6:]]))
    leap = [date(2028, 3, 1) - timedelta(days=back) for back in range(11)]
    assert date(2028, 2, 29) in leap
    march = sowing.soil_temp_from_air(None, date(2028, 3, 1), warmth=year).temp_c
    assert march == pytest.approx(np.mean([year.mean_c[59], year.mean_c[58], *year.mean_c[50:59]]), abs=1e-9)


def test_without_any_air_the_sentence_says_what_is_needed():
    """Without a record and a typical year one sentence says what to type or add."""
    with pytest.raises(InputProblem, match="Type the soil's temperature"):
        sowing.soil_temp_from_air(None, date(2027, 3, 1))
