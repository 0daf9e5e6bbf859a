"""A season replayed by hand from a published record, and the published limits that it uses."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pandas as pd
import pytest

from gardenlib.plot import Planting, Plot
from gardenlib.season import PastWeather, plan_dates, replay_planned
from gardenlib.site import FreezeDates, Warmth, lay_out, read_station
from gardenlib.tables.loader import rows
from gardenlib.units import Range

DATA = Path(__file__).parent / "data"
LATITUDE = 40.695
# Only single gaps are filled from it; 17 June is the one day of 2016 whose low is missing.
MONTHLY = [(month, 24.0, 12.0) for month in range(1, 13)]


@pytest.fixture(scope="module")
def lincoln():
    """Lay out Lincoln 11 SW, Nebraska, 2016: NOAA NCEI, daily summaries, USW00094996."""
    station = read_station(DATA / "USW00094996_2016.csv", unit="F", latitude=LATITUDE)
    typical = Warmth.from_monthly(MONTHLY, latitude=LATITUDE, source="filler")
    return PastWeather(lay_out(station.daily, LATITUDE), typical, LATITUDE)


def planted(crop, day, weather, **changes):
    """Plan one planting for a day of 2016."""
    here = FreezeDates.typed((5, 1), (10, 5), source="typed", latitude=LATITUDE)
    plan = plan_dates(Plot(plantings=(Planting(id="a", crop=crop),)), here, year=2016, warmth=weather.warmth)
    return [replace(plan[0], planted_on=day, base=None, heat_sum=None, **changes)]


def replayed(crop, day, weather, **changes):
    """Replay that planting in 2016."""
    table = replay_planned(planted(crop, day, weather, **changes), weather, year=2016)
    assert table["year"].tolist() == [2016]
    return table.iloc[0]


def test_tomato_set_out_on_10_may_met_the_night_of_14_may(lincoln):
    """The record's lows from 11 May on: 52, 46, 42, 33 (14 May), 38, 48, then none below 41 F until 7 October (34 F).

    36 F is the National Weather Service's frost, which tender crops are planned to miss. 70 and 90 days after setting
    out (Missouri G6201 and Oklahoma HLA-6004) are 19 July and 8 August. Days with a mean above 80 F until then, read
    off the record: 9-12, 15, 22 and 25 June, 5, 10, 17 and 19-23 July: 15.
    """
    row = replayed("tomato", date(2016, 5, 10), lincoln)
    assert row["cold_nights"] == 1
    assert (row["ready_early"], row["ready_late"]) == (pd.Timestamp("2016-07-19"), pd.Timestamp("2016-08-08"))
    assert row["frost_on"] == pd.Timestamp("2016-10-07")
    assert row["heat_days"] == 15
    assert bool(row["ready_in_time"])
    assert not row["worked"]


@pytest.mark.parametrize(("day", "nights"), [(13, 1), (14, 0)])
def test_the_night_before_planting_does_not_count(lincoln, day, nights):
    """Lows are those of the morning: plants set out on 14 May did not meet the 33 F of that morning."""
    row = replayed("tomato", date(2016, 5, day), lincoln)
    assert row["cold_nights"] == nights
    assert bool(row["worked"]) is (nights == 0)


@pytest.mark.parametrize(("cover_f", "nights"), [(2, 1), (4, 0)])
def test_a_row_cover_by_its_low_and_its_high_end(lincoln, cover_f, nights):
    """At 33 F a cover of 2 F leaves it at 35, one of 4 F at 37 F, above the 36 F of a frost."""
    row = replayed("tomato", date(2016, 5, 10), lincoln, cover=Range(cover_f / 1.8, 9, "degC_difference"))
    assert row["cold_nights"] == nights


@pytest.mark.parametrize(("day", "nights"), [(date(2016, 4, 7), 1), (date(2016, 4, 8), 1), (date(2016, 4, 9), 0)])
def test_cabbage_stands_30_but_not_24_degrees(lincoln, day, nights):
    """Lows of 8 to 12 April 2016: 30, 24, above 36, 31, 29 F; a hard freeze is 28 F (National Weather Service)."""
    assert replayed("cabbage_main", day, lincoln)["cold_nights"] == nights


def test_cold_days_after_setting_out_cabbage_on_10_april(lincoln):
    """Means below 50 F in the four weeks to 7 May, read off the record: 11, 12, 28, 29, 30 April and 1 May."""
    row = replayed("cabbage_main", date(2016, 4, 10), lincoln)
    assert row["cold_days"] == 6
    assert not row["may_bolt"]


def test_degree_days_of_peas_added_by_hand(lincoln):
    """From 14 April on the lows are above 40 F, so that a day gives (low + high) / 2 - 40 (Delaware: base 40 F).

    21.5 25 24.5 23 13 13.5 14.5 20 14 24 28.5 20.5 22 13 8.5 5.5 8.5: the sum is 264 on the 26th, 277 on the 27th,
    285.5 on the 28th and 291 on the 29th.
    """
    plan = planted("pea", date(2016, 4, 14), lincoln)
    base = plan_dates(
        Plot(plantings=(Planting(id="a", crop="pea"),)),
        FreezeDates.typed((5, 1), (10, 5), source="typed", latitude=LATITUDE),
        year=2016,
        warmth=lincoln.warmth,
    )[0].base
    assert base.lower_c == pytest.approx(40 / 9)
    plan = [replace(plan[0], base=base, heat_sum=Range(270 / 1.8, 290 / 1.8, "degC_days"))]
    row = replay_planned(plan, lincoln, year=2016).iloc[0]
    assert (row["ready_early"], row["ready_late"]) == (pd.Timestamp("2016-04-27"), pd.Timestamp("2016-04-29"))


def test_the_row_cover_figure_is_the_printed_one():
    """Colorado State University Extension, GardenNotes 722: floating row cover, 2 to 4 F; none of a tunnel."""
    assert [(row["cover"], row["low_f"], row["high_f"]) for row in rows("cold_covers")] == [("row_cover", 2, 4)]
    here = FreezeDates.typed((5, 1), (10, 5), source="typed", latitude=LATITUDE)
    for cover, added_f in (("row_cover", 2), ("tunnel", 0), ("", 0)):
        plan = plan_dates(Plot(plantings=(Planting(id="a", crop="kale", cover=cover),)), here, year=2016)[0]
        assert plan.cover_c * 1.8 == pytest.approx(added_f)


def test_limits_of_the_plan_are_the_published_ones(lincoln):
    """36 F for tender crops, 28 F for hardened cabbage and kale, 32 F for broccoli (NWS; Minnesota M1227, table 1)."""
    for crop, young_f, grown_f in (
        ("tomato", 36, 36),
        ("cabbage_main", 28, 28),
        ("kale", 28, 28),
        ("broccoli", 32, 28),
    ):
        plan = planted(crop, date(2016, 5, 1), lincoln)[0]
        assert (plan.young_c * 1.8 + 32, plan.grown_c * 1.8 + 32) == pytest.approx((young_f, grown_f))


def test_a_record_without_rain_has_no_dry_days(lincoln):
    """A file without rain: the dry days are unknown, not nought."""
    row = replayed("cabbage_main", date(2016, 4, 20), lincoln, watered=False)
    assert pd.isna(row["dry_days"])
