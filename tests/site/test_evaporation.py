"""The water that short grass uses: shapes, hemispheres, poles, hostile input, weeks of past years."""

from datetime import date

import numpy as np
import pandas as pd
import pytest

from gardenlib import InputProblem, site


def test_many_days_at_once_keep_their_shape():
    """Arrays are broadcast, and a missing temperature stays missing."""
    days = np.arange("2001-01-01", "2001-01-08", dtype="datetime64[D]")
    low = np.full((3, 7), 10.0)
    low[1, 2] = np.nan
    used = site.reference_et_mm(low, low + 10, 40.0, days)
    assert used.shape == (3, 7)
    assert np.isnan(used[1, 2])
    assert np.isfinite(used).sum() == 20


def test_the_south_has_its_summer_in_january():
    """The same day's warmth uses more in January than in July south of the equator, less north of it."""
    south = site.reference_et_mm(10, 20, -40.0, np.array(["2001-01-15", "2001-07-15"], dtype="datetime64[D]"))
    north = site.reference_et_mm(10, 20, 40.0, np.array(["2001-01-15", "2001-07-15"], dtype="datetime64[D]"))
    assert south[0] > south[1]
    assert north[0] < north[1]


def test_polar_night_and_midnight_sun():
    """At 80 degrees north nothing evaporates at midwinter; at midsummer the sun shines all day."""
    assert site.reference_et_mm(-30, -20, 80.0, date(2001, 12, 21)) == 0
    assert site.extraterrestrial_mj_m2(80.0, date(2001, 12, 21)) == 0
    assert site.extraterrestrial_mj_m2(80.0, date(2001, 6, 21)) > site.extraterrestrial_mj_m2(40.0, date(2001, 6, 21))


@pytest.mark.parametrize(
    ("low", "high", "latitude"), [(20, 10, 40), ("6,2", 10, 40), (50, 90, 40), (1, 2, 91), (1, 2, float("nan"))]
)
def test_hostile_weather_is_refused(low, high, latitude):
    """Swapped, misspelt, Fahrenheit, off the globe: one sentence."""
    with pytest.raises(InputProblem):
        site.reference_et_mm(low, high, latitude, date(2001, 6, 21))


def test_a_missing_day_has_no_evaporation():
    """A day that is missing gives NaN, never the value of some day."""
    found = site.reference_et_mm(10, 20, 45.0, np.array(["2001-06-21", "NaT"], dtype="datetime64[D]"))
    assert np.isnan(found).tolist() == [False, True]


def _record(years, *, rain=True):
    days = pd.date_range("1980-01-01", f"{1979 + years}-12-31", name="date")
    warm = 10 - 12 * np.cos(2 * np.pi * (days.day_of_year - 20) / 365)
    columns = {"tmin_c": warm - 5, "tmax_c": warm + 5 + (days.year % 10)}
    return pd.DataFrame({**columns, **({"rain_mm": 1.0} if rain else {})}, index=days)


def test_weeks_of_past_years():
    """52 weeks; a dry year uses more than a usual one; a millimetre of rain a day is 7 mm a week."""
    weekly = site.WeeklyWater.from_daily(_record(20), 40.0, year=2027)
    assert len(weekly.starts) == len(weekly.typical_mm_day) == 52
    assert weekly.starts[0] == date(2027, 1, 1)
    assert (weekly.dry_mm_day > weekly.typical_mm_day).all()
    assert weekly.rain_mm == pytest.approx(7.0)
    assert weekly.seasons == 20
    # By hand, numpy's default rule: of 20 years sorted the place 19 * 0.9 = 17.1, from 0.
    july = int(np.argmax(weekly.typical_mm_day))
    daily = _record(20)
    years = [
        daily[(daily.index.year == year) & ~((daily.index.month == 2) & (daily.index.day == 29))]
        for year in range(1980, 2000)
    ]
    week = sorted(
        site.reference_et_mm(
            one.tmin_c[7 * july :][:7], one.tmax_c[7 * july :][:7], 40.0, one.index[7 * july :][:7]
        ).mean()
        for one in years
    )
    assert weekly.dry_mm_day[july] == pytest.approx(week[17] + 0.1 * (week[18] - week[17]), abs=0.01)
    assert 6 <= weekly.starts[int(np.argmax(weekly.typical_mm_day))].month <= 7


def test_southern_weeks_begin_in_july():
    """South of the equator the growing year begins in July."""
    weekly = site.WeeklyWater.from_daily(_record(20, rain=False), -40.0, year=2027)
    assert weekly.starts[0] == date(2027, 7, 1)
    assert weekly.rain_mm is None


def test_too_few_years_are_refused():
    """Nine years give no dry year."""
    with pytest.raises(InputProblem, match="only 9 past years"):
        site.WeeklyWater.from_daily(_record(9), 40.0, year=2027)


def test_a_typical_year_gives_no_dry_years():
    """Monthly values alone: the weeks are known, dry years are not."""
    months = [(m, 15 - 5 * np.cos(m * np.pi / 6), 5 - 5 * np.cos(m * np.pi / 6)) for m in range(1, 13)]
    warmth = site.Warmth.from_monthly(months, latitude=40.0, source="test")
    weekly = site.WeeklyWater.from_warmth(warmth, year=2027)
    assert weekly.dry_mm_day is None
    assert weekly.month_mm_day(6) > weekly.month_mm_day(12)


def test_rain_of_a_few_years_is_no_middle_year():
    """Nine years with rain give no rain of the middle year, ten do."""
    for years in (9, 10):
        daily = _record(20)
        daily.loc[daily.index.year >= 1980 + years, "rain_mm"] = np.nan
        weekly = site.WeeklyWater.from_daily(daily, 40.0, year=2027)
        assert (weekly.rain_mm is None) == (years == 9)


def test_a_record_without_a_day_is_refused():
    """An empty record gives one sentence."""
    with pytest.raises(InputProblem, match="no year"):
        site.WeeklyWater.from_daily(_record(20).iloc[:0], 40.0, year=2027)
