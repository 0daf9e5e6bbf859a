"""Checking a class before it begins: every problem at once, or ready."""

import importlib.util

import pytest

from gardenlib import class_check
from gardenlib.carried import carried
from gardenlib.cli import main


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


CLUB_ROOT = (
    "Good to know: plots.csv, plot-2: known_disease says club root, seen 2024 (invented). The pages act on one word "
    "alone: clubroot, written just so, once a lab has named it."
)


def test_the_demo_class_is_ready(demo, capsys):
    """The demo class has nothing to mend; early meetings, and a disease that no lab has named, are told."""
    assert class_check.check(demo) == []
    assert main(["check", str(demo)]) == 0
    *notes, last = capsys.readouterr().out.splitlines()
    assert last == "Pellowby Hollow community garden (invented), vegetables for beginners is ready for class."
    assert [note.partition(", when")[0] for note in notes] == [
        "Good to know: class.toml: the garden is shut on February 20",
        "Good to know: class.toml: the garden is shut on March 6",
        CLUB_ROOT,
    ]


@pytest.mark.parametrize(
    ("file", "old", "new", "says"),
    [
        ("class.toml", "555-0101", "FILL-IN", ["class.toml, part 1: contacts.phone still says FILL-IN"]),
        ("class.toml", '"Mar 15"', '"FILL-IN"', ["class.toml: garden_opens still says FILL-IN"]),
        ("class.toml", '"pea"', '"peas"', ["class.toml: crops", "peas", "pea"]),
        ("class.toml", "2027-04-03", "2027-03-01", ["the workday March 1 falls when the garden is shut", "March 15"]),
        ("class.toml", '["en"]', '["en", "xx"]', ["class.toml, languages: xx is not known here"]),
        ("class.toml", 'region = ""', 'region = "atlantis"', ["class.toml: region", "atlantis"]),
        ("class.toml", '"class-bed" ', '"bed-9" ', ["class.toml, class_bed: bed-9 is not known here", "plot-1"]),
        ("class.toml", "2027-10-23", "2027-11-21", ["the workday November 21 falls when the garden is shut", "20"]),
        ("class.toml", '"04_sowing_calendar"', '"04_sowing"', ["class.toml, sessions.page: 04_sowing", "04_sowing_ca"]),
        (
            "class.toml",
            "date = 2027-02-20",
            'date = "soon"',
            ["class.toml, part 1: sessions.date is soon. Write year, month"],
        ),
        (
            "class.toml",
            'title = "When to sow"',
            'title = "FILL-IN"',
            ["class.toml, part 2: sessions.title still says FILL-IN"],
        ),
        ("class.toml", '"Mar 15"', '"Mrz 15"', ["class.toml: garden_opens is Mrz 15, which is no day of the year"]),
        (
            "class.toml",
            '"Mar 15"',
            '"Nov 25"',
            ["closes on November 20", "at Pellowby Hollow"],
        ),
        ("class.toml", '"2024-10-01"', '""', ["class.toml: lead.date is empty. Fill it in."]),
        (
            "class.toml",
            '["cabbage_main", "lettuce_leaf", "pea", "tomato", "bean_bush"]',
            '[""]',
            ["class.toml: crops is empty. Fill it in."],
        ),
        ("class.toml", 'authority = "Invented county health office"', "", ["class.toml: lead.authority is empty."]),
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
        ("learners.csv", "Sorrel,en", "Sorrel,es", ["learners.csv, L02: es is not among the languages of class.toml."]),
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
    lines = [line for line in capsys.readouterr().out.splitlines() if not line.startswith("Good to know: ")]
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


def test_an_unknown_crop_is_told_with_the_three_nearest(demo):
    """A crop with a letter too many is named with three crops that are written much the same."""
    _change(demo / "class.toml", ('"tomato"', '"tomatoo"'))
    [said] = _said(demo)
    assert said.startswith("class.toml: crops: ")
    assert "tomatoo" in said
    near = said.replace("tomatoo", "").split(": ")[-1].rstrip(".").split(", ")
    assert len(near) == 3
    assert near[0].endswith("tomato")


def test_a_class_without_a_plot_of_its_own_names_none(demo):
    """Where there is no class_plot.json, a crop of the settings is told once, and no file that is not there."""
    (demo / "class_plot.json").unlink()
    _change(demo / "class.toml", ('"tomato"', '"tomatoo"'))
    [said] = _said(demo)
    assert said.startswith("class.toml: crops: ")


def test_a_crop_in_place_of_a_family_is_told_and_stops_nothing(demo, capsys):
    """The pages look for family names, so that a crop among them is told, with the names that are known."""
    _change(demo / "plots.csv", (",Solanaceae,Brassicaceae,Fabaceae,,", ",tomatoes,brassicaceae,Fabaceae,,"))
    assert main(["check", str(demo)]) == 0
    told = [line for line in capsys.readouterr().out.splitlines() if "plots.csv, plot-1" in line]
    assert len(told) == 1
    assert "plots.csv, plot-1: tomatoes is not a plant family" in told[0]
    assert "Solanaceae" in told[0]


def test_a_disease_that_the_pages_do_not_know_is_told(demo, capsys):
    """Only clubroot, written just so, changes the lime target; more words around it are told, and stop nothing."""
    _change(
        demo / "plots.csv",
        (",Solanaceae,Brassicaceae,Fabaceae,,", ",Solanaceae,Brassicaceae,Fabaceae,,clubroot disease"),
    )
    assert main(["check", str(demo)]) == 0
    told = [line for line in capsys.readouterr().out.splitlines() if "known_disease" in line and line != CLUB_ROOT]
    assert len(told) == 1
    assert "plots.csv, plot-1: known_disease says clubroot disease." in told[0]


@pytest.mark.parametrize(("opens", "closes", "named"), [("Sep 1", "May 20", 0), ("Mar 15", "Nov 20", 1)])
def test_a_southern_garden_closes_in_the_season_in_which_it_opens(demo, opens, closes, named):
    """South of the equator a season runs from July to June: September to May fits, March to November does not."""
    _change(demo / "sites.csv", ("40.10", "-40.10"), ("invented_pellowby_daily.csv", ""), ("Apr 29", "Oct 20"))
    _change(demo / "sites.csv", ("Oct 8,May 13,,Sep 25", "Apr 20,,,"))
    _change(demo / "class.toml", ('"Mar 15"', f'"{opens}"'), ('"Nov 20"', f'"{closes}"'))
    _change(demo / "class.toml", ("2027-04-03, 2027-06-12, 2027-10-23", ""))
    said = _said(demo)
    assert len(said) == named
    assert all("a season runs from July 1 to June 30" in sentence for sentence in said)


@pytest.mark.parametrize(("water_on", "told"), [("Mar 1", True), ("Mar 15", False), ("Apr 20", False)])
def test_water_before_the_garden_opens_is_told_and_stops_nothing(demo, water_on, told):
    """A tap that is opened before the garden is may be meant so: it is told, and the class is ready."""
    _change(demo / "class.toml", ('water_on = "Apr 20"', f'water_on = "{water_on}"'))
    found = class_check.report(demo)
    assert found.mend == ()
    assert any(str(note).startswith("class.toml: water_on is March 1, when") for note in found.notes) == told


def test_a_meeting_before_the_garden_opens_is_told_and_stops_nothing(demo):
    """A class may meet indoors: a session outside the open months is told, one inside is not."""
    _change(demo / "class.toml", ("date = 2027-02-20", "date = 2027-03-15"), ("date = 2027-03-06", "date = 2027-11-21"))
    found = class_check.report(demo)
    assert found.mend == ()
    notes = [str(note).partition(", when")[0] for note in found.notes]
    assert notes == ["class.toml: the garden is shut on November 21", CLUB_ROOT.removeprefix("Good to know: ")]


@pytest.mark.parametrize(("kept", "told"), [(2, False), (1, False), (0, True)])
def test_a_class_with_nobody_to_call_is_told_and_stops_nothing(demo, kept, told):
    """Without a phone number among the contacts that is told; one is enough, and the class is ready either way."""
    phones = ['phone = "555-0101"', 'phone = "555-0102"']
    _change(demo / "class.toml", *((phone, 'phone = ""') for phone in phones[kept:]))
    found = class_check.report(demo)
    assert found.mend == ()
    assert any(str(note).startswith("class.toml: no contact has a phone number.") for note in found.notes) == told


# ---- files that are not what they seem -----------------------------------------------------


@pytest.mark.parametrize("name", ["class.toml", "sites.csv", "plots.csv", "learners.csv", "normals_monthly.csv"])
def test_a_folder_in_place_of_a_file_is_one_sentence(demo, name):
    """A folder of that name is told as what it is, not as a file that is missing."""
    (demo / name).unlink()
    (demo / name).mkdir()
    said = [sentence for sentence in _said(demo) if name in sentence and "not known" not in sentence]
    assert len(said) == 1
    assert said[0].endswith("cannot be opened as a file. It may be a folder, or locked. Put the file itself there.")


def test_ten_thousand_rows_are_one_sentence(demo):
    """A table far too long is told once, with the most it may have."""
    with (demo / "learners.csv").open("a") as file:
        file.writelines(f"M{number},Fern,en,plot-1\n" for number in range(10_000))
    assert _said(demo) == ["learners.csv has more than 10000 rows. Keep only the rows of this class."]


def test_another_encoding_is_read_and_told(demo):
    """A table saved in an old form of letters is read; the instructor is asked to look at the accents."""
    _change(demo / "learners.csv", ("Sorrel", "Séneçon"))
    path = demo / "learners.csv"
    path.write_bytes(path.read_text("utf-8").encode("cp1252"))
    found = class_check.report(demo)
    assert found.mend == ()
    assert any(str(note).startswith("learners.csv is not saved as UTF-8.") for note in found.notes)


@pytest.mark.parametrize(
    "name", ["../../outside.csv", "stations/../../outside.csv", "/etc/hostname", "..", ".", "a" * 300, "loop", "out"]
)
def test_a_station_file_outside_the_folder_is_refused(demo, name):
    """A name that leads out of the class folder, in a circle or nowhere is one sentence, and nothing is read."""
    (demo.parent / "outside.csv").write_text((demo / "stations" / "invented_pellowby_daily.csv").read_text())
    (demo / "stations" / "loop").symlink_to(demo / "stations" / "loop")
    (demo / "stations" / "out").symlink_to(demo.parent / "outside.csv")
    _change(demo / "sites.csv", ("invented_pellowby_daily.csv", name))
    assert _said(demo) == [
        f"sites.csv, row 2: station_file is {name[:60]}, but the class folder has no such file. "
        "Put it in the folder stations."
    ]


@pytest.mark.parametrize("value", ["[" * 5000, "9" * 6000])
def test_settings_that_no_reader_can_follow_are_one_sentence(demo, value):
    """Brackets without end and a number of thousands of digits are told, not a trace."""
    _change(demo / "class.toml", ('"brook-2027"', value))
    assert _said(demo) == [
        "class.toml cannot be read: a number is far too long, or brackets lie too deep. "
        "Check the quotes and brackets there."
    ]


def test_a_very_long_cell_is_told_by_its_beginning(demo):
    """A cell of thousands of letters is told by its first 60."""
    _change(demo / "learners.csv", ("Sorrel", "S" * 9000))
    [said] = _said(demo)
    assert said == f"learners.csv, row 3: display_name is {'S' * 60}. Use 500 letters or fewer."
