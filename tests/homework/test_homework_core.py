"""The core of homework: questions stand still, the key passes its own marking, answers are read or asked back."""

import json
from datetime import date

import pytest
from babel.dates import format_date
from hypothesis import given, settings
from hypothesis import strategies as st

from gardenlib import class_folder
from gardenlib.carried import carried
from gardenlib.cli import main
from gardenlib.homework import (
    Blank,
    PackRecord,
    check_key,
    ground_for,
    mark,
    marked_sheet,
    plot_key,
    question_ids,
    read_typed,
    set_question,
    sheet_record,
    write_templates,
)
from gardenlib.problems import InputProblem
from gardenlib.words import Voice

KLASS = class_folder.read(carried("data_demo"))
LB = Blank(id="x.1", kind="number", unit="lb", low=6.5, high=6.7)
SPAN = Blank(id="x.2", kind="range", unit="in", low=19.5, high=20.5, upper_low=39.5, upper_high=40.5)
DAY = Blank(id="x.3", kind="date", first=date(2027, 4, 5), last=date(2027, 4, 5))
COUNT = Blank(id="x.4", kind="number", low=3, high=3)


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


@given(st.text(max_size=60), st.sampled_from([LB, SPAN, DAY, COUNT]), st.sampled_from(["en", "es"]))
@settings(max_examples=150, deadline=None)
def test_reading_never_raises(text, blank, language):
    """Any text is a value, nothing, or asked back."""
    assert _read(text, blank, language).state in {"value", "nothing", "ask"}


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("form", ["long", "medium", "full"])
def test_dates_read_as_the_cldr_writes_them(language, form):
    """A date in the Unicode CLDR's own forms reads back as that date (babel)."""
    for day in (date(2027, 4, 5), date(2027, 9, 30), date(2028, 2, 29)):
        assert _read(format_date(day, form, locale=language), DAY, language).value == day


@pytest.mark.parametrize(
    ("text", "value"),
    [
        *(("3 kg", 6.613868), ("about 3", 3), ("unos 3", 3), ("~3", 3), ("3 1/2 lb", 3.5), ("3½", 3.5), ("2,5", 2.5)),
        *(("1,200", 1200), ("3 lbs", 3), ("3 libras", 3), ("\u0663", 3)),
    ],
)
def test_numbers_are_read(text, value):
    """Units, fractions and commas are read; 1 lb is 0.453 592 37 kg (NIST SP 811, 2008, appendix B.8)."""
    assert _read(text, LB, "es" if "lib" in text else "en").value == pytest.approx(value, rel=1e-6)


def test_temperatures_are_converted():
    """4 degrees Celsius is 39.2 degrees Fahrenheit (NIST SP 811, 2008, appendix B.8)."""
    blank = LB.model_copy(update={"unit": "degF"})
    assert _read("4 °C", blank).value == pytest.approx(39.2)
    assert _read("40 F", blank).value == 40


@pytest.mark.parametrize("text", ["20-40", "20 to 40", "20 to 40 in", "entre 20 y 40", "20–40"])
def test_ranges_are_read(text):
    """A range is read in each of its forms."""
    assert _read(text, SPAN).value == (20, 40)


@pytest.mark.parametrize(
    ("text", "blank", "language"),
    [
        *(("4/5", DAY, "en"), ("mid April", DAY, "en"), ("1,200", LB, "es"), ("3 zorks", LB, "en"), ("3 ft", LB, "en")),
        *(("20-40", LB, "en"), ("=cmd()", COUNT, "en"), ("5²", COUNT, "en"), ("1/0", COUNT, "en")),
    ],
)
def test_two_readings_are_asked_back(text, blank, language):
    """What has two readings or none is asked back with a sentence."""
    assert _read(text, blank, language).state == "ask"
    assert mark(blank, _read(text, blank, language)).reply


@pytest.mark.parametrize("text", ["", " ", "-", "?", "don't know", "no sé"])
def test_nothing_is_its_own_state(text):
    """An empty answer is neither right nor astray."""
    assert mark(LB, _read(text, LB)).state == "nothing"


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


def test_a_hostile_stack_is_marked_and_nothing_is_lost(pack_dir, capsys):
    """Half-written, strange and twice-handed work is told; the rest is marked; paths stay inside the folder."""
    folder, record = pack_dir
    (blank,) = record.sheets[0].blanks()
    put_in = folder / "handed_in"

    def plot(name, revision, text):
        answers = {plot_key("A7", blank): {"text": text}}
        (put_in / name).write_text(json.dumps({"version": 1, "revision": revision, "answers": answers}), "utf-8")

    plot("ana.json", 1, "<script>1</script>")
    plot("ana (1).json", 4, record.sheets[0].blanks()[blank].shown)
    (put_in / "half.json").write_text('{"version": 1, "ans', "utf-8")
    rows = f"learner,sheet_code,blank_id,answer\n../../evil,A7,{blank},=cmd()\nbob,ZZ,{blank},3\n"
    (put_in / "answers.csv").write_text(rows, "utf-8")
    assert main(["mark", str(folder)]) == 0
    out = capsys.readouterr().out
    assert "ana (1).json was used" in out
    assert "half.json cannot be read" in out
    assert "ZZ is not in this pack" in out
    assert sorted(path.name for path in (folder / "marked").iterdir()) == [
        "class_view.csv",
        "reply_ana_A7.pdf",
        "reply_evil_A7.pdf",
    ]
    assert (put_in / "half.json").read_text("utf-8") == '{"version": 1, "ans'
    view = (folder / "marked" / "class_view.csv").read_text("utf-8-sig")
    assert "holds" in view
    assert "ana" not in [cell for line in view.splitlines() for cell in line.split(",")]


def test_a_tally_counts_without_any_sheet(pack_dir, capsys):
    """The template, with one number filled in, is enough for the class view."""
    folder, record = pack_dir
    _, tally = write_templates(folder / "handed_in", record)
    text = tally.read_text("utf-8-sig")
    tally.write_text(text.replace(",nothing,", ",nothing,6"), "utf-8")
    assert main(["mark", str(folder)]) == 0
    assert "6 times nothing" in capsys.readouterr().out


def test_a_sheet_without_answers_is_empty(pack_dir):
    """A sheet without answers has nothing to look at again."""
    _, record = pack_dir
    marked = marked_sheet(record.sheets[0], {})
    assert {found.state for found in marked.marks.values()} == {"nothing"}
    assert marked.again == []
