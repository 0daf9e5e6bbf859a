"""Degree days: branches, refusals and properties."""

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardenlib import InputProblem
from gardenlib.site import degree_days

METHODS = ["average", "modified-average", "triangle", "sine", "double-triangle", "double-sine"]
TEMPS = st.floats(-20, 45)


def test_one_day_by_four_methods():
    """40 to 80 F above 50 F: 10, 15, 11.25 and 12.18 degree days, by hand from the definitions."""
    low, high, base = (40 - 32) / 1.8, (80 - 32) / 1.8, 10.0
    got = [degree_days(low, high, base, method=m) * 1.8 for m in ("average", "modified-average", "triangle", "sine")]
    assert got == pytest.approx([10, 15, 11.25, 12.18], abs=0.005)


@pytest.mark.parametrize("method", METHODS)
def test_a_day_without_a_swing(method):
    """Where low equals high every method gives the plain difference, without a division by nothing."""
    got = degree_days([20.0, 5.0, 40.0], [20.0, 5.0, 40.0], 10.0, 30.0, method=method, next_tmin_c=[20.0, 5.0, 40.0])
    assert got == pytest.approx([10.0, 0.0, 20.0])


@pytest.mark.parametrize("method", METHODS)
def test_a_missing_value_stays_missing(method):
    """NaN in either temperature gives NaN on that day only."""
    got = degree_days([10.0, np.nan, 0.0], [20.0, 5.0, np.nan], 10.0, method=method, next_tmin_c=[10.0, 10.0, 10.0])
    assert np.isnan(got).tolist() == [False, True, True]


def test_the_last_day_takes_its_own_low_again():
    """A missing next low on the last day is today's; inside the record it stays missing."""
    low, high = [8.0, 6.0, 9.0], [20.0, 18.0, 22.0]
    got = degree_days(low, high, 10.0, method="double-sine", next_tmin_c=[np.nan, 9.0, np.nan])
    assert np.isnan(got[0])
    assert got[2] == pytest.approx(degree_days(9.0, 22.0, 10.0))


def test_a_night_warmer_than_the_day_before():
    """Where the next low is above the day's high the second half-day runs between the two."""
    got = degree_days([10.0], [14.0], 5.0, method="double-triangle", next_tmin_c=[16.0])
    assert got == pytest.approx([((12 - 5) + (15 - 5)) / 2])


def test_the_falling_cutoff_stops_at_nothing():
    """With the intermediate cutoff a day far above the upper limit gives 0, not less (our own floor)."""
    assert degree_days(40.0, 45.0, 10.0, 20.0, cutoff="intermediate") == 0


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"tmin_c": [5.0, 9.0], "tmax_c": [8.0, 7.0]}, "day 2"),
        ({"tmin_c": pd.Series([9.0], pd.to_datetime(["2026-05-04"])), "tmax_c": [7.0]}, "May 4"),
        ({"upper_c": 10.0}, "not above the lower"),
        ({"method": "double-sine"}, "next morning"),
        ({"method": "cosine"}, "cosine is not known"),
        ({"cutoff": "round"}, "round is not known"),
        ({"method": "average", "upper_c": 30.0, "cutoff": "vertical"}, "horizontal"),
    ],
)
def test_refusals_name_the_mend(given, words):
    """What cannot be worked out is refused in one sentence: the first bad day, the limits, the method."""
    asked = {"tmin_c": [5.0], "tmax_c": [15.0], "lower_c": 10.0} | given
    with pytest.raises(InputProblem, match=words):
        degree_days(**asked)


@given(TEMPS, st.floats(0, 30), st.floats(-5, 25), st.floats(0, 10), st.sampled_from(METHODS))
def test_a_higher_base_never_gives_more(low, swing, base, higher, method):
    """Degree days fall, or stay, as the lower threshold rises."""

    def total(lower_c):
        return degree_days([low], [low + swing], lower_c, method=method, next_tmin_c=[low])[0]

    assert total(base + higher) <= total(base) + 1e-9


@given(TEMPS, st.floats(0, 30), st.floats(-5, 15), st.floats(1, 20), st.sampled_from(METHODS))
def test_a_cutoff_never_gives_more_than_its_span(low, swing, base, span, method):
    """With a horizontal cutoff a day gives between 0 and the distance of the two thresholds."""
    got = degree_days([low], [low + swing], base, base + span, method=method, next_tmin_c=[low])[0]
    assert -1e-9 <= got <= span + 1e-9


@given(TEMPS, st.floats(0.1, 30), st.floats(-5, 15), st.floats(1, 20), st.sampled_from(["sine", "triangle"]))
def test_the_cutoffs_stand_in_order(low, swing, base, span, method):
    """Horizontal gives at least as much as intermediate and as vertical."""
    flat, falling, stopped = (
        degree_days(low, low + swing, base, base + span, method=method, cutoff=cutoff)
        for cutoff in ("horizontal", "intermediate", "vertical")
    )
    assert falling <= flat + 1e-9
    assert stopped <= flat + 1e-9


@pytest.mark.parametrize(("low", "high"), [(1.0, np.inf), (-np.inf, 1.0)])
def test_an_endless_temperature_is_refused(low, high):
    """A temperature without end is refused in one sentence."""
    with pytest.raises(InputProblem, match="no temperature"):
        degree_days([0.0, low], [5.0, high], 10.0)
