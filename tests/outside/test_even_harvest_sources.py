"""Even harvests against published figures; expected values are typed from the sources named."""

from datetime import date
from pathlib import Path

import numpy as np
import pytest

from gardenlib import sowing, tables
from gardenlib.site import degree_days, read_station
from gardenlib.sowing.past_heat import ripe_days
from gardenlib.units import f_to_c

DATA = Path(__file__).parent / "data"
MARCH = (date(2027, 3, 1), date(2027, 3, 8))


@pytest.fixture(scope="module")
def clemson():
    """Read Clemson University, South Carolina, USC00381770, 1930 to 2020, NOAA."""
    return read_station(DATA / "USC00381770.csv", unit="F", latitude=34.68)


# Counted on the calendar. The bean window, 5 May to 1 August, is Iowa State University Extension PM 534, that of fall
# radish, 15 August to 15 September, too; the counts are our own by hand.
@pytest.mark.parametrize(
    ("first", "last", "every_days", "count", "last_sowing"),
    [
        (date(2027, 5, 5), date(2027, 8, 1), 14, 7, date(2027, 7, 28)),
        (date(2027, 5, 5), date(2027, 8, 1), 21, 5, date(2027, 7, 28)),
        (date(2027, 4, 1), date(2027, 6, 1), 10, 7, date(2027, 5, 31)),
        (date(2027, 8, 15), date(2027, 9, 15), 7, 5, date(2027, 9, 12)),
    ],
)
def test_number_of_sowings(first, last, every_days, count, last_sowing):
    """So many sowings fit between two dates, and the last falls on the day counted by hand."""
    days = sowing.sowings_between(first, last, every_days)
    assert (len(days), days[0], days[-1]) == (count, first, last_sowing)


# Peet (North Carolina State University), appendix 2: cabbage, turnip, pea 40 F; snap bean, sweet corn 50 F.
# Oregon State University (2016): sweet corn 50 F with an upper limit of 86 F.
@pytest.mark.parametrize(
    ("crop_id", "base_f", "upper_f"),
    [
        ("cabbage_main", 40, None),
        ("turnip", 40, None),
        ("pea", 40, None),
        ("bean_bush", 50, None),
        ("sweet_corn", 50, 86),
    ],
)
def test_published_bases(crop_id, base_f, upper_f):
    """The bases stand in the table as printed, and are called published."""
    row = tables.table("degree_day_bases").set_index("crop").loc[crop_id]
    assert row["base_f"] == base_f
    assert row["status"] == "published"
    assert row["upper_f"] == upper_f if upper_f else np.isnan(row["upper_f"])


def test_bases_from_memory_say_so():
    """Bases that were not read in a source are unchecked, and sweet pepper, where sources lie 15 F apart, has none."""
    table = tables.table("degree_day_bases").set_index("crop")
    status = tables.table("sources").set_index("key")["status"]
    assert (table["status"] == table["source"].map(lambda keys: status[keys.split("|")[0]])).all()
    assert "pepper" not in table.index


@pytest.mark.parametrize("sow", MARCH)
def test_peas_sown_two_weeks_apart_ripen_one_week_apart(clemson, sow):
    """Bachmann (NCAT): peas sown 14 days apart in early spring ripen about 7 days apart; here within 3 days of it.

    The source gives a round figure without place or year.  Three days is half of the width that the seasons of one
    place show between them; a model that kept the 14 days, or lost them all, would fail.
    """
    found = sowing.remaining_gap("pea", clemson, sow, 14)
    assert found.seasons > 80
    assert found.middle_days == pytest.approx(7, abs=3)
    assert found.days.low <= 7 <= found.days.high


def test_peas_with_the_published_sum(clemson):
    """With Delaware's 1250 degree days F above 40 F (Ernest), the days that remain are about 7 too, without our sum."""
    daily = clemson.daily.loc["1991":"2020", ["tmin_c", "tmax_c"]]
    whole = [year for _, year in daily.groupby(daily.index.year) if len(year.dropna()) >= 365]
    warmth = np.stack([degree_days(y["tmin_c"], y["tmax_c"], f_to_c(40.0))[:365] for y in whole])
    ripe = ripe_days(warmth, 1250 / 1.8)
    assert len(whole) > 10
    gap = np.median(ripe[:, 59 + 14] - ripe[:, 59])  # 1 March is day 59, counted from 0
    assert gap == pytest.approx(7, abs=3)


def test_the_calibrated_sum_of_peas_is_near_the_published_one(clemson):
    """Delaware (Ernest): the fastest peas need 1250 degree days F above 40 F; usual ones need that or a third more."""
    found = sowing.even_harvest("pea", clemson, MARCH[0], 1, 14)
    total_f = next(step.result.value for step in found.steps if step.key == "even.total") * 1.8
    # 55 and 75 days from seed stand for the fastest and the usual (garden lists, from memory).
    assert 1250 <= total_f <= 1250 * 75 / 55


@pytest.mark.parametrize("crop_id", ["pea", "bean_bush", "cabbage_main", "turnip"])
def test_the_calibration_gives_the_published_days_back(clemson, crop_id):
    """Planted in the middle of the published weeks, half of the seasons ripen within 4 days of the published middle.

    The typical year is smoother than any real one, so near the base it counts a little less; 4 days allow for it.
    """
    began = next(s for s in sowing.even_harvest(crop_id, clemson, MARCH[0], 1, 14).steps if s.key == "even.total")
    # Middle of the typical published days: pea 70 to 80, bush bean 50 to 60, turnip 50 to 60 from seed; cabbage 70 to
    # 85 from plants (medians of the sources' lowest and highest, as the table of crops prints them).
    middle = {"pea": 75, "bean_bush": 55, "cabbage_main": 77.5, "turnip": 55}[crop_id]
    sown = began.inputs["start"]
    ripe = sowing.even_harvest(crop_id, clemson, sown, 1, 14).table["harvest"].iloc[0]
    assert (ripe - sown).days == pytest.approx(middle, abs=4)
