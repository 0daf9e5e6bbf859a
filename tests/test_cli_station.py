"""The station command as a user runs it: its words, its exit codes and its silence about itself."""

import json
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from gardenlib import cli

DATA = Path(__file__).parent / "outside" / "data"
CLEMSON = str(DATA / "USC00381770.csv")
LINCOLN = str(DATA / "USW00094996_2016.csv")


def run(capsys, *words):
    """Run the command in this process and give exit code, output and errors."""
    code = cli.main(["station", *words])
    told = capsys.readouterr()
    return code, told.out, told.err


def invented_record(tmp_path, *, south=False, low_c=6.0, years=30):
    """Write an invented record: whole Celsius lows, a cold half-year, a little noise."""
    days = pd.date_range("1991-01-01", f"{1990 + years}-12-31")
    noise = np.random.default_rng(3).normal(0, 3, len(days))
    phase = 200 if south else 18
    low = np.round(low_c - 10 * np.cos(2 * np.pi * (days.day_of_year - phase) / 365) + noise, 1)
    rows = [f"{day:%Y-%m-%d},{one:.1f},{one + 11:.1f}" for day, one in zip(days, low, strict=True)]
    path = tmp_path / "invented.csv"
    path.write_text("date,tmin_c,tmax_c\n" + "\n".join(rows) + "\n")
    return str(path)


def test_without_a_latitude_it_tells_what_it_can(capsys):
    """Units, coldest and warmest day, what was dropped and the years are told; one sentence asks for a latitude."""
    code, out, err = run(capsys, CLEMSON)
    assert (code, err) == (0, "")
    for words in ("1930", "2020", "°F", "Coldest day: -5 °F (-20.6 °C)", "Warmest day: 106 °F", "July 18, 1936"):
        assert words in out
    assert out.count("--latitude") == 1
    assert "Zone" not in out


def test_with_a_latitude_it_gives_freeze_dates_and_zone(capsys):
    """Four thresholds by three risks, spring and fall, and the zone after the words on what a zone tells.

    Expected: last freeze at 32 F Apr 18, Apr 6, Mar 19 and first Oct 18, Nov 3, Nov 14 (computed apart from this
    library from NOAA's series for USC00381770, all years, quantiles by numpy's default rule); zone 8a.
    """
    code, out, _ = run(capsys, CLEMSON, "--latitude", "34.68")
    assert code == 0
    rows = [line.split("  ") for line in out.splitlines() if line.strip().startswith("32 °F")]
    spring, fall = ([cell.strip() for cell in row if cell.strip()] for row in rows)
    assert spring == ["32 °F", "April 18", "April 6", "March 19"]
    assert fall == ["32 °F", "October 18", "November 3", "November 14"]
    assert [line.strip()[:5] for line in out.splitlines() if "°F  " in line] == ["36 °F", "32 °F", "28 °F", "24 °F"] * 2
    assert out.index("does not tell when to sow") < out.index("Zone 8a")


def test_with_a_year_dates_carry_it(capsys):
    """With a year the dates are those of that season."""
    _, out, _ = run(capsys, CLEMSON, "--latitude", "34.68", "--year", "2027")
    assert "April 18, 2027" in out


def test_southern_falls_lie_in_the_next_calendar_year(capsys, tmp_path):
    """South of the equator the spring of a season comes before its fall across New Year."""
    path = invented_record(tmp_path, south=True)
    code, out, _ = run(capsys, path, "--latitude", "-40", "--year", "2027", "--json")
    assert code == 0
    rows = {(row["half"], row["threshold_f"]): row for row in json.loads(out)["freeze_dates"]}
    assert "2027-07-01" <= rows["spring", 32]["dates"]["0.5"] <= "2027-12-31"
    assert "2028-01-01" <= rows["fall", 32]["dates"]["0.5"] <= "2028-07-01"


def test_json_gives_the_same_facts(capsys):
    """One JSON object in SI units holds what the words hold."""
    code, out, _ = run(capsys, CLEMSON, "--latitude", "34.68", "--json")
    facts = json.loads(out)
    assert code == 0
    assert (facts["unit"], facts["unit_from"], facts["latitude"]) == ("F", "header", 34.68)
    assert facts["coldest"] == {"date": "1940-01-26", "tmin_c": -20.56}
    assert facts["dropped"]["odd_for_month"] == 1
    spring_32 = next(r for r in facts["freeze_dates"] if (r["half"], r["threshold_f"]) == ("spring", 32))
    assert spring_32 == {
        "half": "spring",
        "threshold_f": 32,
        "state": "dates",
        "dates": {"0.1": "04-18", "0.5": "04-06", "0.9": "03-19"},
    }
    assert facts["zone"]["zone"] == "8a"


def test_json_without_a_latitude(capsys):
    """Without a latitude the JSON says null where dates and zone would stand."""
    facts = json.loads(run(capsys, LINCOLN, "--json")[1])
    assert facts["freeze_dates"] is None
    assert facts["zone"] is None


def test_a_short_record_shows_its_single_years(capsys):
    """With too few years there is no date by risk but each season's own, with the reason."""
    code, out, _ = run(capsys, LINCOLN, "--latitude", "40.7")
    assert code == 0
    assert "Too few years" in out
    assert "2016: April 12, 2016" in out
    assert "2016: October 12, 2016" in out


def test_three_rows_say_why_there_are_no_dates(capsys, tmp_path):
    """Three days are read with exit 0; the reason why they give no date is told."""
    path = tmp_path / "three.csv"
    path.write_text("date,tmin,tmax\n2023-04-01,36,60\n2023-04-02,30,55\n2023-04-03,31,58\n")
    code, out, err = run(capsys, str(path), "--latitude", "40")
    assert (code, err) == (0, "")
    assert "20 years" in out
    assert "10 nights may be missing" in out


@pytest.mark.parametrize(("low_c", "says"), [(30.0, "no freeze"), (-25.0, "any month")])
def test_places_that_never_or_always_freeze(capsys, tmp_path, low_c, says):
    """Where it never freezes, or may in every month, the table says so in place of dates."""
    path = invented_record(tmp_path, low_c=low_c)
    code, out, _ = run(capsys, path, "--latitude", "40")
    assert code == 0
    assert out.count(says) == 24


@pytest.mark.parametrize("name", ["gone.csv", "broken.csv"])
def test_bad_input_is_one_sentence_and_exit_1(capsys, tmp_path, name):
    """Bad input ends with 1, one line on stderr, nothing on stdout, with or without a latitude."""
    (tmp_path / "broken.csv").write_text("date,tmin_c,tmax_c\n2023-02-30,1,9\n")
    for more in ([], ["--latitude", "40"], ["--json"]):
        code, out, err = run(capsys, str(tmp_path / name), *more)
        assert (code, out) == (1, "")
        assert err.count("\n") == 1
        assert "Traceback" not in err


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["a", "b"],
        ["a", "--unit", "K"],
        ["a", "--latitude", "95"],
        ["a", "--latitude", "north"],
        ["a", "--year", "27"],
    ],
)
def test_wrong_usage_is_exit_2(capsys, words):
    """Wrong options end with 2 and the usage."""
    with pytest.raises(SystemExit) as leaving:
        cli.main(["station", *words])
    assert leaving.value.code == 2
    assert "usage:" in capsys.readouterr().err


@pytest.mark.parametrize("words", [["--help"], ["station", "--help"]])
def test_help(capsys, words):
    """Help ends with 0 and names what can be said."""
    with pytest.raises(SystemExit) as leaving:
        cli.main(words)
    assert leaving.value.code == 0
    out = capsys.readouterr().out
    assert "station" in out
    if "station" in words:
        for option in ("--json", "--latitude", "--unit", "--date-order", "--year"):
            assert option in out


def test_a_fault_of_the_program_is_not_hidden(capsys, monkeypatch):
    """An error that is not the input's ends with 3, its trace and a sentence on stderr."""
    monkeypatch.setattr("gardenlib.site.station.read_station", lambda *_, **__: 1 / 0)
    code, out, err = run(capsys, LINCOLN)
    assert (code, out) == (3, "")
    assert "ZeroDivisionError" in err
    assert "in the program itself" in err


def process(*words, **options):
    """Run the command as a process of its own."""
    command = [sys.executable, "-m", "gardenlib.cli", "station", *words]
    return subprocess.run(command, capture_output=True, timeout=60, check=False, **options)


def test_a_closed_pipe_is_no_error():
    """A reader that has read enough ends the command with 0 and in silence."""
    reading, writing = os.pipe()
    os.close(reading)
    try:
        command = [sys.executable, "-m", "gardenlib.cli", "station", CLEMSON]
        done = subprocess.run(command, stdout=writing, stderr=subprocess.PIPE, timeout=60, check=False)
    finally:
        os.close(writing)
    assert (done.returncode, done.stderr) == (0, b"")


def test_a_terminal_without_a_degree_sign_still_gets_its_lines():
    """Where the terminal has ASCII alone, the lines come with a stand-in and no trace."""
    done = process(LINCOLN, env={**os.environ, "PYTHONIOENCODING": "ascii"})
    assert (done.returncode, done.stderr) == (0, b"")
    assert b"Coldest day: -13 ?F" in done.stdout


def test_it_never_asks():
    """With nothing to read from, the command still ends by itself."""
    assert process(LINCOLN, stdin=subprocess.DEVNULL).returncode == 0


def test_heavy_libraries_stay_out():
    """The command loads no charts, widgets or plot-file library."""
    code = (
        "import sys; from gardenlib import cli; code = cli.main(['station', sys.argv[1], '--latitude', '40']); "
        "print(code, [name for name in ('pydantic', 'altair', 'ipywidgets', 'IPython') if name in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, LINCOLN], capture_output=True, text=True, timeout=60, check=False
    )
    assert done.stdout.splitlines()[-1] == "0 []"
