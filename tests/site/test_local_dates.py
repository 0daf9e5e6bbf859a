"""The freeze dates of a place, from its three kinds of source."""

from datetime import date
from types import SimpleNamespace

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gardenlib import InputProblem
from gardenlib.site import FreezeDates, freeze_dates, freeze_seasons
from gardenlib.words import Voice


def station(base_c=8.0, years=30, latitude=45.0, seed=1):
    """Make a station of invented nights."""
    phase = 15 if latitude >= 0 else 197
    days = pd.date_range("1990-01-01", f"{1989 + years}-12-31", name="date")
    noise = np.random.default_rng(seed).normal(0, 4, len(days))
    low = base_c - 12 * np.cos(2 * np.pi * (days.day_of_year - phase) / 365.25) + noise
    daily = pd.DataFrame({"tmin_c": low.round(1)}, index=days)
    return SimpleNamespace(name="Invented", latitude=latitude, first_year=1990, last_year=1989 + years, daily=daily)


def test_the_answer_is_the_kernels():
    """The dates of a record are those of the two kernels at each threshold."""
    made_up = station()
    dates = FreezeDates.from_station(made_up)
    for threshold_f, threshold_c in ((36, 4 / 1.8), (32, 0.0), (28, -4 / 1.8), (24, -8 / 1.8)):
        table = freeze_dates(freeze_seasons(made_up.daily, threshold_c, latitude=45.0), year=2027)
        for risk in (0.1, 0.5, 0.9):
            assert dates.date("spring", threshold_f, risk, year=2027) == table.loc[risk, "last_spring"].date()
            assert dates.date("fall", threshold_f, risk, year=2027) == table.loc[risk, "first_fall"].date()


def test_a_place_that_never_freezes():
    """Without any freeze the state is "never", every risk has the answer none, and the risk of each day is 0."""
    dates = FreezeDates.from_station(station(base_c=40.0))
    assert dates.state("spring", 32) == "never"
    assert dates.date("spring", 32, 0.1, year=2027) is None
    assert (dates.curve("spring", 32, year=2027)["risk"] == 0).all()


def test_a_place_where_every_month_freezes():
    """Where each month froze in half of the years there is no date, and a sentence says why."""
    dates = FreezeDates.from_station(station(base_c=-5.0))
    assert dates.state("fall", 32) == "every_month"
    assert not dates.knows("fall", 32, 0.5)
    assert dates.curve("fall", 32, year=2027).empty
    with pytest.raises(InputProblem, match="comes in every month"):
        dates.date("fall", 32, 0.5, year=2027)


def test_too_few_years_keep_their_dots():
    """With 15 years there is no date and no curve, but each year's dates are there."""
    dates = FreezeDates.from_station(station(years=15))
    assert dates.state("spring", 32) == "too_few_years"
    assert dates.curve("spring", 32, year=2027).empty
    assert (dates.single_dates(32, year=2027)["half"] == "spring").sum() == 15
    with pytest.raises(InputProblem, match="Only 15 years"):
        dates.date("spring", 32, 0.5, year=2027)


def test_latitude_has_no_default():
    """A station without a latitude is refused until it is given."""
    nowhere = station()
    nowhere.latitude = None
    with pytest.raises(InputProblem, match="latitude"):
        FreezeDates.from_station(nowhere)
    assert FreezeDates.from_station(nowhere, latitude=45.0).latitude == 45.0


def test_the_curve_counts_springs():
    """The risk lies between the share of freezes on its date and beyond it, to one of the 30 springs."""
    dates = FreezeDates.from_station(station())
    for half, beyond in (("spring", 1), ("fall", -1)):
        curve = dates.curve(half, 32, year=2027).set_index("day")["risk"]
        for risk in (0.1, 0.3, 0.5, 0.7, 0.9):
            day = pd.Timestamp(dates.date(half, 32, risk, year=2027))
            assert curve[day + pd.Timedelta(days=beyond)] - 1 / 30 <= risk <= curve[day] + 1 / 30
    assert dates.curve("spring", 32, year=2027)["risk"].is_monotonic_decreasing
    assert dates.curve("fall", 32, year=2027)["risk"].is_monotonic_increasing
    assert dates.curve("spring", 32, year=2027)["day"].iloc[[0, -1]].dt.strftime("%m-%d").tolist() == ["01-01", "07-31"]


def test_southern_curve_spans_its_half():
    """In the south the spring curve of 2027 runs from July to January 2028 and the fall curve to June 2028."""
    dates = FreezeDates.from_station(station(latitude=-35.0))
    ends = [
        dates.curve(half, 32, year=2027)["day"].iloc[[0, -1]].dt.strftime("%Y-%m-%d").tolist()
        for half in ("spring", "fall")
    ]
    assert ends == [["2027-07-01", "2028-01-31"], ["2028-02-01", "2028-06-30"]]


@settings(max_examples=10)
@given(st.floats(0.2, 6.0), st.integers(0, 500))
def test_a_colder_plot_is_never_safer(colder_c, seed):
    """A colder plot's last freeze is never earlier and its first never later, at any risk."""
    at_station = FreezeDates.from_station(station(seed=seed))
    plot = at_station.with_night_offset(-colder_c)
    for risk in (0.1, 0.5, 0.9):
        assert plot.date("spring", 32, risk, year=2027) >= at_station.date("spring", 32, risk, year=2027)
        assert plot.date("fall", 32, risk, year=2027) <= at_station.date("fall", 32, risk, year=2027)


def test_the_offset_is_told_and_takes_the_place_of_another():
    """The offset stands in the assumptions in the class's units; setting it back gives the station's dates."""
    at_station = FreezeDates.from_station(station())
    plot = at_station.with_night_offset(-1.0).with_night_offset(-2.0)
    assert plot.night_offset_c == -2.0
    assert any("2 °C colder" in Voice(units="metric").say(said) for said in plot.assumptions)
    assert plot.with_night_offset(0.0).date("spring", 32, 0.1, year=2027) == at_station.date(
        "spring", 32, 0.1, year=2027
    )


def test_one_typed_date_makes_no_spread():
    """With the 50 % date alone no other risk is known, there is no curve, and the two weeks' rule is told."""
    dates = FreezeDates.typed((5, 9), (10, 6), source="leaflet", latitude=43.6)
    assert dates.date("spring", 32, 0.5, year=2027) == date(2027, 5, 9)
    assert dates.risks == (0.5,)
    assert dates.thresholds_f == (32,)
    assert dates.state("spring", 28) == "unknown"
    assert dates.curve("spring", 32, year=2027).empty
    assert any("two more weeks" in str(said) for said in dates.assumptions)
    with pytest.raises(InputProblem, match="does not tell the last freeze"):
        dates.date("spring", 32, 0.1, year=2027)


def test_typed_dates_are_joined_and_not_passed():
    """Between the typed risks dates lie on a straight line; beyond them nothing is known."""
    dates = FreezeDates.typed(
        (5, 9), None, source="leaflet", latitude=43.6, last_spring_10=(5, 25), last_spring_90=(4, 27)
    )
    assert dates.date("spring", 32, 0.3, year=2027) == date(2027, 5, 17)
    assert not dates.knows("spring", 32, 0.05)
    assert not dates.knows("fall", 32, 0.5)
    curve = dates.curve("spring", 32, year=2027)
    assert (curve["day"].iloc[0], curve["risk"].iloc[0]) == (pd.Timestamp("2027-04-27"), pytest.approx(0.9))
    assert (curve["day"].iloc[-1], curve["risk"].iloc[-1]) == (pd.Timestamp("2027-05-25"), pytest.approx(0.1))


def test_typed_southern_dates_fall_into_the_next_year():
    """In the south the fall of season 2027 lies in 2028, and a last freeze in January in 2028 too."""
    dates = FreezeDates.typed((10, 5), (5, 15), source="leaflet", latitude=-35.0, last_spring_10=(1, 3))
    assert dates.date("spring", 32, 0.5, year=2027) == date(2027, 10, 5)
    assert dates.date("spring", 32, 0.1, year=2027) == date(2028, 1, 3)
    assert dates.date("fall", 32, 0.5, year=2027) == date(2028, 5, 15)


def test_typed_offset_keeps_the_dates_and_says_so():
    """A night offset cannot move typed dates: they stay, and the caution says to wait."""
    plot = FreezeDates.typed((5, 9), (10, 6), source="leaflet", latitude=43.6).with_night_offset(-2.0)
    assert plot.date("spring", 32, 0.5, year=2027) == date(2027, 5, 9)
    assert any("Wait longer" in str(said) for said in plot.assumptions)
    assert not any("Wait longer" in str(said) for said in plot.with_night_offset(0.0).assumptions)


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"last_spring": (13, 1), "first_fall": None}, "not a month and a day"),
        ({"last_spring": (2, 30), "first_fall": None}, "not a month and a day"),
        ({"last_spring": (5, 9), "first_fall": None, "last_spring_10": (5, 1)}, "last freeze must be latest"),
        ({"last_spring": None, "first_fall": (10, 6), "first_fall_10": (10, 20)}, "first freeze must be earliest"),
    ],
)
def test_typed_mistakes_are_named(typed, words):
    """A day that cannot exist and dates in the wrong order are refused."""
    with pytest.raises(InputProblem, match=words):
        FreezeDates.typed(source="leaflet", latitude=43.6, **typed)


@pytest.mark.parametrize("typed", [(2, 28), (2, 29)])
def test_typed_leap_day(typed):
    """A typed 29 February is 28 February."""
    dates = FreezeDates.typed(typed, None, source="leaflet", latitude=30.0)
    assert dates.date("spring", 32, 0.5, year=2028) == date(2028, 2, 28)


def test_the_working_leads_to_the_date():
    """The steps count the springs, those that froze and the place in the line, and end in the date itself."""
    dates = FreezeDates.from_station(station())
    steps = dates.working("spring", 32, 0.1, year=2027)
    assert [step.result for step in steps] == [30, 30, 3.9, dates.date("spring", 32, 0.1, year=2027)]
    voice = Voice()
    assert all(voice.has(f"step.{step.key}") for step in steps)


def test_the_working_of_no_date_and_of_typed_dates():
    """Where freezes are rarer than the risk the working says so; typed dates name the points between which they lie."""
    rare = FreezeDates.from_station(station(base_c=40.0))
    assert rare.working("spring", 32, 0.5, year=2027)[-1].result is None
    typed = FreezeDates.typed((5, 9), None, source="leaflet", latitude=43.6, last_spring_10=(5, 25))
    (step,) = typed.working("spring", 32, 0.3, year=2027)
    assert step.result == date(2027, 5, 17)
    assert step.inputs["1 of 10"] == date(2027, 5, 25)


@pytest.mark.parametrize("risk", [0, 1, 50, -0.5, float("nan")])
def test_a_risk_is_a_fraction(risk):
    """A risk that is no fraction between 0 and 1 is refused."""
    with pytest.raises(InputProblem):
        FreezeDates.typed((5, 9), None, source="leaflet", latitude=43.6).date("spring", 32, risk, year=2027)


def test_an_unknown_half_is_refused():
    """Only spring and fall are halves."""
    with pytest.raises(InputProblem, match="spring or fall"):
        FreezeDates.typed((5, 9), None, source="leaflet", latitude=43.6).state("autumn", 32)


def test_every_answer_says_where_it_comes_from():
    """Sources, steps and assumptions are filled, and every source key is in the table."""
    from gardenlib import tables

    for dates in (
        FreezeDates.from_station(station()),
        FreezeDates.typed((5, 9), None, source="a leaflet", latitude=43.6),
    ):
        assert dates.steps
        assert dates.assumptions
        assert str(dates.comes_from)
        assert all(key == "common_practice" or tables.source(key) for key in dates.sources)


@pytest.mark.parametrize(
    ("last", "first", "latitude"), [((10, 6), (5, 9), 43.6), ((5, 9), (10, 6), -43.6), ((10, 15), (4, 20), 38.0)]
)
def test_dates_that_changed_places_are_refused(last, first, latitude):
    """Last and first freeze swapped, or typed for the other half of the earth, would leave more than a year free."""
    with pytest.raises(InputProblem, match="more than a year"):
        FreezeDates.typed(last, first, source="leaflet", latitude=latitude)


def test_a_freeze_free_year_of_a_mild_place_stays():
    """A last freeze in January and a first one in December are 334 days apart, and a first one may be in January."""
    for first in ((12, 20), (1, 10)):
        dates = FreezeDates.typed((1, 20), first, source="leaflet", latitude=33.0)
        assert dates.date("spring", 32, 0.5, year=2027) == date(2027, 1, 20)
        assert dates.date("fall", 32, 0.5, year=2027) == date(2028 if first[0] == 1 else 2027, *first)
