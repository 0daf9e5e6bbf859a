"""Page 02: the folds on gifts and on lead."""

from dataclasses import replace

import pytest

from gardenlib import panels
from gardenlib.panels.check import CheckBox
from gardenlib.panels.panel import Panel
from gardenlib.panels.paper import PaperSheet
from gardenlib.soil import GIFTS

OWN = {"02.gifts.guess": "weeks"}


def _parts(fold, kind):
    fold.opener.value = True
    return [part for part in fold._body.children[0].children if isinstance(part, kind)]


def _gifts(open_session, guesses=OWN, **how):
    session = open_session(guesses=guesses, **how)
    fold = panels.soil.gifts.fold(session)
    return session, *_parts(fold, Panel), fold


def _lead(open_session, lead=..., **how):
    session = open_session(guesses={}, **how)
    if lead is not ...:
        session.klass = replace(session.klass, lead=lead)
    fold = panels.soil.lead.fold(session)
    return session, *_parts(fold, Panel), fold


def test_the_fold_says_its_minutes(open_session):
    """The folds are closed, and their labels carry the minutes."""
    *_, fold = _gifts(open_session)
    assert "6 min" in fold.opener.description
    *_, fold = _lead(open_session)
    assert "5 min" in fold.opener.description


def test_guess_before_the_pots(open_session):
    """Before the guess the pots are hidden; after it the published time is told."""
    _, _, pots, _ = _gifts(open_session, guesses={})
    assert pots.view is None
    box = pots.children[1]
    box.answers.value = "season"
    box.children[2].click()
    assert pots.view is not None
    told = pots.children[1].children[1].value
    assert "2 to 3 weeks" in told
    assert "three" in told or "3 sets" in told


@pytest.mark.parametrize("gift", GIFTS)
def test_each_gift_has_its_own_two_questions(open_session, gift):
    """Another gift brings its questions at once; three controls in all."""
    _, panel, _, _ = _gifts(open_session)
    panel.controls["gift"].value = gift
    names = list(panel.controls)
    assert len(names) == 3
    assert all(name.startswith(f"{gift}_") for name in names[1:])
    assert "Ask first" in panel.view.finding
    for name in names[1:]:
        panel.controls[name].value = "no"
    assert "Ask first" not in panel.view.finding


def test_a_caution_stands_before_the_advice(open_session):
    """The caution comes before the controls and the number."""
    _, panel, pots, _ = _gifts(open_session)
    assert "gl-caution" in panel.children[0].value
    assert "gl-caution" in pots.children[0].value
    _, house, _, _, number, _ = _lead(open_session, name="other.json")
    assert any("gl-caution" in part.value for part in house.children[:2])
    assert any("gl-caution" in part.value for part in number.children[:2])


def test_manure_shows_the_published_days(open_session):
    """Manure that is used brings 120 and 90 days (7 CFR 205.203) and, where nobody knows, the pots first."""
    _, panel, _, _ = _gifts(open_session)
    panel.controls["gift"].value = "manure"
    panel.controls["manure_weed_killer"].value = "unknown"
    panel.controls["manure_pets"].value = "no"
    assert panel.view.finding == "Not yet. Make the pot check first."
    assert "120 days" in panel.notes.value
    assert "90 days" in panel.notes.value
    panel._fold.opener.value = True
    assert "205.203" in panel._working.value


def test_answers_come_back(open_session):
    """Gift and answers are kept in the plot file."""
    session, panel, _, _ = _gifts(open_session)
    panel.controls["gift"].value = "boards"
    panel.controls["boards_treated"].value = "yes"
    again = _parts(panels.soil.gifts.fold(session), Panel)[0]
    assert again.values["gift"] == "boards"
    assert "Say no" in again.view.finding


def test_pots_are_drawn_and_read(open_session):
    """The picture has both labels, an alt text and a table; clean pots that fail cannot tell."""
    _, _, pots, _ = _gifts(open_session)
    assert "clean mix" in pots.view.chart
    assert pots.view.alt
    assert pots.view.table.iloc[-1, 1] == "2 to 3 weeks"
    assert "Say no" in pots.view.finding
    pots.controls["clean"].value = "curled"
    assert "cannot tell" in pots.view.finding


@pytest.mark.parametrize("large", [False, True])
def test_the_pot_check_on_paper(open_session, large):
    """The button writes one PDF into the learner's folder and says where it is."""
    session, *_, fold = _gifts(open_session)
    paper = _parts(fold, PaperSheet)[0]
    paper.size.value = large
    paper.write()
    assert (session.folder / "pot_check.pdf").read_bytes().startswith(b"%PDF-")
    assert "pot_check.pdf" in paper.reply.value


CHECKS = [
    ("gifts", 0, "old", "Nobody knows"),
    ("gifts", 0, "smell", "cannot find"),
    ("gifts", 1, "refuse", "may not be the cause"),
    ("gifts", 1, "take", "still do not know"),
    ("lead", 0, "fine", "does not say"),
    ("lead", 0, "close", "no limit for food gardens"),
    ("lead", 1, "use", "only a part"),
    ("lead", 1, "add", "no fixed factor"),
]


@pytest.mark.parametrize(("name", "number", "choice", "told"), CHECKS)
def test_each_mistake_has_its_reply(open_session, name, number, choice, told):
    """A foreseen mistake is met by its own sentence; the right answer is told so."""
    fold = getattr(panels.soil, name).fold(open_session(guesses=OWN))
    box = _parts(fold, CheckBox)[number]
    box.answers.value = choice
    box.children[2].click()
    assert told in box.reply.value
    assert "Look again" in box.reply.value
    box.answers.value = "right"
    box.children[2].click()
    assert "Yes." in box.reply.value


def test_history_of_two_panels_is_one(open_session):
    """One yes asks for a test in both panels, and the answers come back."""
    session, house, ground, *_ = _lead(open_session)
    assert "still open: 6" in house.view.finding
    house.controls["paint"].value = "yes"
    assert "test of total lead" in house.view.finding
    assert "test of total lead" in ground.view.finding
    again = _parts(panels.soil.lead.fold(session), Panel)[0]
    assert again.values["paint"] == "yes"


def test_six_times_no_is_no_all_clear(open_session):
    """Without a reason the finding still says that only a test can tell."""
    _, house, ground, *_ = _lead(open_session)
    for panel in (house, ground):
        for control in panel.controls.values():
            control.value = "no"
    assert "Only a test can tell" in ground.view.finding


def test_number_beside_the_authority_and_the_federal_figure(open_session):
    """Without a number, and with one, the class's line and the dated federal figure are shown, and the habits."""
    session, *_, number, _ = _lead(open_session)
    for typed in ("", "120 mg/kg", "900"):
        number.controls["total"].value = "yes"
        number.controls["number"].value = typed
        said = number.view.table.to_string()
        assert session.klass.lead.authority in said
        assert "Oct 1, 2024" in said
        assert "200 ppm" in said
        assert "October 2025" in said
    assert "900 ppm" in number.view.finding


def test_habits_stay_whatever_is_typed(open_session):
    """The habits stand before the number, and stay when a number is refused."""
    *_, habits, number, _ = _lead(open_session)
    number.controls["number"].value = "nonsense"
    assert "Leave garden shoes" in habits.picture.value
    assert len(habits.view.table) == 6


def test_number_without_total_is_refused(open_session):
    """A number is not set beside anything before the word total is chosen."""
    *_, number, _ = _lead(open_session)
    number.controls["number"].value = "8"
    assert "total lead" in number.message.value
    assert number.picture.value == ""


@pytest.mark.parametrize("typed", ["6,2", "abc", "-4", "nan", "1e12", "<b>9</b>"])
def test_hostile_number(open_session, typed):
    """One plain sentence, no trace, nothing read as HTML."""
    *_, number, _ = _lead(open_session)
    number.controls["total"].value = "yes"
    number.controls["number"].value = typed
    assert "Lead is" in number.message.value
    assert "<b>" not in number.message.value


def test_a_class_without_a_line(open_session):
    """Where the class has no line, the page says whom to ask."""
    *_, number, _ = _lead(open_session, lead=None)
    assert "Ask the health department in your county" in number.notes.value
    assert len(number.view.table) == 2


def test_metric_reads_the_same(open_session):
    """Lead is ppm in both systems, and days stay days."""
    session, *_, number, _ = _lead(open_session)
    session.save_fields("household", units="metric")
    assert "200 ppm" in number.view.table.to_string()
