"""Daylength at the edges."""

from datetime import date

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardenlib import InputProblem
from gardenlib.site import daylength_hours


def test_polar_day_and_night():
    """At 70 degrees the sun does not set in June and does not rise in December; the south has it the other way."""
    assert daylength_hours(70.0, date(2025, 6, 21)) == 24
    assert daylength_hours(70.0, date(2025, 12, 21)) == 0
    assert daylength_hours(-90.0, date(2025, 12, 21)) == 24


def test_shapes_are_kept():
    """A DatetimeIndex, an array and a single day give their own shape."""
    days = pd.date_range("2025-01-01", periods=4)
    assert daylength_hours(40.0, days).shape == (4,)
    assert daylength_hours(40.0, days.to_numpy().reshape(2, 2)).shape == (2, 2)
    assert np.ndim(daylength_hours(40.0, date(2025, 1, 1))) == 0


@pytest.mark.parametrize("latitude", [90.1, -91.0, float("nan")])
def test_latitude_is_checked(latitude):
    """A latitude that does not exist is refused."""
    with pytest.raises(InputProblem, match="latitude"):
        daylength_hours(latitude, date(2025, 1, 1))


@given(st.floats(0, 50), st.dates(date(1900, 1, 1), date(2100, 12, 31)))
def test_north_and_south_share_the_day(latitude, day):
    """Day in the north and day in the south together make 24 hours and what the bent light adds (under 40 minutes)."""
    both = daylength_hours(latitude, day) + daylength_hours(-latitude, day)
    assert 24 <= both <= 24 + 40 / 60


def test_a_missing_day_has_no_length():
    """A day that is missing gives NaN, never the length of some day."""
    days = np.array(["2025-06-21", "NaT"], dtype="datetime64[D]")
    assert np.isnan(daylength_hours(45.0, days)).tolist() == [False, True]
