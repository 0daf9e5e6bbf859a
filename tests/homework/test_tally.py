"""The table of counts: one row for each reason at each question, read back as it was written."""

import csv
import io
from datetime import date
from pathlib import Path

import pytest

from gardenlib import InputProblem, class_folder
from gardenlib.homework import PackRecord, ground_for, set_question, sheet_record, tally_from_csv, write_templates
from gardenlib.homework.reasons import foreseen
from gardenlib.homework.tally import keep_tally

KLASS = class_folder.read(Path(__file__).resolve().parents[2] / "data_demo")


@pytest.fixture(scope="module")
def pack():
    """Make the record of one sheet with a full example and two questions."""
    ground = ground_for(KLASS, code="A7", year=2027)
    sheet = sheet_record([set_question(f"03.fit.{rung}", ground) for rung in (1, 3, 4)], ground)
    return PackRecord(library="0", class_title="c", made_on=date(2027, 3, 1), sheets=(sheet,))


def _read(path):
    return list(csv.DictReader(io.StringIO(path.read_text("utf-8-sig"))))


def test_each_question_can_be_counted_by_every_reason(pack):
    """It holds, each foreseen mistake of each step, another one, nothing written; the example has none."""
    reasons = foreseen(pack)
    assert {question for question, _ in reasons} == {"03.fit.3", "03.fit.4"}
    for number, question in pack.sheets[0].numbered()[1:]:
        mine = [one for one in reasons.values() if one.question == question.id]
        slips = {slip.id for blank in question.blanks for slip in blank.slips}
        assert {one.number for one in mine} == {number}
        assert mine[0].reason == "holds"
        assert [one.reason for one in mine[-2:]] == ["other", "nothing"]
        assert {one.reason for one in mine[1:-2]} == slips


def test_what_is_kept_stands_in_the_rows_of_the_template(pack, tmp_path):
    """A kept count is the template of the pack with numbers in its last column, none where nothing was counted."""
    _, template = write_templates(tmp_path, pack)
    empty = _read(template)
    kept = tmp_path / "handed_in" / "tally.csv"
    assert keep_tally(kept, pack, {("03.fit.4", "holds"): 4, ("03.fit.4", "nothing"): 6}, seen={}) is None
    rows = _read(kept)
    assert [{**row, "how_many": ""} for row in rows] == empty
    assert sorted(row["how_many"] for row in rows if row["how_many"]) == ["4", "6"]
    assert [row.n for row in tally_from_csv(kept, pack)[0]] == [4, 6]


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("03.fit.4,holds,4.5", "Write a whole number"),
        ("03.fit.4,holds,many", "how_many is many"),
        ("03.fit.4,holds,-3", "from 0 to 1000"),
        ("04.seeds.4,holds,3", "is not in this pack"),
    ],
)
def test_a_row_that_cannot_be_used_is_named_and_the_others_count(pack, tmp_path, row, says):
    """Half an answer, words, less than none and another pack's question are told with file and row."""
    path = tmp_path / "tally.csv"
    path.write_text(f"question,reason_id,how_many\n{row}\n03.fit.4,nothing,2\n", "utf-8")
    counted, told = tally_from_csv(path, pack)
    assert [(one.reason, one.n) for one in counted] == [("nothing", 2)]
    assert len(told) == 1
    assert "tally.csv, row 2" in str(told[0])
    assert says in str(told[0])


def test_a_count_without_a_place_to_be_written_is_one_sentence(pack, tmp_path):
    """A file where the folder should be: the sentence names the folder, and the file stays."""
    (tmp_path / "handed_in").write_text("mine", "utf-8")
    with pytest.raises(InputProblem, match="handed_in"):
        keep_tally(tmp_path / "handed_in" / "tally.csv", pack, {}, seen={})
    assert (tmp_path / "handed_in").read_text("utf-8") == "mine"
