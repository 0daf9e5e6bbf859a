"""A pack: two sides a sheet, no answer in a learner's file, the key proved, and nothing lost."""

import csv
import re
import shutil
import subprocess
from datetime import date
from pathlib import Path

import pytest

from gardenlib import InputProblem
from gardenlib.classroom.pack_print import pack
from gardenlib.homework import PackRecord, check_key
from gardenlib.homework.replies import mark_pack

DEMO = Path(__file__).resolve().parents[2] / "data_demo"
TODAY = date(2027, 2, 1)


@pytest.fixture
def klass(tmp_path):
    """Copy the demo class."""
    return Path(shutil.copytree(DEMO, tmp_path / "class"))


def _names(klass, *rows):
    text = "id,display_name,language,plot\n" + "\n".join(rows) + "\n"
    (klass / "learners.csv").write_text(text, "utf-8")


def _pages(path):
    return len(re.findall(rb"/Type/Page\b(?!s)", path.read_bytes()))


def _text(path):
    return subprocess.run(["pdftotext", "-layout", path, "-"], check=True, capture_output=True).stdout.decode()


@pytest.mark.parametrize(("kind", "paper", "large"), [("class", "a4", False), ("class", "us-letter", True)])
def test_each_sheet_is_one_paper_with_its_code(klass, tmp_path, kind, paper, large):
    """Two sides at most, with name and code; the key and the record lie apart."""
    made = pack(klass, tmp_path / "out", today=TODAY, session=2, kind=kind, paper=paper, large=large)
    files = sorted((made.folder / "learners").iterdir())
    record = PackRecord.read(made.folder / "key" / "record.json")
    assert len(files) == made.sheets == 4
    for path in files:
        assert _pages(path) <= 2
        assert record.sheets[0].code in _text(path)
    assert "Juniper" in _text(files[0])
    kept_apart = {"answers.csv", "key_1.pdf", "record.json", "self_check_1.pdf", "tally.csv"}
    assert {path.name for path in (made.folder / "key").iterdir()} == kept_apart


@pytest.mark.parametrize("kind", ["class", "plot"])
def test_no_learner_file_holds_a_key(klass, tmp_path, kind):
    """Nowhere in a learner's file stands the result of a step that is asked, nor the record's words."""
    made = pack(klass, tmp_path / "out", today=TODAY, session=2, kind=kind)
    record = PackRecord.read(made.folder / "key" / "record.json")
    seen = 0
    for path in (made.folder / "learners").iterdir():
        text, raw = _text(path), path.read_bytes()
        sheet = next(one for one in record.sheets if one.code in text)
        results = set(re.findall(r"  +(\S.*?)$", text, re.MULTILINE))
        for blank in sheet.blanks().values():
            assert blank.shown not in results
            assert all(slip.reply not in text for slip in blank.slips)
            seen += 1
        assert b"record.json" not in raw
        assert b"accepted" not in raw
    assert seen > 4


def test_the_key_passes_its_own_marking(klass, tmp_path):
    """Each answer of the record holds when it is marked, and codes are each used once."""
    made = pack(klass, tmp_path / "out", today=TODAY, session=2, kind="plot")
    sheets = PackRecord.read(made.folder / "key" / "record.json").sheets
    assert len({sheet.code for sheet in sheets}) == len(sheets) == 4
    for sheet in sheets:
        assert re.fullmatch(r"\d\d-\d\d-\d\d", sheet.code)
        check_key(sheet)


def test_a_key_that_fails_writes_nothing(klass, tmp_path, monkeypatch):
    """Where marking does not accept the key there is no pack, and the earlier one stays."""
    made = pack(klass, tmp_path / "out", today=TODAY, session=2)
    before = (made.folder / "key" / "record.json").read_bytes()
    monkeypatch.setattr("gardenlib.classroom.pack_questions.mark", lambda *_, **__: type("M", (), {"slip": "other"}))
    with pytest.raises(InputProblem, match=r"\d\d\.\w+"):
        pack(klass, tmp_path / "out", today=TODAY, session=2)
    assert (made.folder / "key" / "record.json").read_bytes() == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["class", "out"]


def test_the_earlier_pack_is_kept(klass, tmp_path):
    """A second print keeps the first beside it; a folder with other files is not touched."""
    for _ in range(2):
        pack(klass, tmp_path / "out", today=TODAY, session=2)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["class", "out", "out.before-1"]
    with pytest.raises(InputProblem, match="holds other files"):
        pack(klass, klass, today=TODAY, session=2)


def test_names_are_printed_as_they_are_or_as_the_id(klass, tmp_path):
    """Markup and formulas are letters; what the typeface lacks is said, and an id cannot leave the folder."""
    _names(klass, "../../x,#panic(1) *b*,en,", "L2,=cmd(),en,", "L3,\u738b,en,", "L4,\u202eabc,en,")
    made = pack(klass, tmp_path / "out", today=TODAY, session=2)
    files = sorted((made.folder / "learners").iterdir())
    assert [path.name for path in files] == ["0001_x.pdf", "0002_L2.pdf", "0003_L3.pdf", "0004_L4.pdf"]
    assert "#panic(1) *b*" in _text(files[0])
    assert "=cmd()" in _text(files[1])
    assert "L3" in _text(files[2])
    assert [said.key for said in made.told] == ["pack.name_as_id"]


def test_what_cannot_be_printed_is_one_sentence(klass, tmp_path):
    """No such session, no learners, too many rows, an id twice."""
    with pytest.raises(InputProblem, match="no session 9"):
        pack(klass, tmp_path / "out", today=TODAY, session=9)
    _names(klass)
    with pytest.raises(InputProblem, match="no learners"):
        pack(klass, tmp_path / "out", today=TODAY, kind="plot")
    _names(klass, "L1,A,en,", "L1,B,en,")
    with pytest.raises(InputProblem, match="L1"):
        pack(klass, tmp_path / "out", today=TODAY)
    _names(klass, *(f"L{number},A,en," for number in range(10_000)))
    with pytest.raises(InputProblem, match="rows"):
        pack(klass, tmp_path / "out", today=TODAY)
    assert not (tmp_path / "out").exists()


def test_two_learners_share_a_sheet(klass, tmp_path):
    """Pairs: half as many files, each with both names, two sides and one code."""
    made = pack(klass, tmp_path / "out", today=TODAY, session=2, kind="pair")
    files = sorted((made.folder / "learners").iterdir())
    sheets = PackRecord.read(made.folder / "key" / "record.json").sheets
    assert len(files) == len(sheets) == made.sheets == 2
    assert "Juniper + " in _text(files[0])
    for path, sheet in zip(files, sheets, strict=True):
        assert _pages(path) <= 2
        assert sheet.code in _text(path)


def test_a_large_class_is_printed_in_files_of_sixty(klass, tmp_path):
    """61 learners: 61 files, and a stack of 60 and one of 1; progress counts them all."""
    _names(klass, *(f"L{number},Name {number},en," for number in range(61)))
    told = []
    made = pack(klass, tmp_path / "out", today=TODAY, session=2, progress=lambda *counts: told.append(counts))
    assert len(list((made.folder / "learners").iterdir())) == made.sheets == 61
    assert sorted(path.name for path in (made.folder / "print").iterdir()) == ["sheets_1.pdf", "sheets_2.pdf"]
    assert told == [(done, 61) for done in range(1, 62)]
    assert _pages(made.folder / "print" / "sheets_2.pdf") <= 2
    assert "Name 59" in _text(made.folder / "print" / "sheets_1.pdf")


def test_a_folder_below_a_file_cannot_be_written(klass, tmp_path):
    """Where no folder can be made there is one sentence, and nothing is left over."""
    (tmp_path / "file").write_text("x")
    with pytest.raises(InputProblem, match="cannot be written"):
        pack(klass, tmp_path / "file" / "out", today=TODAY, session=2)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["class", "file"]


def test_a_class_sheet_has_a_line_for_each_learner_who_holds_it(tmp_path):
    """The file to type answers into names all learners; what two of them typed is told apart."""
    made = pack(DEMO, tmp_path / "out", today=TODAY, session=2)
    with (made.folder / "key" / "answers.csv").open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    assert {row["learner"] for row in rows} == {"L01", "L02", "L03", "L04"}
    put_in = made.folder / "handed_in"
    put_in.mkdir()
    rows[0]["answer"] = "999"
    with (put_in / "answers.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]))
        writer.writeheader()
        writer.writerows(rows[:1])
    assert mark_pack(made.folder).sheets == 1
    assert [path.name for path in (made.folder / "marked").glob("reply_L01_*.pdf")] != []
