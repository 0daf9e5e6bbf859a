"""Station files against what their publishers say of them; the source stands beside each check."""

from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from gardenlib.site import read_station
from gardenlib.units import c_to_f

DATA = Path(__file__).parent / "data"


@pytest.fixture(scope="module")
def lincoln():
    """Read NOAA NCEI's daily summaries for Lincoln 11 SW, Nebraska, 2016 (see data/ORIGINS.md)."""
    return read_station(DATA / "USW00094996_2016.csv")


@pytest.fixture(scope="module")
def clemson():
    """Read NOAA's values for Clemson, South Carolina, 1930 to 2020 (see data/ORIGINS.md)."""
    return read_station(DATA / "USC00381770.csv")


def test_a_genuine_daily_summaries_file(lincoln):
    """Rows, unit and the blank day are those that can be counted in the file itself by eye.

    Source: the file, NOAA NCEI daily summaries, USW00094996, 2016: 366 rows, the row of 17 June blank,
    the first row 36 and 15, the lowest TMIN -13.
    """
    assert len(lincoln.daily) == 366
    assert (lincoln.unit, lincoln.unit_from) == ("F", "guess")
    assert lincoln.name == "LINCOLN 11 SW, NE US"
    assert lincoln.daily.loc["2016-06-17", ["tmin_c", "tmax_c"]].isna().all()
    assert c_to_f(lincoln.daily.loc["2016-01-01", ["tmin_c", "tmax_c"]].to_numpy(float)) == pytest.approx([15, 36])
    assert c_to_f(lincoln.coldest[1]) == pytest.approx(-13)
    assert {reason: n for reason, n in lincoln.dropped.items() if n} == {"missing": 2}


def test_last_and_first_freeze_of_lincoln_2016(lincoln):
    """The rows 2016-04-12 and 2016-10-12 are the last and first at 32 F or below around the summer.

    Source: the file, NOAA NCEI daily summaries, read by eye.
    """
    frozen = lincoln.daily.index[lincoln.daily["tmin_c"] <= 0.06]
    assert frozen[frozen < "2016-08-01"].max() == pd.Timestamp("2016-04-12")
    assert frozen[frozen >= "2016-08-01"].min() == pd.Timestamp("2016-10-12")


def test_the_bad_value_of_clemson_is_left_out(clemson):
    """The low of -72 F on 18 July 1936 goes, alone; the high of that day stays.

    Source: NOAA GHCN-Daily USC00381770, where that day reads -72.04 F beside a high of 91.94 F.
    """
    assert clemson.dropped["odd_for_month"] == 1
    assert np.isnan(clemson.daily.loc["1936-07-18", "tmin_c"])
    assert c_to_f(clemson.daily.loc["1936-07-18", "tmax_c"]) == pytest.approx(92)
    assert "-72 °F on July 18, 1936" in " ".join(map(str, clemson.notes))


def test_clemson_is_read_whole(clemson):
    """91 years are read, with the 17 missing lows and 5 missing highs that the series has.

    Source: an inventory of the series, 1930-01-01 to 2020-12-31: 33,148 rows, 17 lows and 5 highs missing,
    90 days absent; the counts were computed from the file.
    """
    assert len(clemson.daily) == 33148
    assert (clemson.first_year, clemson.last_year) == (1930, 2020)
    assert clemson.dropped["missing"] == 22
    assert "90 days between" in " ".join(map(str, clemson.notes))


@pytest.mark.parametrize(
    ("tenths_c", "temp_f"), [(22, 36), (0, 32), (-22, 28), (-44, 24), (-67, 20), (-89, 16), (-94, 15), (-500, -58)]
)
def test_tenths_come_back_as_the_degree_that_was_read(tmp_path, tenths_c, temp_f):
    """A low in tenths of a degree Celsius is read as the whole Fahrenheit that stores as it.

    Source: NOAA NCEI, GHCN-Daily readme.txt, section III (TMIN in tenths of degrees C); the degrees in Fahrenheit
    are arithmetic by NIST SP 811 (2008), appendix B.8, done by hand.
    """
    path = tmp_path / "long.csv"
    path.write_text(f"USC00999999,20240101,TMIN,{tenths_c},,,7,0700\nUSC00999999,20240101,TMAX,100,,,7,0700\n")
    low_f = c_to_f(read_station(path).daily["tmin_c"].iloc[0])
    assert low_f == pytest.approx(temp_f, abs=1e-9)


def dly_line(fields):
    """Place text at published columns (counted from 1) of a 269-character record."""
    line = [" "] * 269
    for first, text in fields.items():
        line[first - 1 : first - 1 + len(text)] = text
    return "".join(line)


def test_dly_columns_are_the_published_ones(tmp_path):
    """Value and quality flag of the first, the 20th and the 31st day stand in the published columns.

    Source: NOAA NCEI, GHCN-Daily readme.txt, section III: ID 1-11, YEAR 12-15, MONTH 16-17, ELEMENT 18-21, VALUE1
    22-26, QFLAG1 28, VALUE31 262-266, QFLAG31 268, VALUEd from column 22 + 8(d - 1), -9999 = missing, a letter in
    QFLAG = failed a check.
    """
    missing = {22 + 8 * (day - 1): "-9999" for day in range(1, 32)}
    head = {1: "USC00999999", 12: "2016", 16: "01"}
    low = missing | head | {18: "TMIN", 22: "  -94", 174: " -500", 180: "X", 262: " -111"}
    high = missing | head | {18: "TMAX", 22: "   22", 174: "  150", 262: "   17", 268: "I"}
    path = tmp_path / "USC00999999.dly"
    path.write_text(dly_line(low) + "\n" + dly_line(high) + "\n")
    daily = c_to_f(read_station(path).daily)
    assert len(daily) == 31
    assert daily.loc["2016-01-01", ["tmin_c", "tmax_c"]].tolist() == pytest.approx([15, 36])
    assert np.isnan(daily.loc["2016-01-20", "tmin_c"])
    assert daily.loc["2016-01-20", "tmax_c"] == pytest.approx(59)
    assert daily.loc["2016-01-31", "tmin_c"] == pytest.approx(12)
    assert np.isnan(daily.loc["2016-01-31", "tmax_c"])


def test_wide_archive_row_is_read_as_published(tmp_path):
    """A row of the archive's wide form: space-padded tenths, the quality flag in the second part of the attributes.

    Source: NOAA NCEI, GHCN-Daily access form (header and padding), attributes "measurement, quality, source";
    the values are made up: 22 tenths is 36 F and -94 tenths is 15 F.
    """
    path = tmp_path / "USW00094996.csv"
    path.write_text(
        '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES"\n'
        '"USW00094996","2016-01-01","40.6953","-96.8542","418.2","LINCOLN 11 SW, NE US","   22",",,W","  -94",",,W"\n'
        '"USW00094996","2016-01-02","40.6953","-96.8542","418.2","LINCOLN 11 SW, NE US","   39",",,W"," -500",",X,W"\n'
    )
    station = read_station(path)
    assert (station.unit, station.unit_from, station.latitude) == ("tenths-C", "format", 40.6953)
    assert c_to_f(station.daily["tmax_c"].to_numpy()) == pytest.approx([36, 39])
    assert c_to_f(station.daily["tmin_c"].iloc[0]) == pytest.approx(15)
    assert station.dropped["flagged"] == 1
