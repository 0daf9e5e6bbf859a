"""The replay: equal to a plain loop over days, and what it does with odd plots and records."""

import sys
import time
from dataclasses import replace
from datetime import date
from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

sys.path.insert(0, str(Path(__file__).parent))
import invented
import oracle

from gardenlib.plot import Planting, Plot
from gardenlib.problems import InputProblem
from gardenlib.season import PastWeather, plan_dates, replay, replay_counts, replay_planned
from gardenlib.season.plan_row import Thirst
from gardenlib.season.standing import NEVER, heat_ready, rain_fed
from gardenlib.site import Warmth, lay_out
from gardenlib.units import Range

YEAR = 2027
PLAN = invented.plot(
    ("cabbage_main", {"plants": 5}), ("pea", {"plants": 20}), ("tomato", {"plants": 3}), ("radish", {"watered": False})
)


def planned_for(plot, weather):
    """Plan a plot by the typed dates of a latitude."""
    return plan_dates(plot, invented.freezes(weather.latitude), year=YEAR, warmth=weather.warmth)


def same(found, wanted):
    """Compare one value of the table with one of the loop."""
    if wanted is None:
        return pd.isna(found)
    if isinstance(wanted, date):
        return found == pd.Timestamp(wanted)
    return found == wanted if isinstance(wanted, bool) else found == pytest.approx(wanted, abs=1e-6)


PLANTINGS = st.lists(
    st.tuples(
        st.sampled_from(invented.CROPS),
        st.fixed_dictionaries(
            {
                "season": st.sampled_from(["spring", "fall", "cool"]),
                "moved_weeks": st.integers(-8, 8),
                "cover": st.sampled_from(["", "row_cover", "tunnel"]),
                "watered": st.booleans(),
                "started": st.sampled_from(["own", "bought"]),
                "plants": st.none() | st.integers(1, 40),
            }
        ),
    ),
    min_size=1,
    max_size=3,
)


@settings(max_examples=25, deadline=None)
@given(
    plantings=PLANTINGS,
    seed=st.integers(0, 10_000),
    south=st.booleans(),
    rain=st.booleans(),
    gaps=st.sampled_from([0, 6, 40]),
    spread=st.sampled_from([0.5, 4.0, 8.0]),
    level=st.sampled_from([-4.0, 8.0, 16.0]),
    offset=st.sampled_from([-1.7, 0.0, 2.0]),
)
def test_the_vectorised_replay_equals_a_plain_loop_over_days(
    *, plantings, seed, south, rain, gaps, spread, level, offset
):
    """Each number, date and verdict is that of a loop over days without pandas."""
    latitude = -38.0 if south else 45.0
    daily = invented.record(seed, 1, south=south, rain=rain, gaps=gaps, spread=spread, level=level)
    try:
        weather = invented.weather(daily, latitude, offset)
    except InputProblem:
        assume(gaps < 40)  # too many gaps: nothing to replay
        raise
    planned = planned_for(invented.plot(*plantings), weather)
    table = replay_planned(planned, weather, year=YEAR)
    wanted = oracle.replay(planned, weather, YEAR)
    assert len(table) == len(wanted) == len(plantings) * weather.seasons
    for row, (planting, year, expected) in zip(table.to_dict("records"), wanted, strict=True):
        assert (row["planting"], row["year"]) == (planting, year)
        if expected is None:
            assert pd.isna(row["worked"])
            assert np.isnan(row["cold_nights"])
            continue
        assert {name: row[name] for name in expected if not same(row[name], expected[name])} == {}


@settings(max_examples=60, deadline=None)
@given(
    rain=st.lists(st.floats(0, 60), min_size=30, max_size=30),
    et=st.floats(0, 12),
    root=st.floats(0.12, 1.5),
    held=st.floats(40, 200),
    fraction=st.floats(0.1, 0.8),
    first=st.integers(0, 20),
    length=st.integers(1, 30),
)
def test_no_water_is_lost_from_the_account(*, rain, et, root, held, fraction, first, length):
    """What falls is used, drains or fills what is lacking; no more is lacking than the soil holds."""
    thirst = Thirst(kc=(0.7, 1.05, 0.95), stage_days=(5, 8, 9, 5), root_m=root, ready_fraction=fraction, held_mm_m=held)
    falls = np.zeros((1, 365))
    falls[0, first : first + 30] = rain
    used = np.full((1, 365), et)
    found = rain_fed([thirst], used, falls, np.array([first]), np.array([[first + length - 1]]))
    fallen, through, lack, use = (
        getattr(found, name)[0, 0] for name in ("rain_mm", "drained_mm", "deficit_mm", "used_mm")
    )
    assert fallen == pytest.approx(sum(rain[:length]))
    assert lack == pytest.approx(use + through - fallen, abs=1e-6)
    assert -1e-9 <= lack <= held * root + 1e-9
    assert 0 <= found.dry_days[0, 0] <= length


def test_dry_days_end_when_it_rains_enough():
    """A long dry spell leaves dry days; an inch of rain every other day leaves none."""
    thirst = Thirst(kc=(0.7, 1.05, 0.95), stage_days=(20, 30, 20, 10), root_m=0.5, ready_fraction=0.45, held_mm_m=104.0)
    et, none = np.full((1, 365), 5.0), np.zeros((1, 365))
    wet = none.copy()
    wet[0, ::2] = 25.0
    span = np.array([100]), np.array([[179]])
    assert rain_fed([thirst], et, none, *span).dry_days[0, 0] > 60
    assert rain_fed([thirst], et, wet, *span).dry_days[0, 0] == 0


@settings(max_examples=30, deadline=None)
@given(seed=st.integers(0, 10_000), years=st.integers(1, 30), last=st.integers(1, 40))
def test_counts_are_conserved(seed, years, last):
    """Halves add up to the whole, no count is above its seasons, and the plan works no more often than a planting."""
    weather = invented.weather(invented.record(seed, years))
    planned = planned_for(PLAN, weather)
    table = replay_planned(planned, weather, year=YEAR)
    whole = replay_counts(table, planned, last=last)
    each = [replay_counts(table, planned, planting=one.id, last=last) for one in planned]
    assert whole.worked <= min(one.worked for one in each)
    for found in (whole, *each):
        before, n_before, after, n_after = found.halves
        assert (before + after, n_before + n_after) == (found.worked, found.seasons)
        assert found.last_seasons == min(last, found.seasons)
        assert 0 <= found.last_worked <= min(found.worked, found.last_seasons)
        assert max(found.hurt, found.late) <= found.seasons - found.worked <= found.hurt + found.late


def test_a_later_planting_meets_no_more_cold_nights_of_spring():
    """Moving a planting by weeks changes its day by seven days each; the cold nights of spring cannot grow."""
    weather = invented.weather(invented.record(3, 12))
    nights, days = [], []
    for weeks in (-4, 0, 4):
        planned = planned_for(invented.plot(("cabbage_main", {"moved_weeks": weeks})), weather)
        days.append(planned[0].planted_on)
        nights.append(replay_planned(planned, weather, year=YEAR)["cold_nights"].sum())
    assert [(day - days[0]).days for day in days] == [0, 28, 56]
    assert nights[0] > nights[1] >= nights[2]


def test_a_cover_without_a_published_figure_adds_nothing_and_says_so():
    """A tunnel changes no night, and the plan names it."""
    weather = invented.weather(invented.record())
    plain, tunnel, fleece = (
        planned_for(invented.plot(("broccoli", {"cover": cover})), weather)[0] for cover in ("", "tunnel", "row_cover")
    )
    assert plain.cover_c == tunnel.cover_c == 0.0
    assert fleece.cover_c > 0
    assert "replay.cover_no_figure" in [said.key for said in tunnel.unknown]


def test_official_dates_alone_are_not_replayed():
    """Without a daily record it says in one sentence what it cannot do."""
    with pytest.raises(InputProblem, match="past seasons cannot be replayed"):
        replay(PLAN, None)


def test_an_empty_plot_is_refused_in_one_sentence():
    """Nothing planted: it says what to do."""
    with pytest.raises(InputProblem, match="Choose what you grow first"):
        replay(Plot(), invented.station(invented.record()))


def test_an_unknown_crop_is_refused():
    """A crop that nobody knows is named."""
    with pytest.raises(InputProblem, match="brocoli"):
        replay(invented.plot(("brocoli", {})), invented.station(invented.record()))


def test_broken_first_and_last_seasons_are_left_out():
    """A record from June to June has no whole first or last season."""
    daily = invented.record(years=5).loc["2001-06-01":"2005-06-01"]
    table = replay(PLAN, invented.station(daily), freezes=invented.freezes())
    assert table["year"].unique().tolist() == [2002, 2003, 2004]


def test_a_record_without_a_whole_season_is_refused():
    """Half a year cannot be replayed."""
    daily = invented.record(years=1).loc["2001-03-01":"2001-08-01"]
    station = invented.station(daily)
    with pytest.raises(InputProblem):
        replay(
            PLAN,
            station,
            freezes=invented.freezes(),
            warmth=Warmth.from_monthly(invented.MONTHLY, latitude=45.0, source="invented"),
        )


def test_what_is_not_ready_by_the_years_end_did_not_work():
    """In a place as cool as this nothing ripens: no day of ripeness, and it did not work."""
    daily = invented.record(level=6.0, spread=0.0)
    daily["tmax_c"] = daily["tmin_c"] + 2
    weather = invented.weather(daily)
    planned = planned_for(invented.plot(("cabbage_main", {"moved_weeks": 8})), weather)
    slow = [replace(planned[0], heat_sum=replace(planned[0].heat_sum, high=1e6))]
    table = replay_planned(slow, weather, year=YEAR)
    assert table["ready_late"].isna().all()
    assert not table["worked"].any()
    assert not table["ready_in_time"].any()
    found = replay_counts(table, slow, planting="planting-1")
    assert (found.late, found.ready_last) == (found.seasons, None)


def test_frost_before_the_first_picking_counts_against_it():
    """A fall frost while the slow end is still unripe makes it fail; a cover over that night saves it."""
    daily = invented.record(spread=0.0, level=14.0)
    daily["tmax_c"] = daily["tmin_c"] + 10
    daily.loc["2001-08-20", "tmin_c"] = 1.6  # 34.9 F: below 36 F, above 36 F less the 2 F of a row cover
    weather = invented.weather(daily)
    planned = planned_for(invented.plot(("tomato", {"moved_weeks": 6})), weather)
    assert planned[0].planted_on > date(YEAR, 6, 1)
    table = replay_planned(planned, weather, year=YEAR).set_index("year")
    assert table.loc[2001, "frost_on"] == pd.Timestamp("2001-08-20")
    assert table["worked"].tolist() == [False, True, True]
    covered = replay_planned(
        [replace(planned[0], cover=Range(2 / 1.8, 4 / 1.8, "degC_difference"))], weather, year=YEAR
    )
    assert covered["worked"].all()


def test_the_south_is_replayed_from_winter_to_winter():
    """South of the equator a season begins in July, and spring plantings are in October or November."""
    weather = invented.weather(invented.record(south=True, years=4), -38.0)
    planned = planned_for(invented.plot(("cabbage_main", {})), weather)
    table = replay_planned(planned, weather, year=YEAR)
    assert planned[0].planted_on.month in {9, 10, 11}
    assert set(table["planted_on"].dt.month) == {planned[0].planted_on.month}
    assert (table["ready_late"] > table["planted_on"]).all()
    assert (table["planted_on"].dt.year == table["year"]).all()


def test_unknown_limits_stay_unknown_and_are_named():
    """Basil has no row of water or yield: NaN in the table, a sentence for each."""
    weather = invented.weather(invented.record())
    planned = planned_for(invented.plot(("basil", {"watered": False})), weather)
    table = replay_planned(planned, weather, year=YEAR)
    assert table[["dry_days", "kg_low", "cold_days"]].isna().all(axis=None)
    assert {"replay.no_water_row", "replay.no_kg"} <= {said.key for said in planned[0].unknown}


def test_rain_that_was_not_measured_leaves_dry_days_unknown():
    """A record of temperatures alone cannot tell of dry spells."""
    weather = invented.weather(invented.record(rain=False))
    table = replay_planned(planned_for(invented.plot(("radish", {"watered": False})), weather), weather, year=YEAR)
    assert table[["dry_days", "rain_mm"]].isna().all(axis=None)


def test_a_cool_season_that_runs_past_the_years_end_is_left_out():
    """It is not called a failure: the replay stops at the year's end, and that is said."""
    weather = invented.weather(invented.record(level=16.0))
    planned = [replace(planned_for(invented.plot(("radish", {})), weather)[0], planted_on=date(YEAR + 1, 2, 1))]
    table = replay_planned(planned, weather, year=YEAR)
    assert table["worked"].isna().all()
    with pytest.raises(InputProblem, match="cannot be replayed"):
        replay_counts(table, planned)


def table_of(verdicts):
    """Make a replayed table of one planting with these verdicts, and its plan."""
    weather = invented.weather(invented.record(years=2))
    planned = planned_for(invented.plot(("radish", {})), weather)
    rows = pd.concat([replay_planned(planned, weather, year=YEAR).iloc[[0]]] * len(verdicts), ignore_index=True)
    rows["worked"] = pd.array(verdicts, dtype="boolean")
    rows["year"] = range(2001, 2001 + len(verdicts))
    return rows, planned


@pytest.mark.parametrize(
    ("verdicts", "trend"),
    [([False] * 20 + [True] * 20, 1), ([True] * 20 + [False] * 20, -1), ([True, False] * 20, 0), ([True] * 5, 0)],
)
def test_a_trend_is_said_only_where_chance_hardly_explains_it(verdicts, trend):
    """None in 20 against 20 in 20 is one, half against half none, and five seasons tell nothing."""
    found = replay_counts(*table_of(verdicts))
    assert found.trend == trend
    assert (found.worked, found.seasons) == (sum(verdicts), len(verdicts))
    assert found.last_worked == sum(verdicts[-15:])


def test_a_small_difference_is_no_trend():
    """9 of 20 and then 12 of 20: the exact ranges, 23 to 68 and 36 to 81 of 100, overlap (Clopper and Pearson)."""
    found = replay_counts(*table_of([True] * 9 + [False] * 11 + [True] * 12 + [False] * 8))
    assert found.trend == 0
    assert "replay.no_trend" in [said.key for said in found.assumptions]


def test_a_planting_that_is_not_there_is_refused():
    """The sentence names those that are."""
    table, planned = table_of([True] * 3)
    with pytest.raises(InputProblem, match="planting-1"):
        replay_counts(table, planned, planting="x")


def test_it_is_at_least_five_times_faster_than_the_loop():
    """Ten seasons and six plantings that nobody waters, laid out for both."""
    weather = invented.weather(invented.record(years=10))
    planned = planned_for(invented.plot(*[(crop, {"watered": False}) for crop in invented.CROPS[:6]]), weather)
    replay_planned(planned, weather, year=YEAR)

    def seconds(run):
        begun = time.perf_counter()
        run()
        return time.perf_counter() - begun

    fast = min(seconds(lambda: replay_planned(planned, weather, year=YEAR)) for _ in range(5))
    assert seconds(lambda: oracle.replay(planned, weather, YEAR)) > 5 * fast


def test_planting_fields_default_for_old_files():
    """A plot file of before has no weeks moved, no cover, and is watered."""
    old = Planting.model_validate({"id": "a", "crop": "pea"})
    assert (old.moved_weeks, old.cover, old.watered) == (0, "", True)
    for wrong in ({"moved_weeks": 9}, {"cover": "glass"}):
        with pytest.raises(ValueError, match="validation error"):
            Planting.model_validate({"id": "a", "crop": "pea", **wrong})


def test_a_class_of_the_laid_out_record_needs_a_latitude():
    """A station without one is refused."""
    station = invented.station(invented.record(), latitude=None)
    with pytest.raises(InputProblem):
        PastWeather.of(station)
    assert PastWeather.of(station, latitude=45.0).past.years.tolist() == lay_out(station.daily, 45.0).years.tolist()


def test_a_sum_without_warmth_is_never_reached():
    """Where the typical year gives a crop no degree days, no past season makes it ready."""
    sums = np.arange(366.0)[None, :].repeat(2, axis=0)
    found = heat_ready(sums, np.array([100, 100]), np.array([0.0, 10.0]))
    assert found.tolist() == [[NEVER, NEVER], [109, 109]]
