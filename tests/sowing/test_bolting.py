"""Cold days after setting out, counted over past springs."""

from datetime import date, timedelta

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardenlib import InputProblem, sowing
from gardenlib.tables import crops

SPRING = date(2027, 4, 1)


def _record(years=25, *, low=2.0, high=12.0):
    days = pd.date_range("2000-01-01", f"{1999 + years}-12-31", name="date")
    return pd.DataFrame({"tmin_c": float(low), "tmax_c": float(high), "rain_mm": 0.0}, index=days)


def _warming(years=25):
    """Make a record that warms each day from January to July by the same step."""
    record = _record(years)
    mean = np.minimum(record.index.day_of_year.to_numpy(), 200) * 0.12 - 3
    return record.assign(tmin_c=mean - 5, tmax_c=mean + 5)


def test_cold_days_are_those_whose_mean_is_below():
    """Exactly nine cold days in a window are no cold spell, ten are; the mean of low and high counts."""
    record = _record(low=8.0, high=16.0)
    for year in range(2000, 2025):
        n = 10 if year % 2 else 9
        record.loc[f"{year}-04-03" : f"{year}-04-{2 + n:02d}", ["tmin_c", "tmax_c"]] = [4.0, 15.9]
    found = sowing.cold_spell_risk("cabbage_main", record, SPRING)
    assert found.table.set_index("year").loc[2001, "cold_days"] == 10
    assert (found.springs, found.springs_hit) == (25, 12)
    assert found.springs_in_ten == 5


def test_a_day_whose_mean_is_the_limit_is_not_cold():
    """A mean of exactly 50 F is not below 50 F."""
    record = _record(low=(41 - 32) / 1.8, high=(59 - 32) / 1.8)
    assert sowing.cold_spell_risk("cabbage_main", record, SPRING).springs_hit == 0


def test_days_outside_the_weeks_do_not_count():
    """Cold before the day of setting out, or after the weeks, changes nothing."""
    record = _record(low=10.0, high=20.0)
    for year in range(2000, 2025):
        record.loc[f"{year}-03-01" : f"{year}-03-31", ["tmin_c", "tmax_c"]] = [-5.0, 5.0]
        record.loc[f"{year}-04-29" : f"{year}-05-31", ["tmin_c", "tmax_c"]] = [-5.0, 5.0]
    assert sowing.cold_spell_risk("cabbage_main", record, SPRING).table["cold_days"].max() == 0
    assert sowing.cold_spell_risk("cabbage_main", record, SPRING - timedelta(1)).table["cold_days"].max() == 1


def test_springs_with_gaps_are_left_out():
    """A spring with more than a tenth of its days missing is not counted, with fewer it is."""
    record = _record().drop(pd.date_range("2003-04-02", "2003-04-04"))
    record.loc["2004-04-02":"2004-04-03", "tmax_c"] = np.nan
    found = sowing.cold_spell_risk("cabbage_main", record, SPRING)
    assert found.springs == 24
    assert found.table.set_index("year")["missing_days"].loc[[2003, 2004, 2005]].tolist() == [3, 2, 0]


def test_a_window_may_run_over_the_turn_of_the_year():
    """A day of setting out in December takes the days of January that follow, and the last year drops out."""
    found = sowing.cold_spell_risk("cabbage_main", _record(), date(2027, 12, 20))
    assert found.table.set_index("year")["missing_days"].loc[[2023, 2024]].tolist() == [0, 16]
    assert found.springs == 24


def test_a_leap_day_is_taken_as_the_day_before():
    """29 February stands for 28 February in every year."""
    found = sowing.cold_spell_risk("cabbage_main", _record(), date(2028, 2, 29))
    assert found.springs == 25


def test_too_few_springs_give_dots_and_a_reason():
    """Fewer than 20 springs give counts and a reason, but no springs out of ten."""
    found = sowing.cold_spell_risk("cabbage_main", _record(years=19), SPRING)
    assert (found.springs, found.springs_in_ten, found.reason.key) == (19, None, "bolting.too_few")
    assert len(found.table) == 19


@given(st.integers(0, 120), st.integers(0, 120))
def test_later_setting_out_never_has_more_cold_days_in_a_spring_that_only_warms(one, other):
    """Where each day is warmer than the one before, a later day of setting out never meets more cold days."""
    first, second = (date(2027, 2, 1) + timedelta(days=n) for n in sorted((one, other)))
    record = _warming(3)
    early, late = (sowing.cold_spell_risk("cabbage_main", record, day).table["cold_days"] for day in (first, second))
    assert (late.to_numpy() <= early.to_numpy()).all()


@given(st.integers(1, 27), st.floats(-5, 20))
def test_more_days_or_a_colder_limit_never_give_more_springs(days, below_c):
    """Asking for one more cold day, or for colder days, never finds more springs."""
    record = _warming(3)
    found = sowing.cold_spell_risk("kale", record, SPRING, days=days, below_c=below_c)
    longer = sowing.cold_spell_risk("kale", record, SPRING, days=days + 1, below_c=below_c)
    colder = sowing.cold_spell_risk("kale", record, SPRING, days=days, below_c=below_c - 1)
    assert max(longer.springs_hit, colder.springs_hit) <= found.springs_hit


@pytest.mark.parametrize("crop_id", ["kale", "collards", "kohlrabi", "turnip", "radish", "chinese_cabbage"])
def test_an_unknown_limit_stays_unknown(crop_id):
    """Where no cold limit was found there is no number, and the sentence names the crop."""
    found = sowing.cold_spell_risk(crop_id, _record(), SPRING)
    assert (found.days, found.below_c, found.springs_in_ten) == (None, None, None)
    assert found.table.empty
    assert found.reason.key == "bolting.no_limit"
    assert crop_id.split("_")[0] in str(found.reason).lower()


def test_a_typed_limit_is_taken_and_not_called_unchecked():
    """With both limits typed the count is made, and nothing is said of memory."""
    found = sowing.cold_spell_risk("kale", _record(), SPRING, days=14, below_c=8.0)
    assert found.springs_in_ten == 10
    assert not found.unchecked
    assert sowing.cold_spell_risk("cabbage_main", _record(), SPRING).unchecked


@pytest.mark.parametrize("crop_id", list(crops().index))
def test_every_crop_gives_a_number_or_a_reason(crop_id):
    """No crop is left without either a number or a sentence."""
    found = sowing.cold_spell_risk(crop_id, _record(), SPRING)
    assert (found.springs_in_ten is None) == (found.reason is not None)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"set_out": "April 1"}, ["April 1", "date"]),
        ({"set_out": None}, ["None", "date"]),
        ({"weeks": 0}, ["0", "1 to 12"]),
        ({"weeks": 2.5}, ["2.5", "whole"]),
        ({"days": 0}, ["0", "28"]),
        ({"days": 29}, ["29", "4 weeks", "28"]),
        ({"days": True}, ["True"]),
        ({"below_c": 50}, ["50"]),
        ({"below_c": float("nan")}, ["nan"]),
        ({"below_c": "ten"}, ["ten"]),
        ({"daily": _record().drop(columns="tmax_c")}, ["tmax_c"]),
        ({"daily": _record().iloc[:0]}, ["no days"]),
        ({"crop": "cabage"}, ["cabage"]),
    ],
)
def test_what_cannot_be_counted_is_refused_in_one_sentence(asked, said):
    """A day, length, limit or record that cannot be used is named, with what to give in its place."""
    given_ = {"crop": "cabbage_main", "daily": _record(), "set_out": SPRING, **asked}
    crop, daily, set_out = (given_.pop(name) for name in ("crop", "daily", "set_out"))
    with pytest.raises(InputProblem) as problem:
        sowing.cold_spell_risk(crop, daily, set_out, **given_)
    assert all(part in str(problem.value) for part in said)
