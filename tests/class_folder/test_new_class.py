"""A new class folder: what it holds, that it knows its own gaps, and that it never writes over anything."""

import csv
import re
import tomllib
from itertools import pairwise

import pytest

from gardenlib import InputProblem, class_check, class_folder
from gardenlib.carried import carried
from gardenlib.class_folder import new_class, settings, sheet
from gardenlib.tables import packet
from gardenlib.words import texts

# What the class folder of the design holds.
FILES = {
    *("class.toml", "sites.csv", "plots.csv", "learners.csv", "crops.csv", "normals_monthly.csv", "words_local.csv"),
    "stations/README.txt",
}
# An invented class, setting by setting.
OWN = {
    "title": '"Beginners (invented)"',
    "units": '"metric"',
    "crops": '["pea", "tomato", "okra"]',
    "garden_opens": '"Mar 20"',
    "garden_closes": '"Oct 31"',
    "water_on": '"Apr 15"',
    "water_off": '"Oct 1"',
    "spray_rule": '"No sprays."',
    "class_word": '"pebble"',
    "lab.name": '"Invented laboratory"',
    "lab.form": '""',
    "lead.line": '"Tested in 2024 (invented)."',
    "lead.authority": '"Invented health office"',
    "lead.date": '"2024-10-01"',
    "sessions.date": "2027-04-10",
    "sessions.title": '"Our place"',
    "contacts.name": '"Ash (invented)"',
    "contacts.role": '"steward"',
    "contacts.mail": '"steward@example.org"',
    "contacts.phone": '"555-0101"',
}
CELLS = {
    "site": "Hill (invented)",
    "latitude": "44.50",
    "last_freeze_50": "May 9",
    "first_freeze_50": "Oct 3",
    "dates_from": "invented leaflet",
    "length_ft": "12",
    "width_ft": "4",
    "sun_hours": "7",
    "water": "tap",
    "kind": "raised",
    "wheelchair_path": "yes",
    "display_name": "Juniper",
    "crop": "okra",
    "name": "okra",
    "family": "Malvaceae",
    "hardiness": "very tender",
    "method": "direct",
    "mean_high": "60",
    "mean_low": "40",
    "unit": "F",
    "source": "invented",
    "key": "check.ready",
    "text": "{title}: all is well.",
}


def _names(tree, part=""):
    for name, value in tree.items():
        inner = value[0] if isinstance(value, list) and value and isinstance(value[0], dict) else value
        if isinstance(inner, dict):
            yield name
            yield from _names(inner, f"{name}.")
        else:
            yield part + name


def _rows(path):
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


def _fill(home):
    """Write an invented class over every mark."""
    part, lines = "", []
    for line in (home / "class.toml").read_text("utf-8").splitlines():
        if found := re.fullmatch(r"\[+(\w+)\]+", line):
            part = f"{found[1]}."
        if "FILL-IN" in line and not line.startswith("#"):
            name = line.split(" = ")[0]
            line = f"{name} = {OWN[part + name]}"  # noqa: PLW2901 - the line as the class would leave it
        lines.append(line)
    (home / "class.toml").write_text("\n".join(lines), "utf-8")
    for path in home.glob("*.csv"):
        header, *rows = _rows(path)
        filled = [
            [CELLS[name] if cell == "FILL-IN" else cell for name, cell in zip(header, row, strict=True)] for row in rows
        ]
        with path.open("w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows([header, *filled])


@pytest.fixture
def home(tmp_path):
    """Make a new class folder."""
    return new_class(tmp_path / "ours")


# ---- what it holds -------------------------------------------------------------------------


def test_every_file_of_a_class_folder_is_made(home):
    """The folder holds the files of the design and no others."""
    assert {str(path.relative_to(home).as_posix()) for path in home.rglob("*") if path.is_file()} == FILES


def test_nothing_in_it_is_strange_to_the_reader(home):
    """No setting and no column of the new folder is one that the reader would pass over."""
    _, findings = class_folder.survey(home)
    assert findings.notes == []


def test_every_setting_that_is_read_stands_in_it(home, monkeypatch):
    """The settings that the reader asks for, written down while it reads, are those of the new file."""
    asked = set()

    class Watched(dict):
        part = ""

        def get(self, name, default=None):
            asked.add(self.part + name)
            return _watch(super().get(name, default), name)

        def __getitem__(self, name):
            asked.add(self.part + name)
            return super().__getitem__(name)

    def _watch(value, name):
        if isinstance(value, list):
            return [_watch(item, name) for item in value]
        if isinstance(value, dict) and not isinstance(value, Watched):
            value = Watched(value)
            value.part = f"{name}."
        return value

    _fill(home)
    written = set(_names(tomllib.loads((home / "class.toml").read_text("utf-8"))))
    loads = tomllib.loads
    monkeypatch.setattr(settings.tomllib, "loads", lambda text: Watched(loads(text)))
    class_folder.read(home)
    assert asked == written


def test_every_column_that_is_read_stands_in_it(home, monkeypatch):
    """The columns that the reader asks for, written down while it reads, are those of the new tables."""
    asked = {}
    text = sheet.Row.text

    def watched(row, column, **how):
        asked.setdefault(row.file, set()).add(column)
        return text(row, column, **how)

    _fill(home)
    # A reason is asked for once there is an offset.
    rows = _rows(home / "sites.csv")
    for name, cell in (("night_offset_c", "-1"), ("night_offset_reason", "a hollow (invented)")):
        rows[1][rows[0].index(name)] = cell
    with (home / "sites.csv").open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(rows)
    monkeypatch.setattr(sheet.Row, "text", watched)
    class_folder.read(home)
    asked["crops.csv"] |= set(packet.COLUMNS)  # a packet's row is read whole
    assert asked == {path.name: set(_rows(path)[0]) for path in home.glob("*.csv")}


def test_the_demo_class_has_no_setting_or_column_that_is_not_in_it(home):
    """All that the demo class writes, a new class can write too."""
    demo = carried("data_demo")
    ours, theirs = (set(_names(tomllib.loads((f / "class.toml").read_text("utf-8")))) for f in (home, demo))
    assert theirs <= ours
    for path in home.glob("*.csv"):
        assert set(_rows(demo / path.name)[0]) <= set(_rows(path)[0])


def test_each_setting_has_its_plain_comment_and_no_comment_is_left_over(home):
    """Each setting stands below a comment; the words file holds a comment for these and for nothing else."""
    lines = (home / "class.toml").read_text("utf-8").splitlines()
    for above, line in pairwise(lines):
        if " = " in line and not line.startswith("#"):
            assert above.startswith("# "), line
    written = set(_names(tomllib.loads("\n".join(lines))))
    said = {key.removeprefix("class.new.") for key in texts("en") if key.startswith("class.new.")}
    parts = {name for name in written if f"{name}.about" in said}
    beside = {"about", "days", "dates", *(f"stations.{line}" for line in ("about", "normals", "named", "look"))}
    assert said == (written - parts) | {f"{part}.about" for part in parts} | beside
    assert parts == {"lab", "lead", "sessions", "contacts"}


# ---- its gaps ------------------------------------------------------------------------------


def test_each_mark_is_named_until_it_is_filled_in(home):
    """Each mark is told with its place: settings and cells one by one, optional rows one sentence a table."""
    said = [str(line) for line in class_check.check(home)]
    tree = tomllib.loads((home / "class.toml").read_text("utf-8"))
    marked = [f"class.toml: {name}" for name in _names(tree) if name in OWN]
    for table in ("sites.csv", "plots.csv", "learners.csv"):
        header, *rows = _rows(home / table)
        for number, row in enumerate(rows, start=2):
            marked += [f"{table}, row {number}: {c}" for c, cell in zip(header, row, strict=True) if cell == "FILL-IN"]
    expected = [f"{where} still says FILL-IN. Write what holds for your class." for where in marked]
    months = ", ".join(str(row) for row in range(2, 14))
    expected += [
        "crops.csv, row 2 still says FILL-IN. Fill the row in, or take it out.",
        "words_local.csv, row 2 still says FILL-IN. Fill the row in, or take it out.",
        f"normals_monthly.csv, rows {months} still say FILL-IN. Fill them in, or take them out.",
    ]
    assert sorted(said) == sorted(expected)


def test_pages_refuse_it_as_it_is(home):
    """A folder that was not filled in is no class; the first gap is named."""
    with pytest.raises(InputProblem, match=r"class\.toml: title still says FILL-IN"):
        class_folder.read(home)


def test_filled_in_it_is_a_class(home):
    """Once every mark is written over, nothing is left to mend and the values arrive."""
    _fill(home)
    assert class_check.check(home) == []
    klass = class_folder.read(home)
    assert (klass.title, klass.units, klass.invented) == ("Beginners (invented)", "metric", False)
    assert klass.sites["Hill (invented)"].last_freeze_50 == (5, 9)
    assert klass.lead.authority == "Invented health office"
    assert len(klass.monthly["Hill (invented)"]) == 12
    assert (klass.lime_from_texture, klass.show_scores) == (False, False)


def test_optional_rows_may_be_taken_out(home):
    """A class without own crops, normals, words and learners takes their rows out and is ready."""
    _fill(home)
    for name in ("crops.csv", "normals_monthly.csv", "words_local.csv", "learners.csv"):
        path = home / name
        path.write_text(path.read_text("utf-8").splitlines()[0] + "\n", "utf-8")
    toml = home / "class.toml"
    toml.write_text(toml.read_text("utf-8").replace(', "okra"', ""), "utf-8")
    assert class_check.check(home) == []


def test_one_mark_that_is_left_is_named_alone(home):
    """Each mark stops the check by itself."""
    _fill(home)
    toml = home / "class.toml"
    toml.write_text(toml.read_text("utf-8").replace('authority = "Invented health office"', 'authority = "FILL-IN"'))
    assert [str(line) for line in class_check.check(home)] == [
        "class.toml: lead.authority still says FILL-IN. Write what holds for your class."
    ]


# ---- where it is made ----------------------------------------------------------------------


def test_folders_above_are_made(tmp_path):
    """Folders above it that are missing are made; the path comes back."""
    assert new_class(str(tmp_path / "a" / "b" / "ours")) == tmp_path / "a" / "b" / "ours"
    assert (tmp_path / "a" / "b" / "ours" / "stations").is_dir()


def test_an_empty_folder_is_used(tmp_path):
    """A folder that holds nothing is filled."""
    (tmp_path / "ours").mkdir()
    assert (new_class(tmp_path / "ours") / "class.toml").is_file()


@pytest.mark.parametrize("inside", ["class.toml", "notes.txt", ".hidden", "stations/x.csv"])
def test_a_folder_that_holds_anything_is_left_as_it_is(tmp_path, inside):
    """Nothing is written over or beside what lies there; one sentence says so."""
    kept = tmp_path / "ours" / inside
    kept.parent.mkdir(parents=True)
    kept.write_text("mine")
    before = sorted(tmp_path.rglob("*"))
    with pytest.raises(InputProblem, match="holds something already, so nothing was written"):
        new_class(tmp_path / "ours")
    assert sorted(tmp_path.rglob("*")) == before
    assert kept.read_text() == "mine"


def test_a_file_in_its_place_is_left_as_it_is(tmp_path):
    """A file of that name is not touched."""
    (tmp_path / "ours").write_text("mine")
    with pytest.raises(InputProblem, match="holds something already"):
        new_class(tmp_path / "ours")
    assert (tmp_path / "ours").read_text() == "mine"


@pytest.mark.parametrize("name", ["file/ours", "a" * 300])
def test_a_folder_that_cannot_be_made_is_one_sentence(tmp_path, name):
    """A folder below a file, or with a name longer than any, is refused with the reason."""
    (tmp_path / "file").write_text("mine")
    with pytest.raises(InputProblem, match=r"cannot be made \(.+\)\. Name a folder that you may write in\."):
        new_class(tmp_path / name)
