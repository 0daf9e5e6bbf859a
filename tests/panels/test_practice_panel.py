"""The fold "practice": the page's homework on the open plot, and a reply to each answer."""

import re
from dataclasses import replace
from math import floor
from pathlib import Path

import nbformat
import pytest

from gardenlib import homework, plot
from gardenlib.homework.looks import PARTS
from gardenlib.panels import practice
from gardenlib.problems import InputProblem

PAGES = sorted((Path(__file__).resolve().parents[2] / "notebooks").glob("0[1-7]*.ipynb"))
FOOT = 0.3048
LENGTH_IN, WIDTH_IN = 192, 48
BED = {"id": "mine", "length_m": 16 * FOOT, "width_m": 4 * FOOT}


def _open(session, page="03_beds"):
    fold = practice.fold(session, page)
    fold.opener.value = True
    return fold._body.children[0]


def _beds(open_session, rung=4, skill="03.fit", **how):
    """Open the fold of page 03 on a plot with a bed of 16 by 4 feet, all in cabbage."""
    session = open_session(**how)
    session.save("beds", [BED])
    session.save("household", {"eat": [{"crop": "cabbage_main"}]})
    box = _open(session)
    box.skill.value, box.rung.value = skill, rung
    return session, box


def _typed(box, text):
    """Type into the last box, check, and give the reply."""
    name = list(box.boxes)[-1]
    box.boxes[name].value = text
    box.check()
    return box.replies[name].value


def _all_html(widget):
    held = [str(getattr(widget, name, "")) for name in ("value", "description")]
    return " ".join(held + [_all_html(child) for child in getattr(widget, "children", ())])


def _spacing(box):
    """Read the distance that the question names, in inches."""
    return float(re.search(r"in squares, ([\d.]+) in", box.question.ask)[1])


def _fit(spacing):
    """Count by hand: half a distance stays free at each edge, then one plant more than the steps between them."""
    return (floor((LENGTH_IN - spacing) / spacing) + 1) * (floor((WIDTH_IN - spacing) / spacing) + 1)


def test_fold_is_closed_and_says_its_minutes(open_session):
    """The fold is built when it is opened, and its label carries the minutes."""
    fold = practice.fold(open_session(), "03_beds")
    assert "10 min" in fold.opener.description
    assert not fold._body.children


@pytest.mark.parametrize(("rung", "boxes", "asked"), [(1, 0, 0), (2, 1, 1), (3, 2, 2), (4, 1, 0)])
def test_each_rung_leaves_more_to_the_learner(open_session, rung, boxes, asked):
    """A full example, then the last result, then the last two, then the question alone."""
    _, box = _beds(open_session, rung)
    words = _all_html(box)
    assert len(box.boxes) == boxes
    assert words.count(" = <b>?</b>") == asked
    assert ("<code>" in words) == (rung < 4)
    assert (f"= <b>{_fit(_spacing(box))}</b>" in words) == (rung == 1)


def test_right_answer_holds(open_session):
    """The plants that fit, counted by hand, are answered with yes."""
    _, box = _beds(open_session)
    reply = _typed(box, str(_fit(_spacing(box))))
    assert "gl-good" in reply
    assert "Yes." in reply


def test_known_mistake_is_named_with_the_place_to_look(open_session):
    """Plants set onto both edges are one more in each row and one row more; the reply says so and where to look."""
    _, box = _beds(open_session)
    spacing = _spacing(box)
    reply = _typed(box, str((floor(LENGTH_IN / spacing) + 1) * (floor(WIDTH_IN / spacing) + 1)))
    slip = next(slip for slip in box.question.blanks[-1].slips if slip.id == "no_margin")
    assert "Look again." in reply
    assert slip.reply in reply
    assert "How many fit?" in reply


def test_other_answer_is_sent_back_to_the_steps(open_session):
    """An answer that no known mistake gives is not called anything but to be looked at again."""
    _, box = _beds(open_session)
    assert "Look again." in _typed(box, "100000")


def test_unclear_answer_is_asked_back(open_session):
    """What has two readings, or none, is asked back and not marked."""
    _, box = _beds(open_session)
    reply = _typed(box, "20 or 30 <b>beans</b>")
    assert "You wrote 20 or 30" in reply
    assert "Look again." not in reply
    assert "<b>" not in reply


def test_empty_box_is_a_state_of_its_own(open_session):
    """Nothing typed is neither right nor to be looked at again."""
    _, box = _beds(open_session)
    assert "Nothing stands here yet" in _typed(box, " ")


def test_reply_goes_when_the_answer_changes(open_session):
    """A reply never stands beside another answer than the one it is about."""
    _, box = _beds(open_session)
    assert _typed(box, "100000")
    next(iter(box.boxes.values())).value = "7"
    assert next(iter(box.replies.values())).value == ""


def test_answers_and_choices_come_back(open_session):
    """After a fresh start skill, rung and what was typed are as they were left, unchecked."""
    session, box = _beds(open_session, rung=3)
    first = next(iter(box.boxes))
    box.boxes[first].value = "about 3"
    assert plot.read(session.path).answers[f"homework.page.{first}"]["text"] == "about 3"
    again = _open(open_session())
    assert (again.skill.value, again.rung.value) == ("03.fit", 3)
    assert again.question == box.question
    assert again.boxes[first].value == "about 3"
    assert again.replies[first].value == ""


def test_looking_at_the_example_loses_nothing(open_session):
    """Going to the full example and back leaves what was typed."""
    _, box = _beds(open_session)
    _typed(box, "31")
    box.rung.value = 1
    box.rung.value = 4
    assert box.boxes["03.fit.4.5"].value == "31"


def test_other_numbers_are_another_question(open_session):
    """With another bed the box is empty; with the first bed again the answer is back."""
    session, box = _beds(open_session)
    _typed(box, "31")
    ask = box.question.ask
    session.save("beds", [{**BED, "length_m": 20 * FOOT}])
    assert box.question.ask != ask
    assert box.boxes["03.fit.4.5"].value == ""
    session.save("beds", [BED])
    assert box.boxes["03.fit.4.5"].value == "31"


def test_another_plot_has_its_own_answers(open_session):
    """After another plot is opened nothing of the first is left, and opening the first brings it back."""
    session, box = _beds(open_session)
    _typed(box, "31 of them")
    first, ask = session.path, box.question.ask
    session.load(first.with_name("other.json"))
    assert box.rung.value == 1
    assert "31 of them" not in _all_html(box)
    assert box.question.ask != ask
    session.load(first)
    assert box.rung.value == 4
    assert box.boxes["03.fit.4.5"].value == "31 of them"


def test_markup_is_escaped(open_session):
    """Words of a class that hold markup are shown as they are."""
    session, box = _beds(open_session, rung=3)
    session.klass = replace(session.klass, words_local={"homework.from_step": "<i>{number}</i>"})
    box.ask()
    words = _all_html(box)
    assert "&lt;i&gt;4&lt;/i&gt;" in words
    assert "<i>" not in words


def test_caution_stands_before_the_numbers(open_session):
    """Where work can hurt, its caution comes before the question."""
    box = _open(open_session(), "02_soil")
    box.skill.value = "02.lime"
    words = _all_html(box)
    assert "children away" in words
    assert words.index("gl-caution") < words.index("works like pure lime")


def test_drawing_has_its_words(open_session):
    """A drawing is shown with the same in words."""
    _, box = _beds(open_session)
    assert re.search(r'<svg role="img" aria-label="The bed to scale, 16 ft by 4 ft', _all_html(box))


def test_no_bed_is_one_sentence(open_session):
    """Where a question cannot be set one sentence says why, and another skill can be chosen."""
    session = open_session()
    session.klass = replace(session.klass, plots={})
    box = _open(session)
    assert "No bed was measured" in box.message.value
    assert box.question is None
    session.save("beds", [BED])
    assert box.message.value == ""
    assert box.question.skill.id == "03.fit"


def test_file_that_cannot_be_saved_is_one_sentence(open_session, monkeypatch):
    """What was typed stays in its box, and the sentence stands beside it."""
    session, box = _beds(open_session)

    def refuse(*_):
        raise InputProblem("plot.unwritable", file="my_plot.json", folder="there")

    monkeypatch.setattr(session, "save", refuse)
    name = next(iter(box.boxes))
    box.boxes[name].value = "31"
    assert "cannot be saved" in box.replies[name].value
    assert box.boxes[name].value == "31"


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_every_place_to_look_is_named_as_on_its_page(open_session, page):
    """What a reply sends to is a heading of the page, or a part whose own name it is."""
    session = open_session()
    book = nbformat.read(page, as_version=4)
    heads = {cell.source.split("\n")[0].removeprefix("## ") for cell in book.cells if cell.cell_type == "markdown"}
    box = _open(session, page.stem)
    box.rung.value, looks = 3, set()
    for _, skill in box.skill.options:
        box.skill.value = skill
        looks |= {look for blank in box.question.blanks for look in (blank.look, *(slip.look for slip in blank.slips))}
    assert looks
    for look in looks:
        key = PARTS[look]
        assert look[:2] == page.stem[:2]
        assert (session.voice.say(key) in heads) or not key.startswith("practice.")


def test_every_page_has_the_fold():
    """Each page from 01 on sets its own homework before the key points."""
    for page in PAGES:
        cells = nbformat.read(page, as_version=4).cells
        place = [cell.id for cell in cells].index("practice")
        assert f'panels.practice.fold(session, "{page.stem}")' in cells[place].source
        assert cells[place + 1].source.startswith("## Key points")
        assert homework.question_ids(page.stem)


def test_answers_to_a_printed_sheet_are_marked_from_the_plot_file(open_session, tmp_path):
    """What is typed under a sheet's code is found in the plot file that is handed in, and holds."""
    session, box = _beds(open_session, rung=2)
    box.on_sheet.value, box.code.value = True, "04 12 33"
    (name,) = box.boxes
    ground = homework.ground_for(session.klass, code="04-12-33", year=session.year)
    question = homework.set_question("03.fit.2", ground)
    pack = homework.PackRecord(
        library="0",
        class_title="Invented",
        made_on="2027-02-01",
        session="one",
        show_scores=False,
        invented=True,
        sheets=(homework.sheet_record([question], ground),),
    )
    box.boxes[name].value = question.working[-1].result
    (tmp_path / "in").mkdir()
    (tmp_path / "in" / "ana.json").write_bytes(session.path.read_bytes())
    (marked,) = homework.answers_from_plots(tmp_path / "in", pack).marked(pack)
    assert (marked.learner, marked.marks[name].state) == ("ana", "holds")


@pytest.mark.parametrize("typed", ["", "04-12", "041233x", "04-12-3３"])
def test_a_code_that_is_none_gets_one_sentence(open_session, typed):
    """Six digits are asked for, and nothing can be typed under another code."""
    _, box = _beds(open_session)
    box.code.value, box.on_sheet.value = typed, True
    assert "six digits" in box.message.value
    assert box.boxes == {}
