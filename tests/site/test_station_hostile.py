"""Station files as they should not be: what is read with a sentence, and what is refused with one."""

import json
import zipfile
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from gardenlib import InputProblem
from gardenlib.site import read_station
from gardenlib.site._file import MAX_MB

THREE = "date,tmin_c,tmax_c\n2023-04-01,2.5,12.5\n2023-04-02,3.5,13.5\n2023-04-03,4.5,14.5\n"
LOWS = [2.5, 3.5, 4.5]


def write(tmp_path: Path, data: str | bytes, name: str = "plot.csv") -> Path:
    """Write a file byte by byte."""
    path = tmp_path / name
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return path


def a_year(year=2023, low=40.0, swing=25.0):
    """Make a year of whole-degree lows and highs of an invented place."""
    days = pd.date_range(f"{year}-01-01", f"{year}-12-31")
    lows = np.rint(low - swing * np.cos(2 * np.pi * (days.day_of_year - 20) / 365)).astype(int)
    return [[f"{day:%Y-%m-%d}", int(one), int(one) + 20] for day, one in zip(days, lows, strict=True)]


def as_csv(rows, head="date,tmin_f,tmax_f") -> str:
    """Write rows below a header."""
    return "\n".join([head, *(",".join(map(str, row)) for row in rows)]) + "\n"


def notes(station) -> str:
    """Give all notes as one text."""
    return " ".join(map(str, station.notes))


READ = {
    "BOM": (b"\xef\xbb\xbf" + THREE.encode(), "hidden mark"),
    "Latin-1": (THREE.replace("tmin_c", "tmin (°C)").encode("latin-1"), "Latin-1"),
    "UTF-16": (THREE.encode("utf-16"), "UTF-16"),
    "semicolons": (THREE.replace(",", ";"), "semicolons"),
    "tabs": (THREE.replace(",", "\t"), "tabs"),
    "decimal commas with semicolons": (THREE.replace(",", ";").replace(".", ","), "decimal commas"),
    "decimal commas in quotes": (
        'date,tmin_c,tmax_c\n2023-04-01,"2,5","12,5"\n2023-04-02,"3,5","13,5"\n2023-04-03,"4,5","14,5"\n',
        "decimal commas",
    ),
    "unsorted": ("\n".join(THREE.split("\n")[i] for i in (0, 3, 1, 2)), "not in order"),
    "identical duplicate day": (THREE + "2023-04-02,3.5,13.5\n", "1 row stands twice"),
    "three rows": (THREE, "no dates by risk: they need 20 years"),
    "Windows line ends": (THREE.replace("\n", "\r\n"), "1 year"),
    "blank rows": (THREE.replace("\n", "\n\n"), "1 year"),
    "blank rows first": ("\n" * 300 + THREE, "1 year"),
    "blanks in the last row": (THREE + "   \n\n", "1 year"),
    "line ends of old": (THREE.replace("\n", "\r"), "1 year"),
    "no line end at the end": (THREE.rstrip("\n"), "1 year"),
    "spaces": (THREE.replace(",", ", "), "1 year"),
    "minus sign from a text program": (THREE + "2023-04-04,−1.5,9.5\n", "1 year"),
}


@pytest.mark.parametrize("case", READ)
def test_read_with_a_sentence(tmp_path, case):
    """A record that is only oddly written is read, and a sentence says what was odd."""
    data, says = READ[case]
    station = read_station(write(tmp_path, data))
    assert station.daily["tmin_c"].round(6).tolist()[:3] == LOWS
    assert station.daily.index.is_monotonic_increasing
    assert station.daily.index.is_unique
    assert says in notes(station)


@pytest.mark.parametrize(
    ("reason", "at", "values", "gone"),
    [
        ("beyond_world", 200, [-200, 80], [True, False]),
        ("beyond_world", 200, [50, 180], [False, True]),
        ("odd_for_month", 200, [-72, 80], [True, False]),
        ("odd_for_month", 10, [20, 120], [False, True]),
        ("low_above_high", 200, [85, 80], [True, True]),
        ("missing", 200, [-99, 80], [True, False]),
        ("missing", 200, ["", 80], [True, False]),
        ("missing", 200, ["M", 80], [True, False]),
        ("missing", 200, [-9999, 80], [True, False]),
    ],
)
def test_single_impossible_values_are_dropped_and_counted(tmp_path, reason, at, values, gone):
    """One impossible or missing value in a good record is left out, counted by its reason and told."""
    rows = a_year()
    rows[at][1:] = values
    station = read_station(write(tmp_path, as_csv(rows)))
    assert {name: n for name, n in station.dropped.items() if n} == {reason: 1}
    temps = station.daily[["tmin_c", "tmax_c"]]
    assert temps.iloc[at].isna().tolist() == gone
    assert temps.isna().sum().tolist() == gone
    assert notes(station).startswith("1 ")


def test_an_odd_value_is_told_with_its_day(tmp_path):
    """The sentence for a value that does not fit its month names value, day and year."""
    rows = a_year()
    rows[198][1] = -72
    told = notes(read_station(write(tmp_path, as_csv(rows))))
    assert "-72 °F on July 18, 2023" in told


def test_impossible_rain_is_dropped(tmp_path):
    """Rain below zero or above any day on earth is left out and counted."""
    text = "date,tmin_c,tmax_c,rain_mm\n2023-04-01,2,12,-5\n2023-04-02,3,13,2500\n2023-04-03,4,14,8\n"
    station = read_station(write(tmp_path, text))
    assert station.dropped["rain"] == 2
    assert station.daily["rain_mm"].notna().tolist() == [False, False, True]


def test_a_cold_snap_survives(tmp_path):
    """A week 55 degrees F below the middle of a continental January stays in the record."""
    rows = [[day, low - 20, high - 20] for year in range(2001, 2011) for day, low, high in a_year(year)]
    rng = np.random.default_rng(7)
    for row in rows:
        swing = int(rng.normal(0, 12))
        row[1], row[2] = row[1] + swing, row[2] + swing
    for row in rows[10:17]:
        row[1], row[2] = -60, -35
    station = read_station(write(tmp_path, as_csv(rows)))
    assert station.dropped["odd_for_month"] == 0
    assert station.daily["tmin_c"].iloc[10] == pytest.approx((-60 - 32) / 1.8)


def test_a_gap_is_counted(tmp_path):
    """Days that are not in the file are counted and not filled."""
    station = read_station(write(tmp_path, THREE + "2023-04-06,5.5,15.5\n"))
    assert len(station.daily) == 4
    assert "2 days between" in notes(station)


def test_day_and_month_are_told_apart_by_days_above_12(tmp_path):
    """One day above 12 settles the order for all rows, whichever stands first."""
    first = "date,tmin_c,tmax_c\n03/04/2023,2.5,12.5\n25/04/2023,3.5,13.5\n"
    second = "date,tmin_c,tmax_c\n4.3.2023,2.5,12.5\n4.25.2023,3.5,13.5\n"
    assert read_station(write(tmp_path, first)).daily.index[0] == pd.Timestamp("2023-04-03")
    assert read_station(write(tmp_path, second)).daily.index[0] == pd.Timestamp("2023-04-03")


@pytest.mark.parametrize(("order", "month"), [("DMY", 4), ("MDY", 3)])
def test_date_order_from_the_user(tmp_path, order, month):
    """The user's order settles days that cannot tell by themselves."""
    path = write(tmp_path, "date,tmin_c,tmax_c\n03/04/2023,2.5,12.5\n")
    assert read_station(path, date_order=order).daily.index[0].month == month


@pytest.mark.parametrize("day", ["2023-04-05", "20230405", "2023/4/5", "2023-04-05T00:00:00", "2023-04-05 00:00"])
def test_year_first_needs_no_order(tmp_path, day):
    """Days that begin with the year are read in each usual writing."""
    path = write(tmp_path, f"date,tmin_c,tmax_c\n{day},2.5,12.5\n")
    assert read_station(path).daily.index[0] == pd.Timestamp("2023-04-05")


def dly(*, cut=0, month="202301", value="   22"):
    """Write two fixed-width records, the second cut by some letters."""
    lines = [f"USC00999999{month}{element}" + f"{value}  7" * 31 for element in ("TMAX", "TMIN")]
    return lines[0] + "\n" + lines[1][: 269 - cut] + "\n"


def mixed_years():
    """Make five years of which the last two are in Celsius."""
    rows = [row for year in range(2001, 2006) for row in a_year(year)]
    return [[d, a, b] if d < "2004" else [d, round((a - 32) / 1.8), round((b - 32) / 1.8)] for d, a, b in rows]


def mixed_months():
    """Make one year that turns to Celsius on 1 June."""
    return [[d, a, b] if d < "2023-06" else [d, round((a - 32) / 1.8), round((b - 32) / 1.8)] for d, a, b in a_year()]


REFUSED = {
    "wrong columns": ("day,low,high\n2023-04-01,1,2\n", ["tmin", "day, low, high", "first row"]),
    "no header": ("2023-04-01,1,2\n2023-04-02,1,2\n", ["date, tmin, tmax"]),
    "mixed units in the header": ("date,tmin_f,tmax_c\n2023-04-01,36,12\n", ["tmin_f", "tmax_c", "one unit"]),
    "unknown unit in the header": ("date,tmin_k,tmax_k\n2023-04-01,280,290\n", ["tmin_k", "_f or _c"]),
    "mixed units from day to day": (
        "date,tmin,tmax\n2023-07-01,60,85\n2023-07-02,15,29\n2023-07-03,61,84\n2023-07-04,16,30\n",
        ["row 3", "2023-07-02", "two units"],
    ),
    "mixed units from year to year": (as_csv(mixed_years()), ["two units", "2004-"]),
    "mixed units within a year": (as_csv(mixed_months()), ["two units", "2023-06-01"]),
    "a date that cannot exist": ("date,tmin_c,tmax_c\n2023-02-28,1,9\n2023-02-30,1,9\n", ["row 3", "2023-02-30"]),
    "month 13 in both places": ("date,tmin_c,tmax_c\n14/13/2023,1,9\n", ["row 2", "14/13/2023"]),
    "DD/MM not decidable": ("date,tmin_c,tmax_c\n03/04/2023,1,9\n", ["row 2", "03/04/2023", "--date-order DMY", "MDY"]),
    "two date orders": (
        "date,tmin_c,tmax_c\n25/04/2023,1,9\n04/26/2023,1,9\n",
        ["row 2", "25/04/2023", "row 3", "04/26/2023"],
    ),
    "two-digit year": ("date,tmin_c,tmax_c\n25/04/23,1,9\n", ["row 2", "25/04/23", "four digits"]),
    "year 20203": ("date,tmin_c,tmax_c\n0203-04-01,1,9\n", ["row 2", "0203-04-01"]),
    "a date in words": ("date,tmin_c,tmax_c\nlast Monday,1,9\n", ["row 2", "last Monday", "2023-04-25"]),
    "no date": (THREE + ",4,5\n", ["row 5", "not a date"]),
    "words for numbers": ("date,tmin_c,tmax_c\n2023-04-01,cold,12\n", ["row 2", "tmin_c", "“cold”", "number"]),
    "a unit in the cell": ("date,tmin,tmax\n2023-04-01,36 F,60 F\n", ["row 2", "36 F"]),
    "infinity": ("date,tmin_c,tmax_c\n2023-04-01,-inf,12\n", ["row 2", "-inf"]),
    "yes for a number": ("date,tmin_c,tmax_c\n2023-04-01,True,12\n", ["row 2", "True"]),
    "empty": ("", ["is empty"]),
    "only blanks": (" \n\n", ["is empty"]),
    "header only": ("date,tmin_c,tmax_c\n", ["no days"]),
    "binary": (bytes(range(256)) * 20, ["not a text file"]),
    "a picture": (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", ["not a text file"]),
    "a PDF": (b"%PDF-1.7 1 0 obj", ["not a text file"]),
    "binary behind a mark for wide letters": (b"\xff\xfe\x00\xd8\x00\xd8\x01", ["not a text file"]),
    "gzip": (b"\x1f\x8b\x08\x00rest", ["Unpack"]),
    "HTML": ("\n <!DOCTYPE html><html><body>Sign in</body></html>", ["web page", "CSV"]),
    "JSON": (json.dumps([{"date": "2023-04-01", "tmin": 1}]), ["JSON", "CSV"]),
    "duplicate days that differ": (THREE + "2023-04-02,3.0,13.5\n", ["2023-04-02", "row 3", "row 5"]),
    "truncated .dly line": (dly(cut=20), ["row 2", "249", "269"]),
    ".dly line that is none": (dly() + "x" * 269, ["row 3", "xxx"]),
    ".dly value that is none": (dly().replace("   22  7   22", "   22  7   2x", 1), ["row 1", "VALUE", "2x"]),
    ".dly day that does not exist": (dly(month="202302"), ["row 1", "2023-02-29"]),
    ".dly month 13": (dly(month="202313"), ["row 1", "2023-13"]),
    "nothing left": ("date,tmin_c,tmax_c\n2023-04-01,-400,\n2023-04-02,,\n", ["left"]),
    "no highs left": ("date,tmin_c,tmax_c\n2023-04-01,3,\n", ["left"]),
    "several stations": (
        "STATION,DATE,TMIN,TMAX\nUSC00000001,2023-04-01,1,2\nUSC00000002,2023-04-01,1,2\n",
        ["2 stations", "USC00000001, USC00000002"],
    ),
    "several stations, long form": (
        "USC00000001,20230401,TMIN,1,,,7,\nUSC00000002,20230401,TMIN,1,,,7,\n",
        ["2 stations", "USC00000001"],
    ),
    "several stations, .dly": (dly().replace("USC00999999", "USC00000001", 1), ["2 stations", "USC00000001"]),
    "long form without temperature": ("USC00000001,20230401,SNOW,1,,,7,\n", ["TMIN"]),
    "long form, two values for one day": (
        "USC00000001,20230401,TMIN,1,,,7,\nUSC00000001,20230401,TMIN,2,,,7,\n",
        ["2023-04-01", "row 1", "row 2"],
    ),
    "long form, cut row": (
        "USC00000001,20230401,TMIN,1,,,7,\nUSC00000001,20230401,TMAX,2\n",
        ["row 2", "4 values", "8 columns"],
    ),
    "unquoted decimal commas": ("date,tmin_c,tmax_c\n2023-04-01,2,5,12,5\n", ["row 2", "5 values", "semicolons"]),
    "one long row": (THREE + "2023-04-04,5.5,15.5,7\n", ["row 5", "4 values", "3 columns"]),
    "cut in the middle of a row": (THREE + "2023-04-04,5", ["row 5", "2 values", "cut"]),
    "cut inside quotes": ('date,tmin_c,tmax_c\n2023-04-01,"2', ["quotation mark"]),
    "one endless row": ("date,tmin,tmax" + "x" * 200_000, ["tmax", "first row"]),
    "an endless cell": ('date,tmin,tmax\n2023-04-01,"' + "1" * 200_000, ["quotation mark"]),
    "two places": ("date,latitude,latitude,tmin,tmax\n2023-04-01,1,2,3,4\n", ["two columns", "latitude"]),
    "same column twice": ("date,tmin_c,tmin_c,tmax_c\n2023-04-01,1,2,3\n", ["two columns", "tmin"]),
    "low and high swapped": (as_csv([[d, b, a] for d, a, b in a_year()]), ["swapped", "365"]),
    "normals in place of days": (
        "STATION,DATE,ANN-TMIN-PRBLST-T32FP50\nUSC00000001,01-01,05/09\n",
        ["normals", "daily"],
    ),
    "latitude that is none": ("DATE,LATITUDE,TMIN,TMAX\n2023-04-01,412.5,1,2\n", ["row 2", "latitude", "412.5"]),
}


@pytest.mark.parametrize("case", REFUSED)
def test_refused_in_one_sentence(tmp_path, case):
    """A file that is no daily record of one station is refused, naming file, row, value and mend."""
    data, says = REFUSED[case]
    path = write(tmp_path, data)
    with pytest.raises(InputProblem) as refusal:
        read_station(path)
    told = str(refusal.value)
    assert "plot.csv" in told
    assert "\n" not in told
    for words in says:
        assert words in told
    assert path.read_bytes() == (data if isinstance(data, bytes) else data.encode())


@pytest.mark.parametrize("name", ["plot.xlsx", "plot.csv"])
def test_a_spreadsheet_is_refused_with_its_mend(tmp_path, name):
    """A spreadsheet's own file is named as one, with the way out, though somebody gave it another ending."""
    path = tmp_path / name
    with zipfile.ZipFile(path, "w") as book:
        book.writestr("xl/workbook.xml", "<workbook/>")
    with pytest.raises(InputProblem, match="save it as CSV"):
        read_station(path)


def test_folder_and_missing_file(tmp_path):
    """A folder and a name without a file are told apart."""
    with pytest.raises(InputProblem, match="is a folder"):
        read_station(tmp_path)
    with pytest.raises(InputProblem, match=r"no file .*gone\.csv"):
        read_station(tmp_path / "gone.csv")


def test_unreadable_file(tmp_path, monkeypatch):
    """A file that the system will not open is told with the system's reason."""
    path = write(tmp_path, THREE)

    def refuse(self):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", refuse)
    with pytest.raises(InputProblem, match=r"plot\.csv cannot be opened \(Permission denied\)"):
        read_station(path)


def test_a_file_above_the_cap_is_refused_unread(tmp_path):
    """A file larger than any station's record is refused before it is read, with the limit."""
    path = tmp_path / "plot.csv"
    with path.open("wb") as file:
        file.truncate(MAX_MB * 1_000_000 + 1_000_000)
    with pytest.raises(InputProblem, match=r"65 MB.*64 MB"):
        read_station(path)


@pytest.mark.parametrize("unit", ["C", "tenths-C"])
def test_a_unit_that_cannot_be_is_refused(tmp_path, unit):
    """A unit that contradicts the header is refused, and so is one that makes most values impossible."""
    with pytest.raises(InputProblem, match="says F"):
        read_station(write(tmp_path, as_csv(a_year())), unit=unit)
    with pytest.raises(InputProblem, match="too hot or too cold"):
        read_station(write(tmp_path, as_csv(a_year(low=60), "date,tmin,tmax")), unit="C")
