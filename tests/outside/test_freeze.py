"""Freeze dates of a daily record against NCEI's published normals for the same station, and the whole-degree walk."""

from datetime import date
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from gardenlib.site import FreezeDates, freeze_dates, freeze_seasons, read_station
from gardenlib.units import f_to_c

DATA = Path(__file__).parent / "data"
LATITUDE = 34.6603


@pytest.fixture(scope="module")
def seasons_1981_2010():
    """Give the seasons of station USC00381770, cut to the years of the published normals."""
    daily = read_station(DATA / "USC00381770.csv", unit="F", latitude=LATITUDE).daily
    return freeze_seasons(daily.loc["1981":"2010"], 0.0, latitude=LATITUDE)


# NCEI 1981-2010 normals, files ann-tmin-prblst-t32Fp50/90.txt and ann-tmin-prbfst-t32Fp50/90.txt, station USC00381770.
PUBLISHED = [
    ("last_spring", 0.5, date(2001, 4, 3)),
    ("last_spring", 0.9, date(2001, 3, 17)),
    ("first_fall", 0.5, date(2001, 11, 3)),
    ("first_fall", 0.9, date(2001, 11, 21)),
]


def days_apart(seasons, column, risk, published):
    """Count the days between our date and the published one."""
    table = freeze_dates(seasons, [risk], year=2001, basis="freeze_years")
    return abs((table[column].iloc[0].date() - published).days)


@pytest.mark.parametrize(("column", "risk", "published"), PUBLISHED)
def test_dates_near_the_published_normals(seasons_1981_2010, column, risk, published):
    """Plain quantiles of the 28 whole years lie within 5 days of NCEI's dates, which come from a bootstrap."""
    whole = seasons_1981_2010[seasons_1981_2010["usable_spring"] & seasons_1981_2010["usable_fall"]]
    assert len(whole) == 28
    assert days_apart(whole, column, risk, published) <= 5


@pytest.mark.parametrize(("column", "risk", "published"), PUBLISHED)
def test_halves_counted_apart_are_near_too(seasons_1981_2010, column, risk, published):
    """With each half's own usable years (28 springs, 30 falls) one date is 6 days off: the fall 90 % date."""
    most = 6 if (column, risk) == ("first_fall", 0.9) else 5
    assert days_apart(seasons_1981_2010, column, risk, published) <= most


# NCEI 1981-2010 normals, ann-tmin-prbgsl-t32Fp50/90.txt: reached or passed in 50 and 90 % of years.
@pytest.mark.parametrize(("share", "published"), [(0.5, 214), (0.9, 190)])
def test_lengths_near_the_published_normals(seasons_1981_2010, share, published):
    """Freeze-free days lie within 5 days of NCEI's season length for the same years."""
    days = seasons_1981_2010["freeze_free_days"].quantile(1 - share)
    assert days == pytest.approx(published, abs=5)


def test_genuine_daily_summaries_file():
    """Lincoln 2016: last freeze 12 April, first 12 October, 182 days between (read off NCEI's own file by hand)."""
    daily = read_station(DATA / "USW00094996_2016.csv").daily
    season = freeze_seasons(daily, 0.0, latitude=40.7).loc[2016]
    assert season["last_spring"] == pd.Timestamp("2016-04-12")
    assert season["first_fall"] == pd.Timestamp("2016-10-12")
    assert season["freeze_free_days"] == 182


@pytest.mark.parametrize("threshold_f", range(16, 37))
@pytest.mark.parametrize("kept_as", ["fahrenheit", "tenths of a degree Celsius"])
def test_whole_degree_walk(threshold_f, kept_as):
    """A night of T F counts as freezing at T F and one of T+1 F does not, kept as F or as C with one decimal.

    GHCN-Daily readme, section III: temperatures are kept in tenths of a degree Celsius; 28 F becomes -2.2 C, which is
    28.04 F.
    """
    nights_c = [f_to_c(float(threshold_f)), f_to_c(float(threshold_f + 1))]
    if kept_as != "fahrenheit":
        nights_c = [round(night, 1) for night in nights_c]
    daily = pd.DataFrame({"tmin_c": nights_c}, index=pd.to_datetime(["2021-03-01", "2021-04-01"]))
    found = freeze_seasons(daily, f_to_c(float(threshold_f)), latitude=45.0)["last_spring"].iloc[0]
    assert found == pd.Timestamp("2021-03-01")


def test_normals_and_record_side_by_side_agree_on_lebanon():
    """The answer gives the published dates themselves: Lebanon NH 1991-2020, 32 F (NCEI by-station file)."""
    dates = FreezeDates.from_normals(DATA / "ncei_normals_1991-2020_USW00094765_freeze_columns.csv")
    got = [dates.date(half, 32, risk, year=2027) for half in ("spring", "fall") for risk in (0.1, 0.5, 0.9)]
    assert got == [
        date(2027, 5, 24),
        date(2027, 5, 9),
        date(2027, 4, 27),
        date(2027, 9, 23),
        date(2027, 10, 6),
        date(2027, 10, 19),
    ]


def test_quantile_rule_is_the_published_one():
    """The 20 % value of 30 ranked years is 0.2 x the sixth + 0.8 x the seventh (WMO-1203 as quoted by NCEI)."""
    years = pd.RangeIndex(1991, 2021)
    first = pd.to_datetime(
        [f"{year}-10-{day:02}" for year, day in zip(years, [*range(1, 7), 16, *range(17, 32), *[31] * 8], strict=True)]
    )
    seasons = pd.DataFrame(
        {"last_spring": pd.NaT, "first_fall": first, "usable_spring": True, "usable_fall": True}, index=years
    )
    # 6 and 16 October: 0.2 x 6 + 0.8 x 16 = 14.
    assert freeze_dates(seasons, [0.2], year=2027)["first_fall"].iloc[0] == pd.Timestamp("2027-10-14")
    assert np.isnat(freeze_dates(seasons, [0.2], year=2027)["last_spring"].to_numpy()[0])
