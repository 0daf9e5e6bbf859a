"""No answer in a learner's file: every answer of the key is looked for in every sheet of every kind."""

import re
import shutil
from datetime import date
from pathlib import Path

import pytest
from pack_reader import HEAD, flowing, hidden_words, holds, questions, record_of, sheet_of, sides

from gardenlib.classroom.pack_print import pack
from gardenlib.words import Voice

DEMO = Path(__file__).resolve().parents[2] / "data_demo"
KINDS = {"class": 2, "plot": 2, "pair": 1}  # with the session whose homework is printed
LEARNERS = "id,display_name,language,plot\nL1,Juniper,en,plot-1\nL2,Sorrel,es,plot-2\nL3,Linden,en,plot-3\n"


@pytest.fixture(scope="module", params=KINDS)
def made(request, tmp_path_factory):
    """Print a pack of each kind for readers of two languages."""
    home = tmp_path_factory.mktemp("secrets")
    klass = Path(shutil.copytree(DEMO, home / "class"))
    (klass / "learners.csv").write_text(LEARNERS, "utf-8")
    return pack(klass, home / "out", today=date(2027, 2, 1), session=KINDS[request.param], kind=request.param)


def _said(blank, voice):
    """Give an answer as it could stand in a text: a day or a number with its unit, and the number alone."""
    if blank.first is not None:
        return {voice.date(blank.first)}
    return {blank.shown, re.sub(r"[^\d.]+$", "", blank.shown)} if blank.kind == "number" else {blank.shown}


def _answers(sheet):
    """Give each blank of a sheet with its question and the ways in which its answer can be said in two languages."""
    voices = [Voice(language=language, units=sheet.units) for language in ("en", "es")]
    for question in sheet.questions:
        for blank in question.blanks:
            yield question, blank, {said for voice in voices for said in _said(blank, voice)}


def test_no_learner_file_holds_an_answer(made):
    """In no question stands an answer of the sheet, but where the question itself gives that number."""
    record, searched = record_of(made), 0
    for path in sorted((made.folder / "learners").iterdir()):
        sheet, printed = sheet_of(path, record), questions(path)
        asked = {question.id: flowing(question.ask) for question in sheet.questions}
        assert list(printed) == list(asked)
        for question, _, said in _answers(sheet):
            text = printed[question.id]
            assert asked[question.id] in text or sheet.kind == "pair"  # there it stands in a narrow column
            for answer in said:
                if not holds(asked[question.id], answer):
                    assert not holds(text.replace(asked[question.id], ""), answer), (path.name, question.id, answer)
                    searched += 1
    assert searched > 3


def test_no_question_prints_the_answer_of_another(made):
    """An answer with its unit stands nowhere else on the sheet, the worked example and the questions' words apart."""
    record, searched = record_of(made), 0
    for path in sorted((made.folder / "learners").iterdir()):
        sheet, printed = sheet_of(path, record), questions(path)
        for question in sheet.questions:
            printed[question.id] = printed[question.id].replace(flowing(question.ask), "")
        for question, blank, _ in _answers(sheet):
            if blank.shown.isdecimal() or any(holds(flowing(one.ask), blank.shown) for one in sheet.questions):
                continue
            for other, text in printed.items():
                if not other.endswith(".1"):
                    assert not holds(text, blank.shown), (path.name, question.id, other, blank.shown)
                    searched += 1
    assert searched > 1


def test_no_learner_file_holds_what_marking_needs(made):
    """Neither a reply to a foreseen mistake nor an answer hides in a picture's description, a title or a note."""
    record, seen = record_of(made), 0
    for path in (made.folder / "learners").iterdir():
        sheet, text, hidden = sheet_of(path, record), flowing("\n".join(sides(path))), hidden_words(path)
        assert b"accepted" not in hidden
        for _, blank, said in _answers(sheet):
            assert all(flowing(slip.reply) not in text for slip in blank.slips)
            for answer in said - {"", *re.findall(r"\d+", " ".join(said))}:
                assert answer.encode("utf-16-be") not in hidden
                seen += 1
    assert seen > 1


def test_the_stack_to_print_holds_the_same_pages(made):
    """The files to print hold the learners' pages and nothing beside them."""
    alone = {flowing(page) for path in (made.folder / "learners").iterdir() for page in sides(path)}
    stacked = {flowing(page) for path in (made.folder / "print").iterdir() for page in sides(path)}
    assert stacked - {""} == alone - {""}


def test_the_search_finds_each_answer_on_the_key(made):
    """The same search finds every answer on the key, so it would find it on a sheet."""
    key = flowing("\n".join(page for path in sorted((made.folder / "key").glob("key_*.pdf")) for page in sides(path)))
    for sheet in record_of(made).sheets:
        for _, blank, _ in _answers(sheet):
            assert holds(key, flowing(blank.shown)), blank.id


def test_no_question_is_parted_over_two_sides(made):
    """Each side begins with a question's head, and each answer's boxes stand on the side of their question."""
    record = record_of(made)
    for path in (made.folder / "learners").iterdir():
        first, *others = sides(path)
        heads = [HEAD.findall(page) for page in (first, *others)]
        assert [one for found in heads for one in found] == [one.id for one in sheet_of(path, record).questions]
        for page, found in zip(others, heads[1:], strict=True):
            top = page.strip().splitlines()[:5]
            assert not found or re.match(r"\d(\. | |$)", top[0]), top
            assert not found or any(found[0] in line for line in top), top
