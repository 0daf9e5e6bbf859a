"""Even harvests: what holds in every season, what is told, and what is refused."""

from datetime import date, timedelta
from functools import cache
from types import SimpleNamespace

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardenlib import InputProblem, sowing
from gardenlib.harvest import weeks_ready
from gardenlib.site import FreezeDates, Warmth
from gardenlib.sowing.even_days import spaced
from gardenlib.sowing.past_heat import NOT_RIPE, ripe_days
from gardenlib.tables import source
from gardenlib.words import Voice

APRIL = date(2027, 4, 1)


@cache
def station(years=30, *, latitude=40.0, mean_c=8.0, noise_c=4.0, holes=()):
    """Make the record of an invented place; `holes` are (first, last) days that are missing."""
    days = pd.date_range(f"{2021 - years}-01-01", "2020-12-31", name="date", unit="s")
    phase = 15 if latitude >= 0 else 15 + 182
    low = mean_c - 12 * np.cos(2 * np.pi * (days.day_of_year - phase) / 365)
    low = low + np.random.default_rng(3).normal(0, noise_c, len(days))
    daily = pd.DataFrame({"tmin_c": low, "tmax_c": low + 11}, index=days)
    for first, last in holes:
        daily = daily.drop(daily.loc[first:last].index)
    return SimpleNamespace(name="Invented", latitude=latitude, first_year=2021 - years, last_year=2020, daily=daily)


def say(found):
    """Speak all that an answer took for granted."""
    return " ".join(Voice().say(said) for said in found.assumptions)


# ---- the kernel --------------------------------------------------------------------------------


@given(st.integers(0, 2**32 - 1), st.floats(0.5, 3000))
def test_a_later_sowing_never_ripens_earlier(seed, total):
    """In one season, what is sown later is never ripe sooner, and nothing is ripe before it is sown."""
    random = np.random.default_rng(seed)
    daily = random.choice([0.0, 0.1, 3.0, 10.0, 20.0], (3, 365)) * random.integers(0, 2, (3, 1))
    ripe = ripe_days(daily, total)
    assert (np.diff(ripe, axis=1) >= 0).all()
    assert (ripe >= np.minimum(np.arange(365), NOT_RIPE)).all()


def test_ripe_on_the_day_that_reaches_the_sum():
    """Closed form: at 10 degree days a day, 100 are reached on the tenth day, and never at 0 a day."""
    ripe = ripe_days(np.stack([np.full(365, 10.0), np.zeros(365)]), 100.0)
    assert ripe[0, 0] == 9
    assert ripe[0, 355] == 364
    assert ripe[0, 356] == NOT_RIPE
    assert (ripe[1] == NOT_RIPE).all()


def test_seasons_do_not_reach_into_one_another():
    """Each season by itself gives what it gives among others (the same sums, searched one by one)."""
    daily = np.random.default_rng(5).uniform(0, 20, (4, 365))
    together = ripe_days(daily, 700.0)
    for row, ripe in zip(daily, together, strict=True):
        sums = np.concatenate([[0.0], np.cumsum(row)])
        for day in (0, 90, 180, 364):
            reached = np.flatnonzero(sums[day:] >= sums[day] + 700.0)
            assert ripe[day] == (day + reached[0] - 1 if reached.size else NOT_RIPE)


def test_where_every_day_is_alike_even_means_equal():
    """With the same warmth each day, harvests 14 days apart come from sowings 14 days apart."""
    assert spaced(np.minimum(np.arange(365) + 50.0, NOT_RIPE), 80, 4, 14) == [80, 94, 108, 122]


def test_one_of_several_sowings_for_one_day_is_the_middle_one():
    """Where days 10 to 20 all ripen on one day, the middle one of them is sown."""
    middle = np.concatenate([np.arange(10) + 40.0, np.full(11, 60.0), np.arange(344) + 61.0])
    assert spaced(middle, 0, 2, 20) == [0, 15]


# ---- the answer --------------------------------------------------------------------------------


def test_harvests_are_evenly_spaced_and_equal_sowings_are_not():
    """Even sowings give harvests within a day and a half of the interval; equal ones bunch together in spring."""
    found = sowing.even_harvest("pea", station(), APRIL, 4, 14)
    assert found.table["gap_days"].iloc[1:].between(12.5, 15.5).all()
    assert (found.table["equal_gap_days"].iloc[1:3] < 10).all()
    assert found.table["sow"].iloc[0] == APRIL
    assert list(found.table["equal_sow"]) == [APRIL + timedelta(days=14 * n) for n in range(4)]
    assert (found.even, found.reason, found.seasons) == (True, None, 30)


def test_what_is_done_is_named():
    """Peas are sown in place; cabbage days count from plants, so plants are set out."""
    assert sowing.even_harvest("pea", station(), APRIL, 1, 14).event == "direct_sow"
    assert sowing.even_harvest("cabbage_main", station(), APRIL, 1, 14).event == "set_out"


@given(st.sampled_from(["pea", "bean_bush", "lettuce_leaf", "sweet_corn"]), st.integers(0, 200), st.integers(1, 60))
def test_every_row_is_in_order(crop_id, day, every_days):
    """Each harvest lies after its sowing and between early and late, and later rows are sown and ripe later."""
    try:
        table = sowing.even_harvest(crop_id, station(), date(2027, 1, 15) + timedelta(days=day), 6, every_days).table
    except InputProblem as problem:
        assert "not ripe" in str(problem)  # noqa: PT017  refusing is one of two sound outcomes
        return
    assert (table["sow"] < table["harvest"]).all()
    assert (table["early"] <= table["harvest"]).all()
    assert (table["harvest"] <= table["late"]).all()
    assert table["harvest"].is_monotonic_increasing
    assert table["sow"].is_monotonic_increasing
    assert table["late"].iloc[-1].year == 2027


def test_an_interval_smaller_than_the_spread_is_not_even():
    """Where one sowing ripens over more days than the interval, the answer says so and gives both numbers."""
    found = sowing.even_harvest("pea", station(noise_c=9.0), date(2027, 3, 1), 3, 3)
    assert found.even is False
    assert found.spread_days > 3
    assert "3 days" in Voice().say(found.reason)
    assert sowing.even_harvest("pea", station(noise_c=9.0), date(2027, 3, 1), 3, 60).even is True


@pytest.mark.parametrize(("years", "even"), [(19, None), (20, True)])
def test_fewer_than_twenty_seasons_give_no_odds(years, even):
    """From 20 seasons on there are tenths; below that the first and last are shown and the reason is said."""
    found = sowing.even_harvest("pea", station(years), APRIL, 2, 21)
    assert found.even is even
    assert (found.reason is None) == (even is True)
    assert years == 20 or "19 years are too few" in Voice().say(found.reason)


def test_gaps_are_filled_or_left_out_and_told():
    """Ten missing days are filled and counted; a year with eleven is left out."""
    found = sowing.even_harvest(
        "pea", station(holes=(("2001-05-01", "2001-05-10"), ("2005-05-01", "2005-05-11"))), APRIL, 2, 14
    )
    assert found.seasons == 29
    assert "10 missing days were filled" in say(found)
    assert "1 year was left out" in say(found)


def test_a_harvest_after_the_first_freeze_or_closing_is_told():
    """Harvests past the middle first freeze, past the garden's closing, or past the year's end are counted."""
    found = sowing.even_harvest("lettuce_leaf", station(), date(2027, 8, 1), 6, 30, garden_closes=date(2027, 9, 30))
    told = " ".join(Voice().say(said) for said in found.late)
    assert "after the middle first freeze" in told
    assert "after the garden closes on September 30" in told
    assert len(found.table) < 6
    assert "no room before the year ends" in told


def test_the_south_mirrors_the_north():
    """The same weather six months on gives the same days between sowing and harvest, within 2 days of rounding."""
    north = sowing.even_harvest("pea", station(noise_c=0.0), APRIL, 3, 14).table
    south = sowing.even_harvest("pea", station(latitude=-40.0, noise_c=0.0), APRIL + timedelta(days=183), 3, 14).table
    for (_, here), (_, there) in zip(north.iterrows(), south.iterrows(), strict=True):
        assert abs((here["harvest"] - here["sow"]).days - (there["harvest"] - there["sow"]).days) <= 2


@pytest.mark.parametrize("first", [date(2027, 7, 1), date(2028, 2, 29)])
def test_a_southern_season_runs_over_the_new_year(first):
    """In the south a sowing from July to June belongs to one growing year, also on the leap day."""
    found = sowing.even_harvest("lettuce_leaf", station(latitude=-38.0), first, 2, 14)
    assert found.table["harvest"].iloc[0] > first


def test_given_climate_is_used():
    """Warmth and freeze dates that are handed over give the same as those worked out from the record."""
    here = station()
    given_ = sowing.even_harvest(
        "pea", here, APRIL, 3, 14, warmth=Warmth.from_station(here), freezes=FreezeDates.from_station(here)
    )
    pd.testing.assert_frame_equal(given_.table, sowing.even_harvest("pea", here, APRIL, 3, 14).table)


@pytest.mark.parametrize("crop_id", ["pea", "broccoli", "lettuce_head", "cabbage_mini", "sweet_corn", "carrot"])
def test_every_answer_speaks(crop_id):
    """Steps, assumptions and sources have words; bases from memory are called unchecked."""
    for found in (
        sowing.even_harvest(crop_id, station(), APRIL, 2, 14),
        sowing.remaining_gap(crop_id, station(), APRIL, 14),
    ):
        voice = Voice()
        for step in found.steps:
            assert voice.say(f"step.{step.key}")
            assert source(step.source)
            assert all(voice.value(value) for value in (step.result, *step.inputs.values()) if value is not None)
        assert ("memory_knott" in found.sources) == (crop_id in {"broccoli", "lettuce_head", "carrot"})
        assert ("from memory" in say(found)) == (crop_id in {"broccoli", "lettuce_head", "carrot"})
        assert "our own sum" in say(found)


# ---- what remains of an interval ---------------------------------------------------------------


def test_in_spring_less_remains_and_in_fall_more():
    """Two sowings 14 days apart ripen closer together in spring and further apart in late summer (Bachmann, NCAT)."""
    spring = sowing.remaining_gap("lettuce_leaf", station(), APRIL, 14)
    fall = sowing.remaining_gap("lettuce_leaf", station(), date(2027, 8, 20), 14)
    assert spring.middle_days < 14 < fall.middle_days
    assert spring.days.low <= spring.middle_days <= spring.days.high


# ---- hostile input: one sentence each ----------------------------------------------------------


@pytest.mark.parametrize(
    ("how", "said"),
    [
        ({"harvests": 0}, "harvests is 0"),
        ({"harvests": 2.5}, "harvests is 2.5"),
        ({"every_days": 0}, "are 0"),
        ({"every_days": 400}, "are 400"),
        ({"crop": "pepper"}, "pea"),
        ({"crop": "peas"}, "no crop named peas"),
        ({"first": date(2027, 12, 1)}, "not ripe before the year ends"),
        ({"garden_opens": date(2027, 4, 2)}, "the garden opens on April 2"),
        ({"garden_closes": date(2027, 3, 31)}, "the garden closes on March 31"),
        ({"station": station(1, holes=(("2020-07-01", "2020-07-11"),))}, "Invented"),
        ({"station": SimpleNamespace(**{**vars(station()), "latitude": None})}, "latitude"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(how, said):
    """Nothing to harvest, impossible intervals, unknown crops, days outside and short records are refused."""
    asked = {"crop": "pea", "station": station(), "first": APRIL, "harvests": 3, "every_days": 14, **how}
    with pytest.raises(InputProblem, match=said):
        sowing.even_harvest(**asked)


@pytest.mark.parametrize("days", [0, -3, 400, 1.5])
def test_impossible_intervals_are_refused_everywhere(days):
    """The two smaller questions refuse the same intervals."""
    with pytest.raises(InputProblem, match="1 to 180"):
        sowing.sowings_between(APRIL, date(2027, 6, 1), days)
    with pytest.raises(InputProblem, match="1 to 180"):
        sowing.remaining_gap("pea", station(), APRIL, days)


def test_a_second_sowing_that_never_ripens_is_refused():
    """Where the later sowing is not ripe before the year ends, or lies in the next, one sentence says so."""
    for first, apart in ((date(2027, 8, 20), 90), (date(2027, 8, 20), 170)):
        with pytest.raises(InputProblem, match="not ripe before the year ends"):
            sowing.remaining_gap("pea", station(), first, apart)


def test_no_sowing_between_dates_the_wrong_way_round():
    """Where the last day lies before the first there is nothing to sow."""
    assert sowing.sowings_between(date(2027, 6, 1), APRIL, 7) == ()


def test_nothing_ripens_where_no_day_is_warm_enough():
    """Where the published days of a crop hold no warmth above its base, no harvest is told, soon or late."""
    cold = station(mean_c=-30.0, latitude=75.0, noise_c=0.0)
    with pytest.raises(InputProblem, match="not ripe before the year ends"):
        sowing.even_harvest("pea", cold, date(2027, 6, 1), 3, 14)
    found = weeks_ready("pea", date(2027, 6, 1), station=cold)
    assert (found.early, found.middle, found.late, found.not_ripe) == (None, None, None, 30)
