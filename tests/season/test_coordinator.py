"""One table without names: what is counted, what is hidden, and what a hostile folder does to it."""

import csv
import io
import json
from datetime import date

import pytest

from gardenlib import InputProblem
from gardenlib.plot import read, update
from gardenlib.plot.store import new
from gardenlib.season import class_counts
from gardenlib.units import KG_PER_POUND
from gardenlib.words import Voice

SEASON = {"first": date(2027, 1, 1), "last": date(2027, 10, 31)}
HIDDEN = "Marigold Featherstonehaugh, 12 Invented Lane"


def _plot(folder, name, *, before=("yes", "no", "partly"), pounds=2.0, hours=1.5, day="2027-07-01"):
    path = folder / f"{name}.json"
    new(path)
    said = {f"07.before.q{n}": {"choice": answer} for n, answer in enumerate(before, start=1)}
    update(path, "answers", said, seen_revision=1)
    update(
        path, "site", {"name": HIDDEN, "latitude": 44.12345, "longitude": -103.98765, "notes": HIDDEN}, seen_revision=2
    )
    lines = [
        {"day": day, "did": "picked", "crop": "pea", "amount_kg": pounds * KG_PER_POUND, "text": f"{HIDDEN} {name}"},
        {"day": day, "did": "given", "crop": "pea", "amount_kg": pounds * KG_PER_POUND / 2},
        {"day": day, "did": "worked", "hours": hours},
    ]
    update(path, "log", lines, seen_revision=3)
    return path


def _table(folder, *, voice=None, **asked):
    return class_counts(folder, voice=voice, **asked).csv(voice)


def _cells(text):
    return {(row["what"], row["which"]): row["number"] for row in csv.DictReader(io.StringIO(text))}


@pytest.fixture
def folder(tmp_path):
    """Make four learners' plot files, named by id."""
    place = tmp_path / "plots"
    for n in range(1, 5):
        _plot(place, f"p{n}", before=("yes", "partly" if n < 4 else "no", "no"))
    return place


def test_the_table_counts_what_was_typed(folder, tmp_path):
    """Four plots of 2 lb, 1 lb given and 1.5 hours: 8, 4 and 6; heads by session; answers by hand."""
    heads = tmp_path / "attendance.csv"
    heads.write_text("date,heads\n2027-03-01,12\nMar 8 2027,9\n")
    sessions = [date(2027, 3, 1), date(2027, 3, 15)]
    cells = _cells(_table(folder, sessions=sessions, attendance=heads, **SEASON))
    assert cells["plot files counted", ""] == "4"
    assert [cells["heads at a session", day] for day in ("2027-03-01", "2027-03-08", "2027-03-15")] == [
        "12",
        "9",
        "not written down",
    ]
    assert [cells[what, ""] for what in ("picked", "given away", "hours worked")] == ["8.0", "4.0", "6.0"]
    assert cells["I know my last freeze date", "before: yes"] == "4"
    assert cells["I can read a soil sheet", "before: partly"] == "3"


def test_weights_are_in_the_units_of_the_class(folder):
    """8 lb are 3.6 kg (1 lb = 0.45359237 kg, NIST SP 811)."""
    rows = class_counts(folder, voice=Voice(units="metric"), **SEASON).cells
    assert ("picked", "", "3.6", "kg") in rows


def test_small_cells_are_not_told(folder):
    """Counts of 0, 1 and 2 people all read alike, so that none can be told apart (common practice, no source)."""
    cells = _cells(_table(folder, **SEASON))
    assert cells["I can read a soil sheet", "before: not yet"] == "fewer than 3"  # one person
    assert cells["I can read a soil sheet", "before: yes"] == "fewer than 3"  # nobody
    assert cells["I know my last freeze date", "after: yes"] == "fewer than 3"


def test_a_weight_of_two_plots_is_not_told(tmp_path):
    """Two plots' pounds and hours could be told apart by their owners: only that they are two or fewer is said."""
    for name in ("p1", "p2"):
        _plot(tmp_path, name)
    cells = _cells(_table(tmp_path, **SEASON))
    assert {cells[what, ""] for what in ("picked", "given away", "hours worked")} == {"from fewer than 3 plots"}
    _plot(tmp_path, "p3")
    assert _cells(_table(tmp_path, **SEASON))["picked", ""] == "6.0"


def test_no_name_no_words_no_place(folder):
    """Names, notes, crops, file names and coordinates are nowhere in the table."""
    text = _table(folder, **SEASON)
    for hidden in (*HIDDEN.replace(",", "").split(), "44.1", "103.9", "pea", "p1"):
        assert hidden not in text


def test_a_damaged_file_is_named_and_skipped(folder):
    """A damaged file, one that is no plot, an older copy and a double are named for the instructor and not counted."""
    (folder / "p5.json").write_text('{"version": 1, "revision": 3, "log": [{"day": "not a d')
    (folder / "p6.json").write_bytes(b"\x00\xff\x00")
    (folder / "other.json").write_text(json.dumps({"colour": "green"}))
    (folder / "p1.kept-1.json").write_bytes((folder / "p1.json").read_bytes())
    (folder / "p7.json").write_bytes((folder / "p2.json").read_bytes())
    there = {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}
    found = class_counts(folder, **SEASON)
    told = " ".join(str(said) for said in found.left_out)
    assert [name for name in ("p5", "p6", "other", "p1.kept-1", "p7") if f"{name}.json" not in told] == []
    cells = _cells(found.csv())
    assert (cells["plot files counted", ""], cells["plot files that could not be read", ""]) == ("4", "2")
    assert cells["picked", ""] == "8.0"
    assert "p5" not in found.csv()
    assert {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()} == there


def test_lines_after_the_last_day_are_left_out_and_said(folder):
    """A log with the future in it: those lines count nowhere, and the instructor is told how many."""
    _plot(folder, "p9", day="2028-07-01", pounds=50.0)
    found = class_counts(folder, **SEASON)
    assert _cells(found.csv())["picked", ""] == "8.0"
    assert "3 lines have a day after October 31" in str(found.left_out[0])


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_cells_cannot_be_formulas(folder, start):
    """A class's own word that begins like a formula is made harmless (the six beginnings that OWASP lists)."""
    voice = Voice(local={"coord.picked": f"{start}HYPERLINK(1)"})
    rows = list(csv.reader(io.StringIO(_table(folder, voice=voice, **SEASON), newline="")))
    assert f"'{start}HYPERLINK(1)" in [row[0] for row in rows]
    assert not [cell for row in rows for cell in row if cell.startswith(start)]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("date,heads\n2027-03-01,-4\n", "from 0 to 1000"),
        ("date,heads\n2027-03-01,6.5\n", "whole number"),
        ("date,heads\n2027-03-01,many\n", "number alone"),
        ('date,heads\n2027-03-01,"6,2"\n', "whole number"),
        ("date,heads\nMar 1,4\n", "Write the year"),
        ("date,heads\n3/4/2027,4\n", "two|may be|letters"),
        ("date,heads\n2027-03-01,4\n2027-03-01,5\n", "once"),
        ("day,people\n2027-03-01,4\n", "date, heads"),
    ],
)
def test_a_slip_in_the_table_of_heads_is_one_sentence(folder, tmp_path, text, words):
    """Each slip is refused, and the sentence names the file."""
    heads = tmp_path / "attendance.csv"
    heads.write_text(text)
    with pytest.raises(InputProblem, match=words) as refused:
        class_counts(folder, attendance=heads, **SEASON)
    assert "attendance.csv" in str(refused.value)


def test_a_folder_that_is_not_there_is_one_sentence(tmp_path):
    """The folder is named."""
    with pytest.raises(InputProblem, match="There is no folder"):
        class_counts(tmp_path / "nowhere", **SEASON)


def test_an_answer_that_is_no_answer_counts_nowhere(tmp_path):
    """What stands under a question's id in another form is passed over."""
    for name in ("p1", "p2", "p3"):
        path = _plot(tmp_path, name)
        update(path, "answers", {"07.before.q1": ["yes"], "07.after.q1": {"choice": {"yes": 1}}}, seen_revision=9)
        assert read(path).answers["07.before.q1"] == ["yes"]
    cells = _cells(_table(tmp_path, **SEASON))
    assert cells["I know my last freeze date", "before: yes"] == "fewer than 3"
