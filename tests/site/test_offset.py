"""The night offset of a plot, from a thermometer log."""

from types import SimpleNamespace

import numpy as np
import pandas as pd
import pytest

from gardenlib import InputProblem
from gardenlib.site import night_offset


def logs(differences, gaps=0):
    """Make a station of 5 C nights and a plot log that differs as given."""
    nights = pd.date_range("2026-04-01", periods=len(differences) + gaps, name="date")
    station = SimpleNamespace(name="Invented", daily=pd.DataFrame({"tmin_c": 5.0}, index=nights))
    low = np.concatenate([5.0 + np.array(differences, dtype=float), np.full(gaps, np.nan)])
    return pd.DataFrame({"tmin_c": low}, index=nights), station


def test_the_median_stands_against_one_odd_night():
    """Of 15 nights at -1.5 and one at +12 the offset is -1.5, and 8 of 10 nights lie at -1.5."""
    found = night_offset(*logs([-1.5] * 15 + [12.0]))
    assert found.offset_c == -1.5
    assert (found.spread_c.low, found.spread_c.high) == (-1.5, -1.5)
    assert found.nights == 16


def test_the_spread_is_the_middle_eight_tenths():
    """Differences of 0 to 20 tenths: the median is 1.0, the spread 0.2 to 1.8 C (numpy's default quantile, by hand)."""
    found = night_offset(*logs(np.arange(21) / 10))
    assert found.offset_c == pytest.approx(1.0)
    assert (found.spread_c.low, found.spread_c.high) == pytest.approx((0.2, 1.8))


@pytest.mark.parametrize("shared", [13, 14])
def test_fourteen_shared_nights_are_needed(shared):
    """Thirteen nights that both have are refused, fourteen are enough; blank nights do not count."""
    plot, station = logs([-1.0] * shared, gaps=10)
    if shared < 14:
        with pytest.raises(InputProblem, match="only 13 nights"):
            night_offset(plot, station)
    else:
        assert night_offset(plot, station).nights == 14


def test_nights_are_matched_by_date():
    """A log of other dates shares no night."""
    plot, station = logs([-1.0] * 20)
    with pytest.raises(InputProblem, match="only 0 nights"):
        night_offset(plot.set_axis(plot.index + pd.DateOffset(years=1)), station)
