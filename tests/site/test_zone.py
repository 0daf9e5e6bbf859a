"""The hardiness zone of a record: which winters count, and when there is no zone."""

from types import SimpleNamespace

import pandas as pd
import pytest

from gardenlib import InputProblem
from gardenlib.site import zone_from_station
from gardenlib.units import f_to_c


def station(first, last, coldest_f, latitude=45.0, rest_c=15.0):
    """Make a mild record with one cold night a year: month-day or full date to degrees Fahrenheit."""
    days = pd.date_range(first, last, name="date")
    daily = pd.DataFrame({"tmin_c": rest_c}, index=days)
    for when, low_f in coldest_f.items():
        hit = days.strftime("%m-%d") == when if len(when) == 5 else days == pd.Timestamp(when)
        daily.loc[hit, "tmin_c"] = f_to_c(float(low_f))
    return SimpleNamespace(name="Invented", latitude=latitude, daily=daily)


def test_the_mean_of_whole_winters():
    """Twenty winters with lows of -3 F give zone 6b, and no reason stands beside it."""
    zone = zone_from_station(station("1990-07-01", "2010-06-30", {"01-20": -3}))
    assert (zone.zone, zone.years, zone.reason) == ("6b", 20, None)
    assert zone.mean_extreme_min_c == pytest.approx(f_to_c(-3.0))


def test_a_northern_winter_is_kept_whole():
    """Cold nights of 30 December and 5 January belong to one winter; calendar years would count both."""
    lows = {"2000-12-30": -20, "2001-01-05": -25} | {f"{y}-01-15": 3 for y in range(2002, 2013)}
    made_up = station("2000-07-01", "2012-06-30", lows)
    zone = zone_from_station(made_up)
    assert zone.years == 12
    assert zone.mean_extreme_min_c == pytest.approx(f_to_c((-25 + 11 * 3) / 12))


def test_the_other_way_of_counting_is_told():
    """Where calendar years give another half zone, the answer names it."""
    # Every other winter is cold on both sides of New Year: winters average -3 F (6b), each calendar year has -9 F (6a).
    cold = {f"{y}-12-31": -9 for y in range(2000, 2012, 2)} | {f"{y}-01-02": -9 for y in range(2001, 2013, 2)}
    mild = {f"{y}-12-31": 3 for y in range(2001, 2012, 2)} | {f"{y}-01-02": 3 for y in range(2002, 2013, 2)}
    zone = zone_from_station(station("2000-07-01", "2012-06-30", cold | mild))
    assert (zone.zone, zone.years) == ("6b", 12)
    assert any("the zone is 6a" in str(said) for said in zone.assumptions)
    steady = zone_from_station(station("2000-07-01", "2012-06-30", {"01-15": -3}))
    assert not any("the zone is" in str(said) for said in steady.assumptions)


def test_a_southern_winter_is_a_calendar_year():
    """In the south the winter of July counts in its calendar year."""
    zone = zone_from_station(station("1990-01-01", "2009-12-31", {"07-10": 22}, latitude=-35.0))
    assert (zone.zone, zone.years) == ("9a", 20)


def test_one_partial_year_is_no_zone():
    """A record from March to November has no whole winter: no zone, and the reason."""
    zone = zone_from_station(station("2020-03-01", "2020-11-30", {"11-20": 10}))
    assert (zone.zone, zone.years) == (None, 0)
    assert "no whole winter" in str(zone.reason)


def test_few_winters_are_rough():
    """Nine winters give a zone with the word rough, ten without."""
    nine, ten = (zone_from_station(station("2000-07-01", f"{2000 + n}-06-30", {"01-20": -3})) for n in (9, 10))
    assert "rough" in str(nine.reason)
    assert ten.reason is None


@pytest.mark.parametrize(
    ("begins", "missing", "years"),
    [("11-01", 10, 12), ("11-01", 11, 11), ("10-01", 11, 11), ("03-21", 11, 11), ("09-20", 11, 12), ("04-01", 11, 12)],
)
def test_a_winter_may_miss_ten_cold_nights(begins, missing, years):
    """A winter with 11 nights missing from October to March does not count; nights in summer may be missing."""
    made_up = station("2000-07-01", "2012-06-30", {"01-20": -3})
    gone = pd.date_range(f"2005-{begins}", periods=missing).append(pd.date_range("2003-07-01", "2003-08-30"))
    made_up.daily = made_up.daily.drop(gone)
    assert zone_from_station(made_up).years == years


def test_off_the_scale():
    """Where the mean low is 72 F there is no zone, and the reason says so."""
    zone = zone_from_station(station("2000-07-01", "2012-06-30", {"01-20": 72}, latitude=1.3, rest_c=26.0))
    assert zone.zone is None
    assert "scale" in str(zone.reason)


def test_an_empty_record_and_no_latitude():
    """No nights give no zone; no latitude is refused."""
    empty = station("2020-01-01", "2020-01-02", {})
    empty.daily = empty.daily.iloc[:0]
    assert zone_from_station(empty).zone is None
    empty.latitude = None
    with pytest.raises(InputProblem, match="latitude"):
        zone_from_station(empty)
