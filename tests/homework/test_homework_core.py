"""The core of homework: questions stand still, the key passes its own marking, answers are read or asked back."""

from dataclasses import replace
from datetime import date

import pytest

from gardenlib import class_folder
from gardenlib.carried import carried
from gardenlib.cli import main
from gardenlib.homework import (
    PackRecord,
    check_key,
    ground_for,
    mark,
    marked_sheet,
    question_ids,
    read_typed,
    set_question,
    sheet_record,
    write_templates,
)
from gardenlib.homework.formula import named
from gardenlib.problems import InputProblem
from gardenlib.words import Voice

KLASS = class_folder.read(carried("data_demo"))


def _read(text, blank, language="en"):
    return read_typed(text, blank, language=language, year=2027)


def _questions(units, code):
    ground = ground_for(KLASS, code=code, year=2027, voice=Voice(units=units))
    for question_id in question_ids():
        try:
            yield ground, set_question(question_id, ground)
        except InputProblem:
            continue


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("code", ["A7", "K2"])
def test_the_key_passes_and_every_slip_marks_as_itself(units, code):
    """What the key prints is marked as right, and each foreseen value as that foreseen mistake."""
    seen = 0
    for ground, question in _questions(units, code):
        check_key(sheet_record([question], ground))
        for blank in question.blanks:
            for slip in blank.slips:
                assert mark(blank, _read(slip.shown, blank)).slip == slip.id, (blank.id, slip.shown)
                seen += 1
    assert seen > 50


def _proved(klass, question_id, crop_id, codes):
    """Mark each foreseen mistake of a question as it is printed, for sheets of several codes."""
    seen = set()
    for code in codes:
        ground = ground_for(replace(klass, crop_ids=(crop_id,)), code=code, year=2027, voice=Voice(units="metric"))
        for blank in set_question(question_id, ground).blanks:
            for slip in blank.slips:
                assert mark(blank, _read(slip.shown, blank)).slip == slip.id, (code, slip.shown)
                seen.add(slip.id)
    return seen


def test_a_slip_of_another_year_marks_as_itself(tmp_path):
    """South of the equator a day counted from the spring freeze lies a year before the one that is asked."""
    row = next(iter(KLASS.sites.values()))
    south = replace(row, latitude=-38.5, station_file=None, last_freeze_50=(9, 20), first_freeze_50=(5, 15))
    south = replace(south, last_freeze_10=None, last_freeze_90=None, first_freeze_10=None, first_freeze_90=None)
    klass = replace(KLASS, folder=tmp_path, sites={row.name: south}, garden_opens=None, garden_closes=None)
    assert "spring_freeze" in _proved(klass, "04.fall.4", "lettuce_leaf", ["A7"])


def test_a_slip_that_is_written_like_another_is_told_once(tmp_path):
    """The middle of 12 to 13 days is printed as one of its ends where whole days are asked."""
    assert "low_end_only" in _proved(replace(KLASS, folder=tmp_path), "06.two_places.4", "lettuce_leaf", "ABCDEFGH")


def test_the_same_code_sets_the_same_question():
    """A sheet code gives the same words and blanks each time."""
    first = [question for _, question in _questions("us", "A7")]
    assert [(q.ask, q.blanks) for q in first] == [(q.ask, q.blanks) for _, q in _questions("us", "A7")]
    assert len(first) > 100


def test_a_staircase_asks_none_one_two_one():
    """The full example asks nothing, then one, two, and alone one result without its steps."""
    ground = ground_for(KLASS, code="A7", year=2027)
    rungs = [set_question(f"03.fit.{rung}", ground) for rung in (1, 2, 3, 4)]
    assert [len(q.blanks) for q in rungs] == [0, 1, 2, 1]
    assert rungs[3].lines == ()
    assert "from step 4" in rungs[2].lines[4].given


@pytest.fixture
def pack_dir(tmp_path):
    """Lay out a pack with one class sheet."""
    ground = ground_for(KLASS, code="A7", year=2027)
    sheet = sheet_record([set_question("03.fit.4", ground)], ground)
    record = PackRecord(library="0", class_title="invented", made_on=date(2027, 3, 1), sheets=(sheet,))
    (tmp_path / "key").mkdir()
    (tmp_path / "handed_in").mkdir()
    record.save(tmp_path / "key" / "record.json")
    assert PackRecord.read(tmp_path / "key" / "record.json") == record
    return tmp_path, record


def test_a_tally_counts_without_any_sheet(pack_dir, capsys):
    """The template, with one number filled in, is enough for the class view."""
    folder, record = pack_dir
    _, tally = write_templates(folder / "handed_in", record)
    text = tally.read_text("utf-8-sig")
    tally.write_text(text.replace(",nothing,", ",nothing,6"), "utf-8")
    assert main(["mark", str(folder)]) == 0
    assert ": 6 of 6. The answer is empty." in capsys.readouterr().out


def test_a_sheet_without_answers_is_empty(pack_dir):
    """A sheet without answers has nothing to look at again."""
    _, record = pack_dir
    marked = marked_sheet(record.sheets[0], {})
    assert {found.state for found in marked.marks.values()} == {"nothing"}
    assert marked.again == []


def test_a_number_has_a_unit_or_what_it_counts_in_both_languages():
    """Behind the boxes for a number stands what is asked; only temperatures have a box for a sign."""
    signed = set()
    for language in ("en", "es"):
        ground = ground_for(KLASS, code="A7", year=2027, voice=Voice(language=language))
        for question_id in question_ids():
            try:
                question = set_question(question_id, ground)
            except InputProblem:
                continue
            for blank in question.blanks:
                assert blank.unit_words or blank.kind in {"date", "words"}, blank.id
                signed |= {(blank.unit, blank.unit_words)} if blank.signed else set()
    assert signed == {("degF", "°F")}


def test_a_formula_is_in_the_readers_words():
    """On a Spanish sheet neither the names in a formula nor what is done with its outcome stay English."""
    spanish = Voice(language="es")
    assert named("mix / bag, rounded up", spanish) == "mezcla / bolsa, redondeado hacia arriba"
    assert named("life_there - days_there", Voice()) == "life there - days there"
    assert named("rows * in_row", spanish) == "hileras × por hilera"
