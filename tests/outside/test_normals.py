"""NCEI's by-station normals files, read in both layouts."""

from datetime import date
from pathlib import Path

import pytest

from gardenlib import InputProblem
from gardenlib.site import FreezeDates
from gardenlib.site.normals import read_normals

DATA = Path(__file__).parent / "data"
OLDER = DATA / "ncei_normals_1981-2010_USW00094765_freeze_columns.csv"
NEWER = DATA / "ncei_normals_1991-2020_USW00094765_freeze_columns.csv"
TENTHS = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9]


# NCEI by-station normals of Lebanon NH, USW00094765, P10 to P90 of the last freeze at 32 and 28 F.
@pytest.mark.parametrize(
    ("file", "half", "threshold_f", "published"),
    [
        (NEWER, "spring", 32, "05/24 05/20 05/16 05/12 05/09 05/06 05/04 05/01 04/27"),
        (NEWER, "fall", 32, "09/23 09/28 10/01 10/03 10/06 10/08 10/11 10/14 10/19"),
        (NEWER, "spring", 28, "05/11 05/07 05/03 04/30 04/29 04/26 04/24 04/21 04/17"),
        (NEWER, "fall", 24, "10/13 10/18 10/21 10/25 10/28 10/31 11/03 11/05 11/11"),
        (NEWER, "spring", 16, "04/08 04/04 04/02 03/31 03/29 03/26 03/22 03/18 03/14"),
        (OLDER, "spring", 32, "05/24 05/19 05/15 05/12 05/09 05/06 05/03 04/30 04/26"),
        (OLDER, "fall", 32, "09/25 09/29 10/01 10/03 10/05 10/07 10/09 10/12 10/15"),
        (OLDER, "spring", 36, "06/04 05/31 05/28 05/25 05/21 05/18 05/15 05/12 05/07"),
        (OLDER, "fall", 16, "11/08 11/13 11/17 11/20 11/23 11/26 11/29 12/02 12/07"),
    ],
)
def test_every_published_date_comes_back(file, half, threshold_f, published):
    """The nine dates of a row are read as printed, in the layout of 1981-2010 and of 1991-2020."""
    dates = FreezeDates.from_normals(file)
    got = [dates.date(half, threshold_f, risk, year=2027) for risk in TENTHS]
    assert " ".join(f"{day:%m/%d}" for day in got) == published


def test_lengths_and_station_are_read():
    """Lebanon NH 1991-2020: lengths 167, 148, 128 days at 10, 50, 90 %, 43.6264 N, 182.3 m (NCEI by-station file)."""
    normals = read_normals(NEWER)
    assert [normals.length_days[32, share] for share in (0.1, 0.5, 0.9)] == [167, 148, 128]
    assert (normals.latitude, normals.elevation_m, normals.period) == (43.6264, 182.3, "1991-2020")


def written(tmp_path, cells, *, latitude="41.0669", name="made.csv"):
    """Write a by-station file in the newer layout: element, value, flag of measurement."""
    header, row = ["STATION", "LATITUDE", "NAME"], ["USW00094745", latitude, '"WESTCHESTER CO AP, NY US"']
    for element, (value, flag) in cells.items():
        header += [element, f"meas_flag_{element}", f"comp_flag_{element}", f"years_{element}"]
        row += [f"   {value}", flag or " ", "S", "15"]
    path = tmp_path / name
    path.write_text(",".join(header) + "\n" + ",".join(row) + "\n", "utf-8")
    return path


def nine(element, values, flag=""):
    """Name the nine percentages of an element."""
    return {f"ANN-TMIN-PRB{element}FP{p}0": (value, flag) for p, value in enumerate(values, start=1)}


# NCEI by-station normals 2006-2020 of Westchester NY, USW00094745, first 16 F of fall, P10 to P90.
WESTCHESTER = ["12/02", "12/09", "12/15", "12/20", "12/24", "12/29", "01/01", "01/07", "01/13"]


def test_first_freeze_after_new_year(tmp_path):
    """Westchester NY 2006-2020: the first 16 F at 70 % is 1 January, of the next year; spaces before dates are cut."""
    dates = FreezeDates.from_normals(written(tmp_path, nine("FST-T16", WESTCHESTER)))
    assert dates.date("fall", 16, 0.1, year=2026) == date(2026, 12, 2)
    assert dates.date("fall", 16, 0.6, year=2026) == date(2026, 12, 29)
    assert [dates.date("fall", 16, risk, year=2026) for risk in (0.7, 0.8, 0.9)] == [
        date(2027, 1, 1),
        date(2027, 1, 7),
        date(2027, 1, 13),
    ]


@pytest.mark.parametrize(
    ("element", "values"),
    [("LST-T32", ["04/01", "04/02"] * 4 + ["04/03"]), ("FST-T16", WESTCHESTER[::-1]), ("GSL-T32", range(100, 190, 10))],
)
def test_wrong_direction_is_refused(tmp_path, element, values):
    """From 10 to 90 % the last freeze gets no later, the first no earlier, the season no longer (NCEI readme)."""
    with pytest.raises(InputProblem, match=f"ANN-TMIN-PRB{element}F run the wrong way"):
        read_normals(written(tmp_path, nine(element, values)))


# Special values: readme-supp.txt of the 1981-2010 normals; flags: readme of the by-station normals 1991-2020.
@pytest.mark.parametrize(
    ("value", "flag", "share", "state"),
    [
        ("-6666", "", "2.0", "never"),
        ("-6666", "", None, "never"),
        ("-9999", "Y", "2.0", "never"),
        ("-9999", "Y", "80.0", "unknown"),
        ("-9999", "Y", None, "unknown"),
        ("-4444", "", "100.0", "every_month"),
        ("-9999", "V", "100.0", "every_month"),
        ("-9999", "M", None, "unknown"),
        ("-9999", "", None, "unknown"),
        ("-8888", "", None, "unknown"),
        ("-7777", "", None, "unknown"),
        ("-5555", "", None, "unknown"),
        ("-9999", "Z", None, "unknown"),
    ],
)
def test_special_values(tmp_path, value, flag, share, state):
    """Each special value or flag says why there is no date; "too few" means never only where few years freeze."""
    cells = nine("LST-T32", [value] * 9, flag)
    if share:
        cells["ANN-TMIN-PRBOCC-LSTH032"] = (share, "")
    dates = FreezeDates.from_normals(written(tmp_path, cells))
    assert dates.state("spring", 32) == state


def test_miami_never_freezes(tmp_path):
    """Miami 1981-2010 holds -6666 (too warm): no last freeze at 1 year in 10 or oftener, unknown at less."""
    dates = FreezeDates.from_normals(written(tmp_path, nine("LST-T32", ["-6666"] * 9), latitude="25.7906"))
    assert dates.date("spring", 32, 0.5, year=2027) is None
    assert not dates.knows("spring", 32, 0.05)


def test_dates_among_freezing_years_become_shares_of_all_years(tmp_path):
    """With a freeze in 80 % of years, 1 year in 10 is NCEI's 12.5 % date among freezing years; 9 in 10 has none."""
    published = ["03/01", "02/21", "02/15", "02/10", "02/05", "01/31", "01/26", "01/20", "01/10"]
    cells = nine("LST-T32", published) | {"ANN-TMIN-PRBOCC-LSTH032": ("80.0", "")}
    dates = FreezeDates.from_normals(written(tmp_path, cells))
    assert dates.date("spring", 32, 0.4, year=2027) == date(2027, 2, 5)  # 0.4 of all = 0.5 among freezing
    assert dates.date("spring", 32, 0.1, year=2027) == date(
        2027, 2, 27
    )  # a quarter of the way from 1 March to 21 February
    assert dates.date("spring", 32, 0.9, year=2027) is None
    assert not dates.knows("spring", 32, 0.78)  # 97.5 % among freezing years: beyond the published


def test_occurrence_in_tenths_of_a_percent(tmp_path):
    """The 1981-2010 layout keeps the share in tenths of a percent: 1000 is every year (NCEI readme)."""
    assert read_normals(OLDER).halves["spring", 32].share == 1.0
    assert read_normals(NEWER).halves["spring", 32].share == 1.0


@pytest.mark.parametrize(
    "text", ["", "a,b\n1,2\n", "<html></html>", '{"a": 1}', "date,tmin,tmax\n2020-01-01,1,2\n", "\0\0"]
)
def test_other_files_are_refused(tmp_path, text):
    """What is no normals file is refused in one sentence that names the file."""
    path = tmp_path / "odd.csv"
    path.write_text(text, "utf-8")
    with pytest.raises(InputProblem, match=r"odd\.csv"):
        read_normals(path)


def test_damaged_cells_are_refused(tmp_path):
    """A date that cannot exist, several rows and a missing latitude are named."""
    with pytest.raises(InputProblem, match="13/40"):
        read_normals(written(tmp_path, nine("LST-T32", ["13/40"] * 9)))
    with pytest.raises(InputProblem, match="no latitude"):
        read_normals(written(tmp_path, nine("LST-T32", ["04/01"] * 9), latitude=""))
    path = written(tmp_path, nine("LST-T32", ["04/01"] * 9))
    path.write_text(path.read_text() + path.read_text().splitlines()[1] + "\n")
    with pytest.raises(InputProblem, match="2 rows"):
        read_normals(path)


def test_night_offset_reads_between_thresholds():
    """A plot 2 F colder freezes at the station's 34 F: half way between Lebanon's 36 F (6 June) and 32 F (24 May)."""
    plot = FreezeDates.from_normals(NEWER, night_offset_c=-2 / 1.8)
    assert plot.date("spring", 32, 0.1, year=2027) == date(2027, 5, 31)  # 24 May and 13 days: 30.5 May, rounded up
    assert plot.state("spring", 36) == "unknown"  # the station's 38 F is not published
    warmer = FreezeDates.from_normals(NEWER).with_night_offset(4 / 1.8)
    assert warmer.date("spring", 36, 0.1, year=2027) == date(2027, 5, 24)
    assert warmer.state("fall", 16) == "unknown"
