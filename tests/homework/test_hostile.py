"""Work that is not as it should be: one sentence each, and everything else still counts."""

import json
import time
from datetime import date

import pytest

from gardenlib import class_folder
from gardenlib.carried import carried
from gardenlib.cli import main
from gardenlib.homework import (
    PackRecord,
    answers_from_csv,
    answers_from_plots,
    ground_for,
    plot_key,
    set_question,
    sheet_record,
)
from gardenlib.homework.replies import mark_pack

KLASS = class_folder.read(carried("data_demo"))
HEAD = "learner,sheet_code,blank_id,question,answer\n"
EVIL = "<script>alert(1)</script>\"; =cmd()|'/c calc'!A0 \U0001f346 \u0645\u0631\u062d\u0628\u0627"


@pytest.fixture(scope="module")
def pack():
    """Make the record of one sheet for the class and one for a learner, two questions each."""
    sheets = []
    for code, learner in (("A7", ""), ("B2", "L02")):
        ground = ground_for(KLASS, code=code, year=2027)
        questions = [set_question(f"{skill}.4", ground) for skill in ("03.fit", "03.inch")]
        sheets.append(sheet_record(questions, ground, learner=learner))
    return PackRecord(library="0", class_title="invented", made_on=date(2027, 3, 1), sheets=tuple(sheets))


@pytest.fixture
def put_in(pack, tmp_path):
    """Lay the pack out, and give the folder for what is handed in."""
    (tmp_path / "key").mkdir()
    (tmp_path / "handed_in").mkdir()
    pack.save(tmp_path / "key" / "record.json")
    return tmp_path / "handed_in"


@pytest.fixture(scope="module")
def blanks(pack):
    """Give the ids of the two blanks; both sheets ask the same."""
    return list(pack.sheets[0].blanks())


@pytest.fixture
def table(pack, put_in):
    """Read a table of answers, given as text or bytes, and give the answers and what is told."""

    def read(data):
        path = put_in / "answers.csv"
        path.write_bytes(data if isinstance(data, bytes) else data.encode())
        found = answers_from_csv(path, pack)
        return found.answers, [str(said) for said in found.told]

    return read


@pytest.fixture
def plots(pack, put_in):
    """Put a plot file in, or read all of them and give the answers and what is told."""

    def put(name, answers, revision=1, code="A7", **parts):
        kept = {plot_key(code, blank): {"text": text} for blank, text in answers.items()}
        whole = {"version": 1, "revision": revision, "answers": kept, **parts}
        (put_in / name).write_text(json.dumps(whole), "utf-8")

    def read():
        found = answers_from_plots(put_in, pack)
        return found.answers, [str(said) for said in found.told]

    return put, read


# ---- tables of answers ---------------------------------------------------------------------


@pytest.mark.parametrize(
    "save",
    [
        lambda text: text.encode("utf-8-sig"),
        lambda text: text.encode("utf-16"),
        lambda text: text.encode("cp1252"),
        lambda text: text.encode("mac-roman"),
        lambda text: text.replace(",", ";").encode(),
        lambda text: text.replace(",", "\t").replace("\n", "\r\n").encode("utf-16"),
        lambda text: ("\n,,,,\n" + text + ",,,,\n" * 50).encode(),
    ],
    ids=["bom", "utf-16", "cp1252", "mac", "semicolons", "tabs", "empty rows"],
)
def test_a_table_is_read_however_it_was_saved(table, blanks, save):
    """Marks of byte order, old encodings, semicolons, tabs and empty rows lose no answer."""
    answers, told = table(save(f"{HEAD}Inés,A7,{blanks[0]},¿cuántas?,16\nbo,A7,{blanks[1]},,12\n"))
    assert [list(given.values()) for given in answers.values()] == [["16"], ["12"]]
    assert all("not saved as UTF-8" in said and "Check that names with accents look right" in said for said in told)


def test_old_letters_are_told_and_one_name_may_look_odd(table, blanks):
    """Which old form of letters it is cannot be known: that is told, and the answer counts under the name as read."""
    answers, told = table(f"{HEAD}Inés,A7,{blanks[0]},,16\n".encode("mac-roman"))
    assert list(answers.values()) == [{blanks[0]: "16"}]
    assert told == [
        "answers.csv is not saved as UTF-8. It was read all the same. Check that names with accents look right."
    ]


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("ana,ZZ,{0},,3", "answers.csv, row 3: ZZ is not in this pack. The row was left out. Look at the sheet again."),
        ("ana,A7,../../x,,3", "answers.csv, row 3: ../../x is not in this pack. The row was left out. Look at the"),
        ("L03,B2,{0},,3", "answers.csv, row 3: sheet B2 is not the one of L03. The row was left out. Check both."),
        ("bo,A7,{0},,17", "answers.csv, row 3: {0} stands there twice. The later row was used. Keep one of them."),
        ("ana,A7,{0},,3,spare", "answers.csv, row 3: spare stands beyond the last column. Move it under a column"),
        ('ana,A7,{1},,"5 ft', "answers.csv, row 3: a quote mark is opened and never closed. Close it, or take it out."),
    ],
)
def test_a_row_that_cannot_be_used_is_told_and_the_others_count(table, blanks, row, says):
    """File, row, value and mend are named; the rows before and behind it count."""
    rows = [f"bo,A7,{blanks[0]},,16", row.format(*blanks), f"cy,A7,{blanks[1]},,12"]
    answers, told = table(HEAD + "\n".join(rows) + "\n")
    assert len(told) == 1
    assert told[0].startswith(says.format(*blanks))
    assert list(answers["bo", "A7"]) == [blanks[0]]
    assert answers["cy", "A7"] == {blanks[1]: "12"}


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (
            b"PK\x03\x04 a workbook",
            "answers.csv is not a plain text file. In the spreadsheet choose Save As, then CSV.",
        ),
        ("learner,answer\nana,3\n".encode("utf-16-le"), "answers.csv is not a plain text file. In the spreadsheet"),
        ("learner,answer\nana,3\n", "answers.csv has no column sheet_code, blank_id. Add it to the first row"),
        (HEAD.replace("question", "answer"), "answers.csv has the column answer more than once. Keep one of them."),
        ("x" * 9_000_000, "answers.csv has more than 8 MB. Keep only the rows of this class."),
        ("", "answers.csv has no column sheet_code, blank_id, answer."),
    ],
)
def test_a_table_that_cannot_be_read_is_one_sentence(table, data, says):
    """A workbook, a table without its columns and a file far too large are told by name."""
    answers, told = table(data)
    assert answers == {}
    assert len(told) == 1
    assert told[0].startswith(says)


def test_ten_thousand_rows_are_read_in_seconds_and_one_more_is_told(table, blanks):
    """Ten thousand answers are read, and all of them count; a longer table is one sentence."""
    rows = [f"learner-{number},A7,{blanks[0]},How many plants fit,{number}\n" for number in range(10_000)]
    start = time.perf_counter()
    answers, told = table(HEAD + "".join(rows))
    assert time.perf_counter() - start < 5
    assert (len(answers), told) == (10_000, [])
    assert answers["learner-9999", "A7"] == {blanks[0]: "9999"}
    answers, told = table(HEAD + "".join(rows) + rows[0])
    assert (answers, told) == ({}, ["answers.csv has more than 10000 rows. Keep only the rows of this class."])


def test_names_that_a_spreadsheet_guards_are_the_same_names(pack, blanks, put_in):
    """The apostrophe that keeps a spreadsheet from reading a name as a formula is no part of the name."""
    mine = pack.model_copy(update={"sheets": (pack.sheets[0].model_copy(update={"learner": "=cmd()"}),)})
    (put_in / "answers.csv").write_text(f"{HEAD}'=cmd(),A7,{blanks[0]},,'-3\n'=cmd(),A7,{blanks[1]},,12'\n")
    found = answers_from_csv(put_in / "answers.csv", mine)
    assert found.told == []
    assert found.answers == {("=cmd()", "A7"): {blanks[0]: "-3", blanks[1]: "12'"}}


@pytest.mark.parametrize("typed", ["12/4/2007", "4/12/07", "2007-12-04", "04.12.2007", "12-04-07"])
def test_a_code_that_a_spreadsheet_took_for_a_date_is_found(pack, blanks, put_in, typed):
    """Six digits in pairs may come back as a date: the one sheet with these numbers is meant, of two none is."""
    codes = ("12-04-07", "41-22-93", "93-41-22")
    sheets = tuple(pack.sheets[0].model_copy(update={"code": code}) for code in codes)
    mine = pack.model_copy(update={"sheets": sheets})
    rows = f"{HEAD}ana,{typed},{blanks[0]},,16\nbo,22/41/93,{blanks[0]},,16\n"
    (put_in / "answers.csv").write_text(rows)
    found = answers_from_csv(put_in / "answers.csv", mine)
    assert found.answers == {("ana", "12-04-07"): {blanks[0]: "16"}}
    assert [str(said).partition(". ")[0] for said in found.told] == ["answers.csv, row 3: 22/41/93 is not in this pack"]


# ---- plot files ----------------------------------------------------------------------------


@pytest.mark.parametrize("revisions", [(1, 4), (4, 1)])
def test_of_two_saves_of_one_plot_the_later_counts(plots, blanks, revisions):
    """The higher revision is the later save, whichever name it has; the sentence says which was used."""
    put, read = plots
    for name, revision in zip(("ana.json", "ana (1).json"), revisions, strict=True):
        put(name, {blanks[0]: str(revision)}, revision)
    used = "ana (1).json" if revisions == (1, 4) else "ana.json"
    answers, told = read()
    assert answers == {("ana", "A7"): {blanks[0]: "4"}}
    assert told == [f"ana (1).json and ana.json are the same work. {used} was used, as the later one."]


def test_the_same_plot_twice_counts_once(plots, blanks):
    """A copy of a file is told and changes nothing."""
    put, read = plots
    put("ana.json", {blanks[0]: "4"})
    put("ana - copy.json", {blanks[0]: "4"})
    answers, told = read()
    assert answers == {("ana", "A7"): {blanks[0]: "4"}}
    assert told == ["ana - copy.json and ana.json hold the same answers. They count once."]


def test_two_that_differ_and_neither_is_later_are_told_apart_by_asking(plots, blanks):
    """Where nothing says which is later, one is used and the sentence says which, and that it is to be asked."""
    put, read = plots
    put("l02.json", {blanks[0]: "4"}, code="B2")
    put("sorrel.json", {blanks[0]: "5"}, code="B2")
    answers, told = read()
    assert answers == {("L02", "B2"): {blanks[0]: "5"}}
    assert told == [
        "sorrel.json and l02.json differ, and neither is the later one. sorrel.json was used. Ask which one counts."
    ]


def test_two_learners_whose_files_have_one_name_both_count(plots, blanks):
    """A browser numbers files of one name: where the beds differ they are two learners' files, and both are marked."""
    put, read = plots
    put("my_plot.json", {blanks[0]: "4"}, 3, beds=[{"id": "a", "length_m": 3}])
    put("my_plot (1).json", {blanks[0]: "5"}, 9, beds=[{"id": "a", "length_m": 4}])
    answers, told = read()
    assert sorted(given[blanks[0]] for given in answers.values()) == ["4", "5"]
    assert len(told) == 1
    assert told[0].endswith("have like names but not the same beds. Each was marked. Name the files by learner.")


def test_what_is_no_plot_file_is_told_and_left_as_it_is(plots, blanks, put_in):
    """Half a file, a folder, a link to nowhere, a picture: each is told, none is touched, and the rest counts."""
    put, read = plots
    put("ana.JSON", {blanks[0]: "4", "03.zzz.1": "1"})
    put("old.json", {blanks[0]: "4"}, code="ZZ")
    put("none.json", {})
    put("only_pages.json", {blanks[0]: "4"}, code="page")
    (put_in / "half.json").write_text('{"version": 1, "ans')
    (put_in / "empty.json").write_text("")
    (put_in / "deep.json").write_text("[" * 100_000)
    (put_in / "folder.json").mkdir()
    (put_in / "gone.json").symlink_to(put_in / "nowhere.json")
    (put_in / "photo.jpg").write_bytes(b"\xff\xd8")
    (put_in / "bo").mkdir()
    (put_in / ".ana.json.lock").write_text("")
    answers, told = read()
    assert answers == {("ana", "A7"): {blanks[0]: "4"}}
    assert told[0] == "2 files were not read: bo, photo.jpg. Only plot files, answers.csv and tally.csv are."
    damaged = "cannot be read as a plot file. It was left as it is. Ask for it again."
    assert {said for said in told if said.endswith(damaged)} == {
        f"{name}.json {damaged}" for name in ("half", "empty", "deep", "folder", "gone")
    }
    strange = "has answers to a sheet that is not in this pack. Those were left out."
    assert {said for said in told if said.endswith(strange)} == {
        f"{name} {strange}" for name in ("ana.JSON", "old.json")
    }
    nothing = "has no answers to this pack."
    assert {said for said in told if said.endswith(nothing)} == {f"{n}.json {nothing}" for n in ("none", "only_pages")}
    assert (put_in / "half.json").read_text() == '{"version": 1, "ans'


def test_a_file_and_a_table_that_differ_are_told(plots, table, blanks, put_in):
    """The file's answer stands, the table adds what the file has not, and that they differ is told."""
    put, _ = plots
    put("ana.json", {blanks[0]: "4"})
    table(f"{HEAD}ana,A7,{blanks[0]},,5\nana,A7,{blanks[1]},,12\n")
    told = [str(said) for said in mark_pack(put_in.parent).told]
    assert told == ["Sheet A7 of ana came as a file and as a table, and they differ. The file was used."]


# ---- all of it at once ---------------------------------------------------------------------


def test_a_hostile_stack_is_marked_and_stays_in_its_folder(plots, table, blanks, put_in, capsys):
    """Markup, quotes, emoji, formulas, right-to-left script and path tricks: each is marked, nothing runs or leaves."""
    put, _ = plots
    put("ana.json", {blanks[0]: EVIL}, site={"notes": EVIL}, household={"people": 2})
    guarded = EVIL.replace('"', '""')
    table(f'{HEAD}../../evil,A7,{blanks[0]},,=cmd()\n"{guarded}",A7,{blanks[0]},,"{guarded}"\nbo,A7,{blanks[0]},,16\n')
    before = {path for path in put_in.parent.parent.rglob("*") if put_in.parent not in path.parents}
    assert main(["mark", str(put_in.parent)]) == 0
    said = capsys.readouterr()
    assert "Traceback" not in said.err
    assert {path for path in put_in.parent.parent.rglob("*") if put_in.parent not in path.parents} == before
    replies = [path for path in (put_in.parent / "marked").iterdir() if path.name.startswith("reply_")]
    assert len(replies) == 4
    assert {path.name for path in replies} >= {"reply_ana_A7.pdf", "reply_evil_A7.pdf", "reply_bo_A7.pdf"}
    assert all(path.read_bytes().startswith(b"%PDF") for path in replies)
    view = (put_in.parent / "marked" / "class_view.csv").read_text("utf-8-sig")
    assert not [cell for line in view.splitlines() for cell in line.split(",") if cell.startswith(("=", "+", "@"))]
    assert "ana" not in view.split(",")
