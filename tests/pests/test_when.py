"""A pest's weeks over past seasons, and this year's record as far as it goes."""

from datetime import date

import numpy as np
import pandas as pd
import pytest

from gardenlib.pests import forecast
from gardenlib.pests.counting import daily_sums
from gardenlib.pests.models import events_of
from gardenlib.problems import InputProblem
from gardenlib.site import Warmth
from gardenlib.units import f_to_c

HOW = {"latitude": 42.0}


def record(first="2004-01-01", last="2025-12-31", *, warmer=None, latitude=42.0):
    """Make up a wave of a year, each year a little warmer or colder than the last by `warmer`."""
    days = pd.date_range(first, last)
    turn = 20 if latitude >= 0 else 202
    mean = 10 - 14 * np.cos(2 * np.pi * (days.day_of_year - turn) / 365)
    shift = np.array([(warmer or {}).get(year, 0.0) for year in days.year])
    return pd.DataFrame({"tmin_c": mean - 6 + shift, "tmax_c": mean + 6 + shift}, index=days)


def typical(latitude=42.0):
    """Give the same wave as twelve monthly values."""
    months = range(1, 13)
    waves = [14 * np.cos(2 * np.pi * (m - 1 - (0 if latitude >= 0 else 6)) / 12) for m in months]
    rows = [(m, 16 - wave, 4 - wave) for m, wave in zip(months, waves, strict=True)]
    return Warmth.from_monthly(rows, latitude=latitude, source="made up")


def middle(**how):
    """Give the corn borer's first middle day of 2026 over made-up seasons."""
    return forecast("corn_borer", record(**how), 2026, typical=typical(), **HOW).events[0].middle


def test_early_middle_and_late_follow_the_seasons():
    """Of twenty seasons, half of them 3 C warmer, the early day is the warm ones' and the late the cold ones'."""
    warm = dict.fromkeys(range(2004, 2024, 2), 3.0)
    found = forecast("corn_borer", record(last="2023-12-31", warmer=warm), 2024, typical=typical(), **HOW)
    week = found.events[0]
    assert week.seasons == 20
    # A day's leeway: where 29 February stands in a year's sum.
    assert abs((week.early.replace(year=2026) - middle(warmer=dict.fromkeys(range(2004, 2026), 3.0))).days) <= 1
    assert abs((week.late.replace(year=2026) - middle()).days) <= 1
    assert week.early < week.middle < week.late


def test_seasons_that_never_reach_it_leave_the_late_day_open():
    """A sum that 2 of 10 cold seasons do not reach has an early day, no late one, and says how many lacked it."""
    cold = dict.fromkeys((2004, 2009, 2014, 2019), -9.0)
    found = forecast("onion_maggot", record(last="2023-12-31", warmer=cold), 2024, typical=typical(), **HOW)
    third = next(week for week in found.events if week.event.event == "third_flies")
    assert third.not_reached == 4
    assert third.early is not None
    assert third.late is None


def test_this_year_is_counted_as_far_as_it_goes():
    """A record that ends on 1 June has reached the first moths but not the summer's, and says its last day."""
    found = forecast("corn_borer", record(last="2025-06-30"), 2025, typical=typical(), **HOW)
    weeks = {week.event.event: week for week in found.events}
    assert found.until == date(2025, 6, 30)
    assert weeks["first_moths"].reached == weeks["first_moths"].middle
    assert weeks["second_flight_begins"].reached is None
    assert weeks["second_flight_begins"].sum_c == pytest.approx(weeks["first_moths"].sum_c)
    assert weeks["first_moths"].seasons == 21


def test_a_gap_over_the_flight_is_filled_and_told():
    """Three weeks missing in this year's record are filled from the typical year, and the reader is told."""
    daily = record(last="2025-06-30")
    daily.loc["2025-05-01":"2025-05-21"] = np.nan
    found = forecast("corn_borer", daily, 2025, typical=typical(), **HOW)
    assert [said.values["n"] for said in found.assumptions if said.key == "pests.filled_now"] == [21]
    assert next(w for w in found.events if w.event.event == "first_moths").reached is not None


def test_a_record_that_starts_in_july_leaves_its_first_season_out():
    """The broken first season is not counted, and the reader is told."""
    found = forecast("corn_borer", record(first="2004-07-10"), 2026, typical=typical(), **HOW)
    assert found.events[0].seasons == 21
    assert any(said.key == "pests.left_out" for said in found.assumptions)


def test_south_of_the_equator_the_year_turns():
    """The same wave six months on gives the same days six months on, and says that nobody has tested it."""
    north = forecast("corn_borer", record(), 2026, typical=typical(), **HOW)
    south = forecast("corn_borer", record(latitude=-42), 2025, latitude=-42, typical=typical(-42))
    starts = ((north, date(2026, 1, 1)), (south, date(2025, 7, 1)))
    days = [(found.events[0].middle - start).days for found, start in starts]
    assert abs(days[0] - days[1]) <= 2
    assert any(said.key == "pests.six_months_on" for said in south.assumptions)


def test_several_sources_stay_apart():
    """The onion maggot has three sources, each with rows of its own."""
    found = forecast("onion_maggot", record(), 2026, typical=typical(), **HOW)
    assert found.table["source"].nunique() == 3
    assert list(found.table.columns)[:4] == ["event", "early", "middle", "late"]


def test_models_that_wait_for_the_first_seen():
    """Without a day the cutworm has no weeks and says what it waits for; no model is made up for the harlequin bug."""
    found = forecast("black_cutworm", record(), 2026, typical=typical(), **HOW)
    assert (found.events, found.needs_seen) == ((), True)
    bug = forecast("harlequin_bug", record(), 2026, typical=typical(), **HOW)
    assert (bug.events, bug.not_counted, bug.needs_seen) == ((), (), False)


@pytest.mark.parametrize(
    ("how", "words"),
    [
        ({"pest": "dragon"}, "no pest called dragon"),
        ({"daily": record(first="2019-01-01")}, "holds 7 whole seasons"),
        ({"seen": date(2024, 5, 1)}, "not in the season of 2026"),
        ({"daily": record(first="2025-07-01", last="2025-12-31")}, "ten missing days"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(how, words):
    """An unknown pest, too short a record, or a day of another season gets one sentence."""
    given = {"pest": "corn_borer" if "seen" not in how else "black_cutworm", "daily": record(), **how}
    pest, daily = given.pop("pest"), given.pop("daily")
    with pytest.raises(InputProblem, match=words):
        forecast(pest, daily, 2026, typical=typical(), **HOW, **given)


@pytest.mark.parametrize(
    ("pest", "cold_day", "hot_day"),
    # By hand, degrees Fahrenheit, days of 20 to 60 and of 60 to 100, from each source's rule: cabbage maggot above 43
    # (Minnesota); European corn borer 50/86, low raised to 50, high cut at 86 (Minnesota); seedcorn maggot above 39,
    # high cut at 84 (South Dakota 2022).
    [("cabbage_maggot", 0.0, 37.0), ("corn_borer", 5.0, 23.0), ("seedcorn_maggot", 1.0, 33.0)],
)
def test_the_working_shows_the_rule_that_was_counted(pest, cold_day, hot_day):
    """The formula of the working, worked out as it is written, gives what was counted on a cold and on a hot day."""
    event = events_of(pest)[0]
    low, high = np.array([[20.0, 60.0]]), np.array([[60.0, 100.0]])
    sums = daily_sums(f_to_c(low), f_to_c(high), event)[0] * 1.8
    assert sums.tolist() == pytest.approx([cold_day, hot_day])
    (step, *_) = forecast(pest, record(), 2026, typical=typical(), **HOW).steps
    told = step.expression
    assert ("top" in step.inputs) == ("top" in told) == (pest != "cabbage_maggot")
    assert ("low and high each at least above and at most top" in told) == (pest == "corn_borer")
    assert ("high at most top" in told) == (pest == "seedcorn_maggot")
