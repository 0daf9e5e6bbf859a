"""Checking a class before it begins: every problem at once, or ready."""

import importlib.util
import shutil
from pathlib import Path

import pytest

from gardenlib import class_check
from gardenlib.carried import carried
from gardenlib.cli import main


@pytest.fixture
def demo(tmp_path):
    """Copy the demo class."""
    return Path(shutil.copytree(carried("data_demo"), tmp_path / "demo"))


@pytest.fixture(scope="module")
def make_demo():
    """Load the script that makes invented classes."""
    spec = importlib.util.spec_from_file_location("make_demo_to_check", carried("data_demo") / "make_demo.py")
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    return script


def _change(path, *pairs):
    text = path.read_text("utf-8")
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    path.write_text(text, "utf-8")


def _said(folder):
    return [str(sentence) for sentence in class_check.check(folder)]


def test_the_demo_class_is_ready(demo, capsys):
    """The demo class has nothing to mend, and the command says so with exit code 0."""
    assert class_check.check(demo) == []
    assert main(["check", str(demo)]) == 0
    assert capsys.readouterr().out == (
        "Pellowby Hollow community garden (invented), vegetables for beginners is ready for class.\n"
    )


@pytest.mark.parametrize(
    ("file", "old", "new", "says"),
    [
        ("class.toml", "555-0101", "FILL-IN", ["class.toml: contacts.phone still says FILL-IN"]),
        ("class.toml", '"Mar 15"', '"FILL-IN"', ["class.toml: garden_opens still says FILL-IN"]),
        ("class.toml", '"pea"', '"peas"', ["class.toml: crops", "peas", "pea"]),
        ("class.toml", "2027-04-03", "2027-03-01", ["the workday March 1 falls when the garden is shut", "March 15"]),
        ("class.toml", '["en"]', '["en", "xx"]', ["class.toml, languages: xx is not known here"]),
        ("class.toml", 'region = ""', 'region = "atlantis"', ["class.toml: region", "atlantis"]),
        ("class.toml", '"class-bed" ', '"bed-9" ', ["class.toml, class_bed: bed-9 is not known here", "plot-1"]),
        ("sites.csv", "invented county leaflet", "", ["sites.csv, row 2: dates_from is empty"]),
        ("sites.csv", "40.10", "140.10", ["sites.csv, row 2: latitude is 140.10. It can be from -90 to 90."]),
        ("sites.csv", "Apr 29", "Apr 31", ["sites.csv, row 2: last_freeze_50 is Apr 31, which is no day"]),
        ("sites.csv", "May 13", "Apr 13", ["sites.csv, row 2: The last freeze must be latest at 1 year in 10"]),
        (
            "sites.csv",
            "daily.csv",
            "weekly.csv",
            ["station_file is invented_pellowby_weekly.csv, but the class folder"],
        ),
        ("plots.csv", "plot-3,Pellowby Hollow", "plot-3,Elsewhere", ["plots.csv, plot-3: Elsewhere is not known here"]),
        ("plots.csv", "plot-3,", "plot-2,", ["plots.csv, row 5: plot is plot-2, which row 4 has already"]),
        ("learners.csv", "plot-3", "plot-9", ["learners.csv, L03: plot-9 is not known here", "plot-1, plot-2, plot-3"]),
        (
            "learners.csv",
            "Sorrel,en",
            "Sorrel,fr",
            ["learners.csv, L02: fr is not known here. Write one of these: en."],
        ),
        ("normals_monthly.csv", "Pellowby Hollow,1,", "Elsewhere,1,", ["Elsewhere is not known here"]),
        ("class_plot.json", '"tomato"', '"tomatto"', ["class_plot.json: crops", "tomatto", "tomato"]),
    ],
)
def test_each_fault_is_named(demo, file, old, new, says):
    """One fault put into the demo class is named with its place and its mend."""
    _change(demo / file, (old, new))
    said = _said(demo)
    assert any(all(part in sentence for part in says) for sentence in said), said


def test_a_station_that_disagrees_is_told_with_both_dates(demo):
    """Typed dates more than 10 days from those of the station file are named, both dates and the days between."""
    _change(demo / "sites.csv", ("Apr 29", "Mar 29"), ("May 13", ""))
    said = _said(demo)
    assert len(said) == 1
    assert "last_freeze_50 is March 29, but invented_pellowby_daily.csv says April" in said[0]
    assert "days apart" in said[0]


def test_a_station_that_nearly_agrees_is_left_alone(demo):
    """The demo's typed dates lie a few days from its station's, which is no fault."""
    _change(demo / "sites.csv", ("Apr 29", "May 3"))
    assert _said(demo) == []


def test_a_typed_freeze_where_none_comes_is_told(tmp_path, make_demo):
    """Where the station's years have no freeze, a typed date is named."""
    home = make_demo.other_sites(tmp_path)["never_freezes"]
    _change(home / "sites.csv", ("station_file", "station_file,last_freeze_50,dates_from"))
    _change(home / "sites.csv", ("daily.csv", "daily.csv,Jan 20,a leaflet"))
    assert "most years have no freeze" in _said(home)[0]


def test_a_broken_station_file_is_named_by_its_row(demo):
    """A station file that cannot be read is named with the row that names it."""
    (demo / "stations" / "invented_pellowby_daily.csv").write_text("<html>not found</html>")
    said = _said(demo)
    assert len(said) == 1
    assert said[0].startswith("sites.csv, row 2: ")


def test_a_site_without_any_dates_is_named(demo):
    """A site with neither dates nor files is named."""
    _change(demo / "sites.csv", ("invented_pellowby_daily.csv", ""))
    _change(demo / "sites.csv", ("Apr 29,Oct 8,May 13,,Sep 25", ",,,,"))
    assert any("Pellowby Hollow has no freeze dates" in sentence for sentence in _said(demo))


def test_all_faults_are_named_at_once(demo, capsys):
    """Faults in different files are listed together, counted, with exit code 1."""
    _change(demo / "class.toml", ("555-0101", "FILL-IN"), ('"pea"', '"peas"'))
    _change(demo / "sites.csv", ("invented county leaflet", ""))
    _change(demo / "learners.csv", ("plot-3", "plot-9"))
    assert main(["check", str(demo)]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "4 things must be mended:"
    assert len(lines) == 5


def test_what_is_good_to_know_stops_nothing(demo, capsys):
    """An extra column is told and the class is ready all the same."""
    _change(demo / "learners.csv", ("id,display_name,language,plot", "id,display_name,language,plot,shoes"))
    assert main(["check", str(demo)]) == 0
    assert capsys.readouterr().out.startswith("Good to know: learners.csv has columns that are not used here: shoes.")


def test_a_folder_that_is_not_there_is_one_sentence(tmp_path, capsys):
    """A missing class folder is exit code 1 and one sentence."""
    assert main(["check", str(tmp_path / "nowhere")]) == 1
    assert "There is no class folder" in capsys.readouterr().out
