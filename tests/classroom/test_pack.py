"""A pack: two sides a sheet, no answer in a learner's file, the key proved, and nothing lost."""

import csv
import re
import shutil
import subprocess
from datetime import date
from pathlib import Path

import pytest

from gardenlib import InputProblem
from gardenlib.classroom.pack_codes import Codes
from gardenlib.classroom.pack_names import file_name
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


@pytest.mark.parametrize(("kind", "paper"), [("plot", "a4"), ("pair", "us-letter")])
def test_large_print_is_one_paper_too(klass, tmp_path, kind, paper):
    """Sheets of one's own and sheets for two fit on two sides in large print, with fewer questions where need be."""
    _names(klass, "L1,Juniper,en,plot-1", "L2,Sorrel,es,plot-2")
    made = pack(klass, tmp_path / "out", today=TODAY, session=2, kind=kind, paper=paper, large=True)
    for path in (made.folder / "learners").iterdir():
        assert _pages(path) <= 2


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
    text = (klass / "class_plot.json").read_text("utf-8")
    (klass / "class_plot.json").write_text(text.replace('"tomato"', '"tomatto"'), "utf-8")
    with pytest.raises(InputProblem, match=r"class_plot\.json: crops: .*tomatto"):
        pack(klass, tmp_path / "out", today=TODAY)
    (klass / "class_plot.json").write_text(text, "utf-8")
    _names(klass)
    with pytest.raises(InputProblem, match="no learners"):
        pack(klass, tmp_path / "out", today=TODAY, kind="plot")
    _names(klass, "L1,A,en,", "L1,B,en,")
    with pytest.raises(InputProblem, match="L1"):
        pack(klass, tmp_path / "out", today=TODAY)
    _names(klass, *(f"L{number},A,en," for number in range(10_001)))
    with pytest.raises(InputProblem, match="rows"):
        pack(klass, tmp_path / "out", today=TODAY)
    assert not (tmp_path / "out").exists()


def test_names_in_other_scripts_and_with_quotes(klass, tmp_path):
    """Quotes are letters; a name that print lacks gives way to the id, and where that lacks letters too, to a line."""
    _names(
        klass, 'L1,"Jo ""Bee"" O\'Hara",en,', "L2,\U0001f33b Ana,en,", "L3,\u05d3\u05e0\u05d4,en,", "\u738b,\u738b,en,"
    )
    made = pack(klass, tmp_path / "out", today=TODAY, session=2)
    first, second, third, fourth = map(_text, sorted((made.folder / "learners").iterdir()))
    assert 'Jo "Bee" O\'Hara' in first
    assert re.search(r"Name: L2\b", second)
    assert re.search(r"Name: \W*(L3\b|\u05d3\u05e0\u05d4)", third)
    assert re.search(r"Name: +\d\d-\d\d-\d\d", fourth)
    assert "pack.name_blank" in {said.key for said in made.told}


def test_a_long_name_keeps_the_sheet_on_its_paper(klass, tmp_path):
    """Whether the questions fit is tried with the longest name of the class."""
    _names(klass, "L1,A,en,", f"L2,{'Wilhelmina ' * 9},en,")
    made = pack(klass, tmp_path / "out", today=TODAY, session=2)
    assert all(_pages(path) <= 2 for path in (made.folder / "learners").iterdir())


@pytest.mark.parametrize("learner_id", ["../../x", "..", "C:\\a", "/etc/x", "a\0b", "x" * 300, "CON", "\u202ex", ""])
def test_no_id_leads_a_file_astray(learner_id):
    """The name of a file is its place and plain letters, whatever the id; two ids never have one name."""
    assert re.fullmatch(r"0007(_[A-Za-z0-9-]{1,40})?\.pdf", file_name(7, learner_id))
    assert file_name(7, learner_id) != file_name(8, learner_id)


def test_a_thousand_learners_have_a_thousand_codes():
    """Six digits meet by chance in a large class; each code is still there once, and the same the next time."""
    made, again = Codes("class", "2027-03-06", "plot"), Codes("class", "2027-03-06", "plot")
    codes = [made.of(f"L{number}") for number in range(3000)]
    assert len(set(codes)) == 3000
    assert codes == [again.of(f"L{number}") for number in range(3000)]


def test_a_class_without_learners_gets_one_sheet_to_copy(klass, tmp_path):
    """Where nobody is on the list there is one sheet, with a line for the name, and its key."""
    _names(klass)
    made = pack(klass, tmp_path / "out", today=TODAY, session=2)
    (path,) = (made.folder / "learners").iterdir()
    assert re.search(r"Name: +\d\d-\d\d-\d\d", _text(path))
    assert (made.folder / "key" / "key_1.pdf").exists()


def test_a_class_without_crops_is_one_sentence(klass, tmp_path):
    """Without a crop no question can be set; that is said, and not even the folder for packs is made."""
    settings = re.sub(r"(?m)^crops = .*$", "crops = []", (klass / "class.toml").read_text("utf-8"))
    (klass / "class.toml").write_text(settings, "utf-8")
    with pytest.raises(InputProblem, match="crops is empty"):
        pack(klass, today=TODAY, session=2)
    assert not (klass / "packs").exists()


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


def test_a_class_of_two_languages_has_the_same_questions(klass, tmp_path):
    """Each language has its sheet, code and key; questions and numbers are the same, so that all can talk of them."""
    _names(klass, "L1,Juniper,en,", "L2,Sorrel,es,")
    made = pack(klass, tmp_path / "out", today=TODAY, session=2)
    english, spanish = PackRecord.read(made.folder / "key" / "record.json").sheets
    assert (english.language, spanish.language) == ("en", "es")
    assert english.code != spanish.code
    assert [question.id for question in english.questions] == [question.id for question in spanish.questions]
    both = [sheet.blanks() for sheet in (english, spanish)]
    assert [(b.id, b.low, b.first) for b in both[0].values()] == [(b.id, b.low, b.first) for b in both[1].values()]


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


def test_the_systems_own_folder_cannot_be_written(klass):
    """Where the system lets nobody write, one sentence says so."""
    with pytest.raises(InputProblem, match="cannot be written"):
        pack(klass, "/proc/gardenlib_out", today=TODAY, session=2)


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
