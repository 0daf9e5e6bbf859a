"""Freeze seasons and freeze dates: rules, edges and properties."""

from datetime import date

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gardenlib import InputProblem
from gardenlib.site import freeze_dates, freeze_seasons
from gardenlib.site.freeze import date_of, day_numbers

NORTH, SOUTH = 45.0, -35.0


def record(first, last, *nights, rest_c=10.0):
    """Make a daily record that is mild but for the named nights."""
    daily = pd.DataFrame({"tmin_c": rest_c}, index=pd.date_range(first, last, name="date"))
    daily.loc[list(nights), "tmin_c"] = -1.0
    return daily


def seasons_with(last_spring, first_fall=None, years=range(1991, 2031)):
    """Make a table of seasons out of month-day texts, None for a season without a freeze."""

    def dates(given):
        return pd.to_datetime(
            [None if day is None else f"{year}-{day}" for year, day in zip(years, given, strict=True)]
        )

    first_fall = first_fall or [None] * len(last_spring)
    return pd.DataFrame(
        {
            "last_spring": dates(last_spring),
            "first_fall": dates(first_fall),
            "usable_spring": True,
            "usable_fall": True,
        },
        index=pd.Index(years, name="season"),
    )


def noisy(seed, years=25, start="1990-01-01", phase=15, base_c=8.0):
    """Make a record of whole years, cold around the phase day, in whole tenths."""
    days = pd.date_range(start, periods=int(365.25 * years), name="date")
    rng = np.random.default_rng(seed)
    low = base_c - 12 * np.cos(2 * np.pi * (days.day_of_year - phase) / 365.25) + rng.normal(0, 4, len(days))
    return pd.DataFrame({"tmin_c": low.round(1)}, index=days)


def test_northern_halves_turn_on_the_first_of_august():
    """A freeze on 31 July belongs to spring, one on 1 August to fall."""
    row = freeze_seasons(record("2021-01-01", "2021-12-31", "2021-07-31", "2021-08-01"), 0.0, latitude=NORTH).loc[2021]
    assert (row["last_spring"], row["first_fall"]) == (pd.Timestamp("2021-07-31"), pd.Timestamp("2021-08-01"))


def test_southern_season_runs_over_new_year():
    """In the south a freeze on 31 January ends the spring of the year before, and 1 February begins its fall."""
    row = freeze_seasons(record("2021-07-01", "2022-06-30", "2022-01-31", "2022-02-01"), 0.0, latitude=SOUTH).loc[2021]
    assert (row["last_spring"], row["first_fall"]) == (pd.Timestamp("2022-01-31"), pd.Timestamp("2022-02-01"))
    assert row["usable_spring"]
    assert row["usable_fall"]


def test_the_equator_counts_as_north():
    """At latitude 0 the northern halves hold."""
    daily = record("2021-01-01", "2021-12-31", "2021-03-01")
    assert freeze_seasons(daily, 0.0, latitude=0.0).loc[2021, "last_spring"] == pd.Timestamp("2021-03-01")


@pytest.mark.parametrize("how", ["blank", "absent"])
@pytest.mark.parametrize(("missing", "usable"), [(10, True), (11, False)])
def test_a_half_may_miss_ten_nights(how, missing, usable):
    """10 missing nights leave a half usable and 11 do not, blank or absent, and the other half is not touched."""
    daily = record("2021-01-01", "2021-12-31")
    gone = daily.index[40 : 40 + missing]
    if how == "blank":
        daily.loc[gone, "tmin_c"] = np.nan
    else:
        daily = daily.drop(gone)
    row = freeze_seasons(daily, 0.0, latitude=NORTH).loc[2021]
    assert bool(row["usable_spring"]) is usable
    assert row["usable_fall"]


def test_a_season_that_is_not_over_does_not_count():
    """A record that ends on 15 June has no usable spring and no usable fall of that year."""
    table = freeze_seasons(record("2020-01-01", "2021-06-15"), 0.0, latitude=NORTH)
    assert table["usable_spring"].tolist() == [True, False]
    assert table["usable_fall"].tolist() == [True, False]


def test_years_inside_a_gap_stand_there_unusable():
    """A year without any day is a row that does not count."""
    daily = pd.concat([record("2019-01-01", "2019-12-31"), record("2021-01-01", "2021-12-31")])
    assert freeze_seasons(daily, 0.0, latitude=NORTH)["usable_spring"].tolist() == [True, False, True]


def test_no_freeze_no_date():
    """A season that never froze has no dates and no freeze-free length."""
    row = freeze_seasons(record("2021-01-01", "2021-12-31"), 0.0, latitude=NORTH).loc[2021]
    assert row[["last_spring", "first_fall", "freeze_free_days"]].isna().all()


def test_an_empty_record_has_no_seasons():
    """No days give no rows and no error."""
    daily = record("2021-01-01", "2021-01-02").iloc[:0]
    assert len(freeze_seasons(daily, 0.0, latitude=NORTH)) == 0


@pytest.mark.parametrize("latitude", [91.0, float("nan")])
def test_latitude_is_checked(latitude):
    """A latitude that does not exist is refused."""
    with pytest.raises(InputProblem, match="latitude"):
        freeze_seasons(record("2021-01-01", "2021-01-02"), 0.0, latitude=latitude)


def test_leap_day_is_the_28th():
    """29 February has the day number of 28 February, and every year has 365."""
    days = np.array(["2024-02-28", "2024-02-29", "2024-03-01", "2023-03-01", "2024-12-31"], dtype="datetime64[D]")
    assert day_numbers(days, np.array([2024, 2024, 2024, 2023, 2024])).tolist() == [58, 58, 59, 59, 364]


@given(st.integers(-300, 900))
def test_day_numbers_go_there_and_back(number):
    """A day number written as a date and read again is the same number."""
    when = np.array([date_of(number, 2023)], dtype="datetime64[D]")
    assert day_numbers(when, np.array([2023]))[0] == number


def test_risk_above_the_share_has_no_date():
    """With freezes in 30 of 40 springs a risk of 0.75 still has a date and 0.76 has none."""
    days = [f"03-{day:02}" for day in range(1, 31)]
    table = freeze_dates(seasons_with(days + [None] * 10), [0.5, 0.75, 0.76], year=2031)
    assert table["last_spring"].notna().tolist() == [True, True, False]
    assert table["n_freeze_spring"].tolist() == [30] * 3
    assert table["n_usable_spring"].tolist() == [40] * 3


def test_never_is_never_mixed_with_a_date():
    """Where the rule falls between a date and "never" the date stands as it was seen: 1 March, the earliest of all."""
    days = [f"03-{day:02}" for day in range(1, 31)]
    table = freeze_dates(seasons_with(days + [None] * 10), [0.75], year=2031)
    assert table["last_spring"].iloc[0] == pd.Timestamp("2031-03-01")


def test_fall_mirrors_spring():
    """With first freezes in 30 of 40 falls, 3 in 4 is the latest one seen and more has none."""
    days = [f"11-{day:02}" for day in range(1, 31)]
    table = freeze_dates(seasons_with([None] * 40, days + [None] * 10), [0.75, 0.8], year=2031)
    assert table["first_fall"].iloc[0] == pd.Timestamp("2031-11-30")
    assert pd.isna(table["first_fall"].iloc[1])


def test_freeze_years_leave_the_others_out():
    """As NCEI publishes: only seasons with a freeze, and no date where fewer than 1 in 10 freezes."""
    days = [f"03-{day:02}" for day in range(1, 32)]
    table = freeze_dates(seasons_with(days + [None] * 9), [0.5], year=2031, basis="freeze_years")
    assert table["last_spring"].iloc[0] == pd.Timestamp("2031-03-16")
    rare = freeze_dates(seasons_with(["03-01"] * 3 + [None] * 37), [0.5], year=2031, basis="freeze_years")
    assert pd.isna(rare["last_spring"].iloc[0])


def test_under_twenty_seasons_there_is_no_quantile():
    """19 usable springs give no date, whatever froze, and the counts stay."""
    table = freeze_dates(seasons_with(["03-01"] * 19, years=range(2001, 2020)), [0.5], year=2031)
    assert pd.isna(table["last_spring"].iloc[0])
    assert table["n_usable_spring"].iloc[0] == 19


@pytest.mark.parametrize(
    ("risk", "words"), [(50, r"did you mean 0\.5"), (0, "between 0 and 1"), (-0.1, "between 0 and 1")]
)
def test_risks_are_fractions(risk, words):
    """A risk in percent or outside 0 to 1 is refused with the mend."""
    with pytest.raises(InputProblem, match=f"(?i){words}"):
        freeze_dates(seasons_with(["03-01"] * 40), [risk], year=2031)


@settings(max_examples=15)
@given(st.integers(0, 1000), st.lists(st.floats(0.02, 0.98), min_size=2, max_size=5))
def test_a_lower_risk_is_never_earlier_in_spring(seed, risks):
    """A lower risk never gives an earlier last freeze nor a later first freeze."""
    table = freeze_dates(freeze_seasons(noisy(seed), 0.0, latitude=NORTH), sorted(risks), year=2027)
    assert table["last_spring"].dropna().is_monotonic_decreasing
    assert table["first_fall"].dropna().is_monotonic_increasing


@settings(max_examples=15)
@given(st.integers(0, 1000), st.floats(0.1, 5.0))
def test_a_colder_plot_is_never_earlier(seed, colder):
    """Colder nights never give an earlier last freeze nor a later first freeze, season by season."""
    daily = noisy(seed)
    plain, cold = (freeze_seasons(daily - by, 0.0, latitude=NORTH) for by in (0.0, colder))
    both = plain["last_spring"].notna()
    assert (cold["last_spring"][both] >= plain["last_spring"][both]).all()
    both = plain["first_fall"].notna()
    assert (cold["first_fall"][both] <= plain["first_fall"][both]).all()


@settings(max_examples=10)
@given(st.integers(0, 1000), st.floats(-3.0, 3.0))
def test_the_south_mirrors_the_north(seed, threshold_c):
    """The same nights six months on, the first 28 of each month, give the same dates six months on."""
    north = noisy(seed, years=4, start="2001-01-01")
    north = north[north.index.day <= 28]
    south = north.set_axis(pd.DatetimeIndex([day + pd.DateOffset(months=6) for day in north.index]))
    first, second = (
        freeze_seasons(north, threshold_c, latitude=NORTH),
        freeze_seasons(south, threshold_c, latitude=SOUTH),
    )
    for column in ("last_spring", "first_fall"):
        expected = [day if pd.isna(day) else day + pd.DateOffset(months=6) for day in first[column].iloc[:3]]
        got = second[column].reindex(first.index).iloc[:3].tolist()
        assert all((pd.isna(a) and pd.isna(b)) or a == b for a, b in zip(got, expected, strict=True))


def test_dates_fall_into_the_season_asked_for():
    """In the south the fall dates of season 2027 lie in 2028."""
    table = freeze_dates(freeze_seasons(noisy(3, phase=196), 0.0, latitude=SOUTH), [0.5], year=2027)
    assert table["last_spring"].iloc[0].date() > date(2027, 7, 1)
    assert table["first_fall"].iloc[0].date() > date(2028, 2, 1)
