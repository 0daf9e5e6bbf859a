"""The forms in which a station's daily record is given away; all files here are made up."""

import datetime as dt
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from gardenlib import InputProblem
from gardenlib.site import read_station
from gardenlib.units import f_to_c

ARCHIVE_HEAD = (
    '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES"'
)


def invented(years=1, start=2019, low_f=40.0, swing_f=25.0):
    """Make whole-degree lows and highs of an invented place, by day."""
    days = pd.date_range(f"{start}-01-01", f"{start + years - 1}-12-31", name="date")
    low = np.rint(low_f - swing_f * np.cos(2 * np.pi * (days.day_of_year - 20) / 365) + np.arange(len(days)) % 7)
    return pd.DataFrame({"low_f": low.astype(int), "high_f": low.astype(int) + 20}, index=days)


def write(tmp_path: Path, text: str, name: str = "plot.csv") -> Path:
    """Write a file as UTF-8 with the line ends as they are."""
    path = tmp_path / name
    path.write_bytes(text.encode())
    return path


def plain(record: pd.DataFrame, head: str = "date,tmin,tmax") -> str:
    """Write a record in the plain form."""
    rows = [f"{day:%Y-%m-%d},{low},{high}" for day, low, high in record.itertuples()]
    return "\n".join([head, *rows]) + "\n"


def tenths(temp_f):
    """Give whole Fahrenheit as the archive stores it, tenths of a degree Celsius."""
    return np.rint((np.asarray(temp_f) - 32) / 1.8 * 10).astype(int)


def notes(station) -> str:
    """Give all notes as one text."""
    return " ".join(map(str, station.notes))


def test_plain_form_with_the_unit_in_its_header(tmp_path):
    """A header may carry the unit, in any case and order, and values come out in degrees Celsius."""
    path = write(tmp_path, "TMAX (F),Date,Tmin (F)\n50,2020-01-01,32\n41,2020-01-02,14\n")
    station = read_station(path)
    assert (station.unit, station.unit_from) == ("F", "header")
    assert station.daily["tmin_c"].round(6).tolist() == [0.0, -10.0]
    assert station.daily["tmax_c"].round(6).tolist() == [10.0, 5.0]
    assert station.daily.index.name == "date"
    assert list(station.daily.columns) == ["tmin_c", "tmax_c", "rain_mm"]


@pytest.mark.parametrize(
    ("head", "unit"),
    [
        ("date,tmin_f,tmax_f", "F"),
        ("date,TMIN_C,TMAX_C", "C"),
        ("date,tmin (°C),tmax (°C)", "C"),
        ("date,tmin [degF],tmax [degF]", "F"),
        ("date,tmin_tenths_c,tmax_tenths_c", "tenths-C"),
    ],
)
def test_units_in_headers(tmp_path, head, unit):
    """Each usual way of writing a unit in a header is understood."""
    station = read_station(write(tmp_path, f"{head}\n2020-01-01,10,20\n"))
    assert (station.unit, station.unit_from) == (unit, "header")


def test_other_columns_are_left_alone(tmp_path):
    """Columns that are not asked for change nothing, also where their names begin alike."""
    path = write(tmp_path, "tmin_flag,date,tmin_c,tavg,tmax_c,rain_days\nA,2020-01-01,1,x,9,many\n")
    assert read_station(path).daily.iloc[0, :2].tolist() == [1.0, 9.0]


@pytest.mark.parametrize(("head", "mm"), [("rain_mm", 10.0), ("rain_in", 254.0), ("PRCP (in)", 254.0), ("rain", 254.0)])
def test_rain_follows_its_own_unit_or_that_of_temperature(tmp_path, head, mm):
    """Rain is read in its header's unit, else in inches beside Fahrenheit."""
    station = read_station(write(tmp_path, f"date,tmin_f,tmax_f,{head}\n2020-06-01,50,70,10\n2020-06-02,50,70,T\n"))
    assert station.daily["rain_mm"].round(6).tolist() == [mm, 0.0]
    assert ("taken to be in inches" in notes(station)) == (head == "rain")


def test_daily_summaries_in_standard_units(tmp_path):
    """Daily summaries with place, attributes and other columns give the same record as the plain form."""
    record = invented()
    rows = [
        f'"USC00999999","INVENTED TOWN, XX US","41.5","-96.25","301.4","{day:%Y-%m-%d}","0.10",",,7,0700",'
        f'"{high}",",,7","{low}",",,7","55"'
        for day, low, high in record.itertuples()
    ]
    head = (
        '"STATION","NAME","LATITUDE","LONGITUDE","ELEVATION","DATE","PRCP","PRCP_ATTRIBUTES",'
        '"TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES","TAVG"'
    )
    station = read_station(write(tmp_path, "\n".join([head, *rows])))
    assert (station.unit, station.unit_from) == ("F", "guess")
    assert (station.name, station.station_id) == ("INVENTED TOWN, XX US", "USC00999999")
    assert (station.latitude, station.longitude, station.elevation_m) == (41.5, -96.25, 301.4)
    assert np.allclose(station.daily["tmin_c"], f_to_c(record["low_f"].to_numpy(float)))
    assert np.allclose(station.daily["rain_mm"], 2.54)


def test_daily_summaries_in_metric_units(tmp_path):
    """Degrees Celsius with one decimal are guessed as such and set back to whole Fahrenheit, which is said."""
    record = invented()
    metric = record.apply(lambda temp: tenths(temp) / 10)
    station = read_station(write(tmp_path, plain(metric, '"DATE","TMIN","TMAX"')))
    assert (station.unit, station.unit_from) == ("C", "guess")
    assert np.allclose(station.daily["tmin_c"], f_to_c(record["low_f"].to_numpy(float)))
    assert "whole °F" in notes(station)


def test_a_record_read_in_celsius_is_not_moved(tmp_path):
    """Tenths of a degree Celsius that no whole Fahrenheit explains stay as they are."""
    text = "date,tmin_c,tmax_c\n" + "".join(f"2020-03-{day:02},{day / 10},{10 + day / 10}\n" for day in range(1, 31))
    station = read_station(write(tmp_path, text))
    assert station.daily["tmin_c"].round(6).tolist() == [day / 10 for day in range(1, 31)]
    assert "whole °F" not in notes(station)


def archive(record: pd.DataFrame) -> str:
    """Write a record in the archive's wide form."""
    place = '"-33.5","150.1","20.0","INVENTED, AS"'
    temps = zip(record.index, tenths(record["low_f"]), tenths(record["high_f"]), strict=True)
    rows = [f'"USC00999999","{day:%Y-%m-%d}",{place},"{high:5d}",",,a","{low:5d}",",,a"' for day, low, high in temps]
    return "\n".join([ARCHIVE_HEAD, *rows]) + "\n"


@pytest.mark.parametrize("low_f", [40.0, 10.0])
def test_archive_wide_form(tmp_path, low_f):
    """The archive's wide form is tenths of a degree Celsius by its form, even where winters alone would not tell."""
    record = invented(low_f=low_f)
    station = read_station(write(tmp_path, archive(record)))
    assert (station.unit, station.unit_from) == ("tenths-C", "format")
    assert station.latitude == -33.5
    assert np.allclose(station.daily["tmax_c"], f_to_c(record["high_f"].to_numpy(float)))


def test_archive_layout_with_fahrenheit_is_seen_by_its_values(tmp_path):
    """The same columns ordered in Fahrenheit are guessed as Fahrenheit from a full year's highs."""
    record = invented()
    rows = [
        f'"USC00999999","{day:%Y-%m-%d}","41.5","-96.25","301.4","INVENTED","{high}",",,7","{low}",",,7"'
        for day, low, high in record.itertuples()
    ]
    station = read_station(write(tmp_path, "\n".join([ARCHIVE_HEAD, *rows])))
    assert (station.unit, station.unit_from) == ("F", "guess")


def test_by_station_long_form(tmp_path):
    """One row a day and element, without a header, gives one row a day; other elements are left alone."""
    text = (
        "USC00999999,20200101,TMAX,22,,,7,0700\n"
        "USC00999999,20200101,TMIN,-94,,,7,0700\n"
        "USC00999999,20200101,PRCP,254,,,7,0700\n"
        "USC00999999,20200101,SNOW,9999,,,7,0700\n"
        "USC00999999,20200102,TMAX,39,,,7,0700\n"
        "USC00999999,20200103,TMIN,-500,,X,7,0700\n"
        "USC00999999,20200103,TMAX,50,,,7,0700\n"
    )
    station = read_station(write(tmp_path, text))
    assert (station.unit, station.unit_from) == ("tenths-C", "format")
    assert station.daily["tmin_c"].round(4).tolist()[0] == pytest.approx(f_to_c(15), abs=1e-4)
    assert station.daily["tmin_c"].isna().tolist() == [False, True, True]
    assert station.daily["rain_mm"].iloc[0] == pytest.approx(25.4)
    assert (station.dropped["flagged"], station.dropped["missing"]) == (1, 1)


def dly_record(month, element, values):
    """Write one record of the fixed-width form: 31 groups of value, measurement, quality and source flag."""
    padded = [*values, *[-9999] * (31 - len(values))]
    return f"USC00999999{month}{element}" + "".join(f"{value:5d}  7" for value in padded)


def test_dly_form(tmp_path):
    """Fixed-width records give a day for each day of their month, and no day that the month does not have."""
    text = "\n".join(
        [
            dly_record("202402", "TMAX", [100] * 29),
            dly_record("202402", "TMIN", [-22] * 29),
            dly_record("202402", "PRCP", [13] * 29),
            dly_record("202402", "SNOW", [0] * 29),
        ]
    )
    station = read_station(write(tmp_path, text, "USC00999999.dly"))
    assert len(station.daily) == 29
    assert station.daily.index[-1] == pd.Timestamp("2024-02-29")
    assert np.allclose(station.daily["tmin_c"], f_to_c(28.0))
    assert np.allclose(station.daily["rain_mm"], 1.3)


def test_all_forms_give_one_record(tmp_path):
    """One year written in four forms is read as the same year."""
    record = invented(start=2020)
    low, high = tenths(record["low_f"]), tenths(record["high_f"])
    days = record.index
    long = "\n".join(
        f"USC00999999,{day:%Y%m%d},{element},{value},,,7,"
        for day, one, two in zip(days, low, high, strict=True)
        for element, value in (("TMAX", two), ("TMIN", one))
    )
    dly = "\n".join(
        dly_record(f"{month}".replace("-", ""), element, values[days.to_period("M") == month].tolist())
        for month in days.to_period("M").unique()
        for element, values in (("TMAX", high), ("TMIN", low))
    )
    texts = [plain(record, "date,tmin_f,tmax_f"), archive(record), long, dly]
    first, *others = (
        read_station(write(tmp_path, text, f"form{n}.txt")).daily[["tmin_c", "tmax_c"]] for n, text in enumerate(texts)
    )
    assert len(first) == 366
    for other in others:
        pd.testing.assert_frame_equal(first, other, check_freq=False)


def test_flagged_values_are_dropped_and_counted(tmp_path):
    """Values whose quality flag is not blank are missing afterwards, with a count in words."""
    station = read_station(write(tmp_path, archive(invented()).replace(",,a", ",I,a", 3)))
    assert station.dropped["flagged"] == 3
    assert "3 lows and highs were flagged" in notes(station)


def test_the_user_can_say_the_unit_and_the_latitude(tmp_path):
    """What the user says of unit and place stands where the file is silent, the latitude also where it is not."""
    station = read_station(write(tmp_path, "date,tmin,tmax\n2020-01-01,10,20\n"), unit="C", latitude=-12.5)
    assert (station.unit, station.unit_from, station.latitude) == ("C", "user", -12.5)
    assert read_station(write(tmp_path, archive(invented())), latitude=10).latitude == 10


def test_coldest_and_warmest_day(tmp_path):
    """The coldest low and the warmest high are given with their days, to check the unit by eye."""
    station = read_station(write(tmp_path, "date,tmin_c,tmax_c\n2020-01-01,-3,9\n2020-01-02,-8,4\n2020-01-03,1,12\n"))
    assert station.coldest == (dt.date(2020, 1, 2), -8.0)
    assert station.warmest == (dt.date(2020, 1, 3), 12.0)
    assert (station.first_year, station.last_year) == (2020, 2020)


@pytest.mark.parametrize("years", [1, 150])
def test_one_year_and_150_years(tmp_path, years):
    """A record of one year and one of 150 years are both read whole."""
    record = invented(years=years, start=1870)
    station = read_station(write(tmp_path, plain(record, "date,tmin_f,tmax_f")))
    assert len(station.daily) == len(record)
    assert (station.first_year, station.last_year) == (1870, 1869 + years)


@pytest.mark.parametrize(
    ("options", "says"),
    [
        ({"unit": "K"}, "F, C, tenths-C"),
        ({"date_order": "YMD"}, "DMY, MDY"),
        ({"latitude": 91.0}, "-90"),
        ({"latitude": float("nan")}, "-90"),
    ],
)
def test_options_outside_their_range_are_refused(tmp_path, options, says):
    """A wrong option is named with what it can be."""
    path = write(tmp_path, "date,tmin,tmax\n2020-01-01,10,20\n")
    with pytest.raises(InputProblem, match=says):
        read_station(path, **options)
