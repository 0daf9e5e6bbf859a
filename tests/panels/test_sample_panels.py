"""Page 02: whether there is a sheet, taking a sample, reading the sheet."""

from datetime import date

import pytest

from gardenlib import panels
from gardenlib.panels.check import CheckBox
from gardenlib.panels.form import Form
from gardenlib.panels.panel import Panel
from gardenlib.panels.paper import PaperSheet, paper_sheet
from gardenlib.words import Said

OWN_GUESSES = {"02.sample.guess": "one", "02.sheet.guess": "ph"}
WATER = {"water_ph": "5.6", "buffer": "sikora", "buffer_ph": "6.6", "lime": "50", "lime_unit": "lb_1000_sq_ft"}


def _open(fold):
    fold.opener.value = True
    return fold._body.children[0].children


def _only(parts, kind):
    return [part for part in parts if isinstance(part, kind)]


@pytest.fixture
def form(open_session):
    """Give the form for the learner's own sheet, and its session."""
    session = open_session(guesses=OWN_GUESSES)
    return session, _only(_open(panels.soil.sheet.fold(session)), Form)[0]


def _type(form, **typed):
    for name, value in typed.items():
        form.fields[name].value = value
    form.submit()
    return form.reply.value


# ---- the state -------------------------------------------------------------------------------------


def test_the_state_is_saved_and_says_what_comes_next(open_session):
    """Each state has its own sentence, and is kept in the plot file's soil."""
    session = open_session()
    box = panels.soil.state.panel(session)
    assert "Choose one" in box.view.finding
    for state, words in (("none", "Take a sample first"), ("in_hand", "type in your numbers")):
        box.controls["sheet"].value = state
        assert words in box.view.finding
        assert session.plot.soil.sheet == state


def test_a_high_ph_opens_the_page(open_session):
    """Above every target the page opens with no lime, and with salts; a pH in salt solution says nothing of it."""
    session = open_session()
    box = panels.soil.state.panel(session)
    session.save_fields("soil", sheet="in_hand", water_ph=8.1, ph_method="water")
    assert box.view.finding.startswith("You do not need lime: your pH of 8.1")
    assert "salts" in box.view.finding
    session.save_fields("soil", ph_method="kcl")
    assert "lime: your pH" not in box.view.finding
    session.save_fields("soil", water_ph=5.8, ph_method="water")
    assert "pH is 5.8" in box.view.finding


def test_the_state_follows_the_form(open_session):
    """A sheet that is typed in is a sheet in hand."""
    session = open_session(guesses=OWN_GUESSES)
    box = panels.soil.state.panel(session)
    _type(_only(_open(panels.soil.sheet.fold(session)), Form)[0], water_ph="6.0")
    assert box.controls["sheet"].value == "in_hand"


# ---- the sample ------------------------------------------------------------------------------------


def test_the_guess_comes_first(open_session):
    """Before a guess is kept neither fold shows its picture."""
    for room in (panels.soil.sample, panels.soil.sheet):
        parts = _open(room.fold(open_session(guesses={})))
        assert _only(parts, Panel)[0].view is None


def test_the_caution_stands_before_the_numbers_and_follows_lead(open_session):
    """Hands are named first; with lead in the history, gloves and the health office."""
    parts = _open(panels.soil.sample.fold(open_session(guesses=OWN_GUESSES)))
    panel = _only(parts, Panel)[0]
    assert list(parts).index(panel) > 0
    assert "Wash your hands" in parts[0].value
    panel.controls["lead"].value = True
    assert "health office" in parts[0].value
    assert "total lead" in panel.view.table.iloc[-1, 1]


@pytest.mark.parametrize(("units", "depth"), [("us", "6 to 8 in"), ("metric", "15 to 20 cm")])
def test_the_sample_speaks_the_class_units(open_session, units, depth):
    """Depth in inches or centimetres: 6 to 8 inches (Clemson), which is 15 to 20 cm."""
    session = open_session(guesses=OWN_GUESSES)
    session.save_fields("household", units=units)
    panel = _only(_open(panels.soil.sample.fold(session)), Panel)[0]
    assert depth in panel.view.finding
    assert depth in panel.view.table.iloc[1, 1]


def test_a_second_sample_for_new_ground(open_session):
    """New ground makes two samples."""
    panel = _only(_open(panels.soil.sample.fold(open_session(guesses=OWN_GUESSES))), Panel)[0]
    panel.controls["new"].value = True
    assert "2 samples" in panel.view.finding


def test_the_page_for_the_garden_is_written(open_session):
    """The button writes a PDF beside the plot file and says where; an old one is replaced whole."""
    session = open_session(guesses=OWN_GUESSES)
    paper = _only(_open(panels.soil.sample.fold(session)), PaperSheet)[0]
    target = session.folder / "soil_sample.pdf"
    target.write_bytes(b"old")
    paper.write()
    assert target.read_bytes().startswith(b"%PDF-")
    assert "soil_sample.pdf" in paper.reply.value
    assert "gl-good" in paper.reply.value
    assert not list(session.folder.glob(".*writing"))


def test_a_page_that_cannot_be_written_is_one_sentence(open_session):
    """A folder stands where the file should be: a sentence, and no trace on the page."""
    session = open_session()
    (session.folder / "x.pdf").mkdir()
    paper = paper_sheet(session, Said("sample.print"), "x", lambda session, large: b"%PDF-")
    paper.write()
    assert "cannot be saved" in paper.reply.value


def test_an_unforeseen_error_is_one_sentence(open_session):
    """A maker that breaks leaves a plain sentence and a log."""
    session = open_session()
    paper = paper_sheet(session, Said("sample.print"), "x", lambda session, large: 1 / 0)
    paper.write()
    assert "Something broke" in paper.reply.value


# ---- the sheet -------------------------------------------------------------------------------------


@pytest.mark.parametrize("line", ["ph", "buffer", "phosphorus", "potassium", "lime"])
def test_each_line_of_the_sheet_is_pointed_at(open_session, line):
    """One arrow shows, and the words under the picture say which line it is at."""
    panel = _only(_open(panels.soil.sheet.fold(open_session(guesses=OWN_GUESSES))), Panel)[0]
    panel.controls["line"].value = line
    assert panel.message.value == ""
    assert panel.view.chart.count('opacity="1"') == 1
    assert "invented" in panel.notes.value


@pytest.mark.parametrize("units", ["us", "metric"])
def test_foreseen_mistakes_have_replies_of_their_own(open_session, units):
    """In each check one answer holds and the others each say what was mixed up."""
    session = open_session(guesses=OWN_GUESSES)
    session.save_fields("household", units=units)
    checks = [
        check
        for room in (panels.soil.sample, panels.soil.sheet)
        for check in _only(_open(room.fold(session)), CheckBox)
    ]
    assert len(checks) == 5
    for check in checks:
        replies = list(check._replies.values())
        assert sum(reply.holds for reply in replies) == 1
        assert len({session.voice.say(reply.words) for reply in replies}) == 3
        assert len({session.voice.say(reply.reply) for reply in replies}) == 3


def test_the_rate_for_other_ground_is_five_pounds(open_session):
    """50 lb per 1,000 sq ft is 5 lb per 100 sq ft; kept as 50 it is the mistake that is named."""
    checks = _only(_open(panels.soil.sheet.fold(open_session(guesses=OWN_GUESSES))), CheckBox)
    said = {name: str(reply.words) for name, reply in checks[1]._replies.items()}
    assert said["right"] == "5 lb per 100 sq ft"
    assert said["much"] == "50 lb per 100 sq ft"


def test_the_learners_sheet_goes_into_the_plot_file(form):
    """What is typed is kept, the rate as kilograms per square metre (50 lb per 1,000 sq ft; NIST SP 811)."""
    session, box = form
    said = _type(box, **WATER, phosphorus="low", texture="loam", sampled=date(2026, 10, 3), acidity="4.2")
    soil = session.plot.soil
    assert "gl-good" in said
    assert (soil.sheet, soil.water_ph, soil.buffer, soil.buffer_ph) == ("in_hand", 5.6, "sikora", 6.6)
    assert soil.lab_lime_kg_m2 == pytest.approx(50 * 0.45359237 / 92.90304)
    assert (soil.phosphorus, soil.potassium, soil.acidity_meq_100g) == ("low", "", 4.2)
    assert (soil.texture, soil.texture_from, soil.sampled) == ("loam", "lab", date(2026, 10, 3))


def test_a_texture_by_feel_outlives_a_sheet_without_one(form):
    """A sheet that gives no texture leaves the learner's own."""
    session, box = form
    session.save_fields("soil", texture="silt loam", texture_from="feel")
    _type(box, **WATER)
    assert (session.plot.soil.texture, session.plot.soil.texture_from) == ("silt loam", "feel")


def test_a_ph_in_salt_is_kept_and_marked(form):
    """A pH in potassium chloride is saved as such, so that no lime is worked out from it, and the reply says so."""
    session, box = form
    said = _type(box, water_ph="5.1", ph_method="kcl")
    assert (session.plot.soil.water_ph, session.plot.soil.ph_method) == (5.1, "kcl")
    assert "no lime" in said


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"water_ph": ""}, "missing"),
        ({"water_ph": "6,2"}, "Type a point in place of the comma: 6.2"),
        ({"water_ph": "70"}, "Did you mean 7"),
        ({"water_ph": "0"}, "from 3 to 10"),
        ({"buffer_ph": "8.5"}, "at most"),
        ({"buffer": ""}, "which buffer"),
        ({"lime": "5000"}, "Check the unit"),
        ({"acidity": "200"}, "from 0 to 100"),
        ({"sampled": date(2031, 1, 1)}, "still to come"),
    ],
)
def test_hostile_sheets_save_nothing(form, typed, words):
    """One sentence says what to mend, and the plot file stays as it was."""
    session, box = form
    said = _type(box, **{**WATER, **typed})
    assert "gl-again" in said
    assert words in said
    assert session.plot.soil.water_ph is None
