"""Marking a pack: the reply page, the count of a class in two languages, and what to say next."""

import re
import subprocess
from datetime import date
from pathlib import Path

import pytest

from gardenlib import class_folder
from gardenlib.homework import PackRecord, class_view, ground_for, marked_sheet, set_question, sheet_record
from gardenlib.homework.class_words import finding, next_meeting
from gardenlib.homework.looks import where
from gardenlib.homework.replies import mark_pack
from gardenlib.homework.tally import Tallied
from gardenlib.words import Voice

DEMO = Path(__file__).resolve().parents[2] / "data_demo"
KLASS = class_folder.read(DEMO)
EN, ES = Voice(language="en"), Voice(language="es")


def _sheet(code="A7", voice=EN, questions=("03.fit.1", "03.fit.3", "03.fit.4"), learner=""):
    ground = ground_for(KLASS, code=code, year=2027, voice=voice)
    return sheet_record([set_question(question, ground) for question in questions], ground, learner=learner)


def _pack(*sheets):
    how = {"library": "0", "class_title": "c", "session": "March", "made_on": date(2027, 3, 1)}
    return PackRecord(**how, sheets=sheets)


@pytest.fixture
def marked(tmp_path):
    """Give a way to mark sheets of a pack from what was typed off them."""

    def mark(sheets, *rows):
        for part in ("key", "handed_in"):
            (tmp_path / part).mkdir()
        _pack(*sheets).save(tmp_path / "key" / "record.json")
        head = "learner,sheet_code,blank_id,answer\n"
        lines = "".join(f'{who},{code},{blank},"{text}"\n' for who, code, blank, text in rows)
        (tmp_path / "handed_in" / "answers.csv").write_text(head + lines, "utf-8")
        return mark_pack(tmp_path)

    return mark


def _text(found, name):
    command = ["pdftotext", "-layout", str(found.folder / name), "-"]
    return subprocess.run(command, check=True, capture_output=True).stdout.decode().replace("\u200b", "")


def _rows(sheet, learner, **instead):
    """Answer a sheet: as its key says, or as is given for a blank by the last two parts of its id."""
    for blank in sheet.blanks().values():
        yield learner, sheet.code, blank.id, instead.get("_".join(["b", *blank.id.split(".")[2:]]), blank.shown)


def test_a_reply_names_question_step_and_where_to_look(marked):
    """Question and step are numbered as on the sheet; page and part stand in words; empty is a state of its own."""
    sheet = _sheet()
    first, last, alone = sheet.blanks().values()
    slip = alone.slips[0]
    step = int(last.id.rpartition(".")[2])
    given = {f"b_3_{step}": "zebra", f"b_4_{alone.id.rpartition('.')[2]}": slip.shown}
    found = marked((sheet,), *[row for row in _rows(sheet, "ana", **given) if row[2] != first.id])
    (name,) = found.replies
    text = _text(found, name)
    assert f"Question 2, step {step}" in text
    assert "You wrote zebra." in text
    assert re.search(rf"Question 3\n.*{re.escape(slip.reply.split('.')[0])}", text, re.S)
    assert f"page {slip.look[:2]}, “" in text
    assert slip.look not in text
    assert "1 answer is still empty" in text


@pytest.mark.parametrize(("typed", "says"), [("right", "All your answers hold"), ("", "Your work was read.")])
def test_a_reply_without_anything_to_look_at(marked, typed, says):
    """All right is said so; work with one answer and nothing else names what is empty and praises nothing."""
    sheet = _sheet()
    rows = list(_rows(sheet, "ana"))
    found = marked((sheet,), *(rows if typed else rows[:1]))
    text = _text(found, found.replies[0])
    assert says in text
    assert ("still empty" in text) == ("All your answers" not in text)
    assert "Question" not in text


def test_replies_lie_singly_and_in_a_stack_for_each_language(marked):
    """Two languages: a file for each learner, and two stacks; the Spanish reply is Spanish throughout."""
    sheets = _sheet(learner="L1"), _sheet("K2", ES, learner="L2"), _sheet("B3", learner="L3")
    found = marked(sheets, *(row for sheet in sheets for row in _rows(sheet, "", b_4_4="zebra", b_3_4="zebra")))
    assert sorted(found.replies) == ["reply_L1_A7.pdf", "reply_L2_K2.pdf", "reply_L3_B3.pdf"]
    assert found.stacks == ("replies_1.pdf", "replies_2.pdf")
    assert [_text(found, name).count("Reply for L") for name in found.stacks] == [2, 0]
    spanish = _text(found, "reply_L2_K2.pdf")
    assert "Comentarios para L2" in spanish
    assert not re.search(r"\b(Your|Question|Look|page)\b", spanish)


def test_who_holds_a_sheet_is_known_by_id_in_any_letters(marked):
    """An id in small letters and a code without dashes are read; an id that got no sheet, and none, are told once."""
    sheet = _sheet("04-12-27").model_copy(update={"holders": ("L01", "L02")})
    plain = sheet.model_copy(update={"code": "041227"})
    rows = [*_rows(sheet, "L01"), *_rows(plain, "l02"), *_rows(sheet, "L99"), *_rows(sheet, "")]
    found = marked([sheet], *rows)
    assert {"reply_L01_04-12-27.pdf", "reply_L02_04-12-27.pdf"} < set(found.replies)
    assert [said.key.rpartition(".")[2] for said in found.told] == ["stranger", "no_learner"]
    assert found.told[0].values["learner"] == "L99"


def test_nothing_that_can_be_used_leaves_what_was_marked(marked):
    """An empty table, filled in where there was a good one, writes no empty view over the one before, and says so."""
    sheet = _sheet()
    found = marked([sheet], *_rows(sheet, "L01"))
    before = (found.folder / "class_view.csv").read_bytes()
    table = found.folder.parent / "handed_in" / "answers.csv"
    table.write_text("learner,sheet_code,blank_id,answer\nL01,A7,03.fit.3.5,\n", "utf-8")
    again = mark_pack(found.folder.parent)
    assert again.done.key == "review.none_marked"
    assert [said.key for said in again.told] == ["homework.handed.no_answers"]
    assert (found.folder / "class_view.csv").read_bytes() == before


def test_one_question_in_two_languages_is_one_row():
    """A class that works in two languages is counted together, in the words of whoever reads the view."""
    sheets = _sheet("A7"), _sheet("K2", ES)
    marks = [marked_sheet(sheet, dict(row[2:] for row in _rows(sheet, ""))) for sheet in sheets]
    for voice, title in ((EN, sheets[0].questions[1].title), (ES, sheets[1].questions[1].title)):
        view = class_view(marks, pack=_pack(*sheets), voice=voice)
        assert list(view["question"]) == ["03.fit.3", "03.fit.4"]
        assert set(view["title"]) == {title}
        assert list(view["n"]) == list(view["of"]) == [2, 2]
        assert set(view["reply"]) == {voice.say("homework.reason.holds")}


def _counted(question, reason, n, look="03.count"):
    return Tallied(question, 1, "Count the plants", reason, f"You did {reason}.", look, n)


def test_the_two_most_frequent_slips_are_for_the_next_meeting():
    """A slip counts over all questions of a skill: 3 and 4 are 7, before 5 and 2; what nobody foresaw is left out."""
    counts = [("03.fit.2", "path", 3), ("03.fit.4", "path", 4), ("03.fit.4", "rows", 5), ("03.pots.4", "round", 2)]
    counts += [("03.fit.4", "other", 40), ("03.fit.4", "nothing", 50), ("03.fit.4", "holds", 60)]
    view = class_view([], [_counted(*count) for count in counts])
    said = [Voice().say(line) for line in next_meeting(view)]
    assert [re.search(r"\d+ times: You did \w+", line)[0] for line in said] == [
        "7 times: You did path",
        "5 times: You did rows",
    ]
    assert all("Look again at page 03, “" in line for line in said)


def test_the_finding_names_the_reason_made_most():
    """6 of 10 forgot the path: question, count and reason; with nothing astray, or nothing at all, that is said."""
    view = class_view([], [_counted("03.count.2", "holds", 4), _counted("03.count.2", "path", 6)])
    assert Voice().say(finding(view)) == "Most to look at again: 03.count.2, Count the plants. 6 of 10: You did path."
    assert Voice().say(finding(view[view["reason"] == "holds"])).startswith("Nothing to look at again")
    assert Voice().say(finding(class_view([]))).startswith("No answer could be used")


def test_work_and_a_count_together_are_named(marked, tmp_path):
    """Sheets and a count of the same pile would count twice: a line says so."""
    sheet = _sheet()
    found = marked((sheet,), *_rows(sheet, "ana"))
    assert found.told == ()
    blank = next(iter(sheet.questions[1].blanks)).id.rpartition(".")[0]
    (tmp_path / "handed_in" / "tally.csv").write_text(f"question,reason_id,how_many\n{blank},holds,3\n", "utf-8")
    again = mark_pack(tmp_path)
    assert "counts twice" in " ".join(map(str, again.told))
    assert again.view["of"].max() == 4


def test_a_part_that_a_page_has_no_longer_is_its_page():
    """A pack printed by another version may send to a part that is not known: the page is named."""
    assert Voice().say(where("03.gone")) == "Look again at page 03."
    assert "“" in Voice().say(where("03.count"))
