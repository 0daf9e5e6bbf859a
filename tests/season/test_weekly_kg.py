"""Kilograms by week: nothing is lost, and each week is what a plain loop over days counts."""

import sys
from datetime import timedelta
from pathlib import Path

import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

sys.path.insert(0, str(Path(__file__).parent))
import invented

from gardenlib.problems import InputProblem
from gardenlib.season import plan_dates, replay_counts, replay_planned, weekly_yield

YEAR = 2027
PLAN = invented.plot(("cabbage_main", {"plants": 5}), ("pea", {"plants": 20}), ("tomato", {"plants": 3}))


def _replayed(seed, years, plan=PLAN):
    weather = invented.weather(invented.record(seed, years, level=10.0))
    planned = plan_dates(plan, invented.freezes(), year=YEAR, warmth=weather.warmth)
    return replay_planned(planned, weather, year=YEAR), planned


@settings(max_examples=15, deadline=None)
@given(seed=st.integers(0, 10_000), years=st.integers(1, 12))
def test_the_weeks_add_up_to_the_mean_yield(seed, years):
    """All weeks together hold what the counts say the plan gives on average."""
    table, planned = _replayed(seed, years)
    kg = replay_counts(table, planned).kg
    if not kg.high:
        return
    found = weekly_yield(table, planned, year=YEAR)
    assert found.table["kg_low"].sum() == pytest.approx(kg.low)
    assert found.table["kg_high"].sum() == pytest.approx(kg.high)
    assert (found.table["seasons"] <= found.seasons).all()


def test_each_week_is_what_a_loop_over_days_counts():
    """A crop that is cut once, day by day: 14 days (common practice, no source), fewer before a frost."""
    table, planned = _replayed(4, 6, invented.plot(("cabbage_main", {"plants": 5})))
    found = weekly_yield(table, planned, year=YEAR).table.set_index("week")
    by_week = dict.fromkeys(found.index, 0.0)
    worked = table[table["worked"].fillna(False)]
    assert len(worked) > 1
    for row in worked.itertuples():
        days = [row.ready_early + timedelta(days=n) for n in range(14)]
        days = [day for day in days if pd.isna(row.frost_on) or day <= row.frost_on]
        for day in days:
            moved = (day + (pd.Timestamp(YEAR, 1, 1) - pd.Timestamp(row.year, 1, 1))).date()
            by_week[moved - timedelta(days=moved.weekday())] += row.kg_low / len(days) / table["year"].nunique()
    assert found["kg_low"].to_dict() == pytest.approx(by_week)


def test_where_nothing_worked_there_are_no_weeks():
    """A plan that froze in each season is one sentence."""
    weather = invented.weather(invented.record(1, 3, level=-8.0))
    planned = plan_dates(PLAN, invented.freezes(), year=YEAR, warmth=weather.warmth)
    with pytest.raises(InputProblem, match="no weeks to show"):
        weekly_yield(replay_planned(planned, weather, year=YEAR), planned, year=YEAR)


def test_the_best_week_is_the_one_with_the_most():
    """No week has more than the one that is named."""
    table, planned = _replayed(4, 6)
    found = weekly_yield(table, planned, year=YEAR)
    sums = found.table.set_index("week")[["kg_low", "kg_high"]].sum(axis=1)
    assert sums[found.best_week] == sums.max() > 0
