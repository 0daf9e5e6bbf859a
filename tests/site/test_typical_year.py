"""The typical year: from a record, from monthly values, and the days read off it."""

from datetime import date
from types import SimpleNamespace

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gardenlib import InputProblem
from gardenlib.site import Warmth

DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]


def station(years=25, latitude=45.0, mean_c=12.0, swing_c=10.0, noise_c=0.0):
    """Make a station of invented days, warmest in late July (late January in the south)."""
    days = pd.date_range("1990-01-01", f"{1989 + years}-12-31", name="date")
    phase = 20 if latitude >= 0 else 202
    noise = np.random.default_rng(3).normal(0, noise_c, years)[days.year - 1990]
    mean = mean_c - swing_c * np.cos(2 * np.pi * (days.day_of_year - phase) / 365.25) + noise
    daily = pd.DataFrame({"tmin_c": mean - 5, "tmax_c": mean + 5}, index=days)
    return SimpleNamespace(name="Invented", latitude=latitude, first_year=1990, last_year=1989 + years, daily=daily)


def months(mean_c=12.0, swing_c=10.0, half_range_c=5.0, phase=0.5):
    """Make twelve monthly highs and lows."""
    means = [mean_c - swing_c * np.cos(2 * np.pi * (m - phase - 1) / 12) for m in range(1, 13)]
    return [(m, t + half_range_c, t - half_range_c) for m, t in enumerate(means, 1)]


def test_a_record_of_sines_comes_back():
    """Out of a record of one sine a year comes that sine, a 30-day mean lower in swing by 1.1 % (closed form)."""
    warmth = Warmth.from_station(station())
    width = 30 * np.pi / 365.25
    swing = 10 * np.sin(width) / width
    assert warmth.mean_30_c.max() == pytest.approx(12 + swing, abs=0.05)
    assert warmth.mean_30_c.min() == pytest.approx(12 - swing, abs=0.05)
    np.testing.assert_allclose(warmth.tmax_c - warmth.tmin_c, 10)


def test_the_days_of_a_limit():
    """A 12 C mean is passed a quarter year before and after the warmest time: about 21 April and 21 October."""
    warmth = Warmth.from_station(station())
    assert abs((warmth.first_above(12.0, year=2027) - date(2027, 4, 21)).days) <= 2
    assert abs((warmth.first_below(12.0, year=2027) - date(2027, 10, 21)).days) <= 2


def test_southern_growing_year_starts_in_july():
    """In the south the same limits of growing year 2027 fall in October 2027 and April 2028."""
    warmth = Warmth.from_station(station(latitude=-35.0))
    assert abs((warmth.first_above(12.0, year=2027) - date(2027, 10, 21)).days) <= 3
    assert abs((warmth.first_below(12.0, year=2027) - date(2028, 4, 21)).days) <= 3


@pytest.mark.parametrize(("latitude", "start"), [(45.0, date(2027, 1, 1)), (-35.0, date(2027, 7, 1))])
def test_always_and_never(latitude, start):
    """Above all year: from the start of the growing year, and never below; below all year the other way round."""
    warmth = Warmth.from_station(station(latitude=latitude))
    assert warmth.first_above(-10.0, year=2027) == start
    assert warmth.first_below(-10.0, year=2027) is None
    assert warmth.first_above(40.0, year=2027) is None
    assert warmth.first_below(40.0, year=2027) == start


def test_the_spread_holds_the_years():
    """With years that differ by 2 C the spread is about 1.28 standard deviations each way (normal table)."""
    warmth = Warmth.from_station(station(years=100, noise_c=2.0))
    low, high = warmth.spread
    assert ((low < warmth.mean_30_c) & (warmth.mean_30_c < high)).all()
    assert (high - low)[180] == pytest.approx(2 * 1.28 * 2.0, rel=0.25)


@pytest.mark.parametrize(("years", "known"), [(19, False), (20, True)])
def test_no_spread_under_twenty_years(years, known):
    """Nineteen full years give no spread, and that is said."""
    warmth = Warmth.from_station(station(years=years))
    assert (warmth.spread is not None) is known
    assert any(said.key == "climate.warmth.no_spread_years" for said in warmth.assumptions) is not known


def test_a_short_record_is_refused():
    """A record that holds no 1 July in any year has no typical year; the day is named."""
    short = station(years=1)
    short.daily = short.daily.drop(pd.Timestamp("1990-07-01"))
    with pytest.raises(InputProblem, match="July 1"):
        Warmth.from_station(short)


@settings(max_examples=20)
@given(st.lists(st.floats(-30, 35), min_size=12, max_size=12))
def test_any_monthly_means_are_kept(means):
    """Whatever the twelve means, the daily curve has them again, to a millionth."""
    rows = [(m, mean + 200, mean - 200) for m, mean in enumerate(means, 1)]  # far apart, so that no low passes its high
    warmth = Warmth.from_monthly(rows, latitude=45.0, source="made up")
    ends = np.cumsum(DAYS)
    got = [warmth.mean_c[end - n : end].mean() for end, n in zip(ends, DAYS, strict=True)]
    np.testing.assert_allclose(got, means, atol=1e-6)


def test_the_monthly_curve_closes():
    """From 31 December to 1 January the curve goes on as smoothly as anywhere."""
    warmth = Warmth.from_monthly(months(), latitude=45.0, source="made up")
    steps = np.diff(np.append(warmth.mean_c, warmth.mean_c[0]))
    assert abs(steps[-1]) <= np.abs(steps[:-1]).max()
    assert warmth.spread is None
    assert any("no spread" in str(said) for said in warmth.assumptions)


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        (months()[:11], "Month 12"),
        ([*months(), (3, 1.0, 0.0)], "twice"),
        ([(13, 1.0, 0.0), *months()[1:]], "Month 13"),
        ([(1, "warm", 0.0), *months()[1:]], "warm"),
        ([(1, float("nan"), 0.0), *months()[1:]], "not a number"),
        ([(1, -5.0, 3.0), *months()[1:]], "month 1"),
        ([*months(half_range_c=0.0)[:6], (7, 40.0, -40.0), *months(half_range_c=0.0)[7:]], "month"),
    ],
)
def test_monthly_mistakes_are_named(rows, words):
    """A missing, doubled or unknown month, a word for a number and a low above its high are refused."""
    with pytest.raises(InputProblem, match=words):
        Warmth.from_monthly(rows, latitude=45.0, source="made up")


@pytest.mark.parametrize("method", ["average", "sine", "double-sine"])
def test_degree_days_of_the_typical_year(method):
    """A steady 20 C year gives 10 degree days above 10 C on each of 365 days."""
    warmth = Warmth.from_monthly([(m, 25.0, 15.0) for m in range(1, 13)], latitude=10.0, source="made up")
    got = warmth.degree_days(10.0, method=method)
    assert got.shape == (365,)
    np.testing.assert_allclose(got, 10.0)


def test_no_spread_where_a_month_has_gaps_in_each_year():
    """Eight of the first sixteen days of July lost in each year, by turns: some 30-day mean is known in no year."""
    made_up = station()
    days = made_up.daily.index
    lost = (days.month == 7) & (days.day <= 16) & ((days.day % 2) == (days.year % 2))
    made_up.daily = made_up.daily[~lost]
    warmth = Warmth.from_station(made_up)
    assert warmth.years == 25
    assert warmth.spread is None
    assert "climate.warmth.no_spread_years" in [said.key for said in warmth.assumptions]
