"""The fold on even harvests: what it asks, shows, hides and refuses."""

from datetime import date

import pytest
from test_panel import everything

from gardenlib import panels, sowing
from gardenlib.panels.check import CheckBox
from gardenlib.panels.even import _BASE, _EQUAL, _SPEC, view
from gardenlib.panels.panel import Panel

GUESSED = {"04.even.guess": "7"}
PEA = {"crop": "pea", "first": "Mar 25", "every_days": 14}


@pytest.fixture
def without_record(open_session, monkeypatch):
    """Open a session whose place has no daily record."""
    session = open_session(guesses=GUESSED)
    place = session.place
    object.__setattr__(place, "station", None)
    return session


def test_fold_opens_with_its_guess_first(open_session):
    """The fold says its minutes; inside, nothing of the answer is seen before the guess is kept."""
    fold = panels.even.fold(open_session(guesses={}))
    assert "8 min" in fold.opener.description
    fold.opener.value = True
    panel, *checks = fold._body.children[0].children
    assert "<svg" not in everything(panel)
    assert len(checks) == 2
    box = panel.children[0]
    box.answers.value = "14"
    box.children[2].click()
    assert "about 14 days" in everything(panel)
    assert "<svg" in panel.picture.value


def test_dates_are_those_of_the_library(open_session):
    """The table holds the sowings that the library gives for the crop, day and interval chosen."""
    session = open_session(guesses=GUESSED)
    table = view(session, PEA).table
    found = sowing.even_harvest(
        "pea",
        session.place.station,
        date(2027, 3, 25),
        4,
        14,
        latitude=session.latitude,
        warmth=session.place.warmth,
    ).table
    assert list(table["Sow"]) == [session.voice.date(day, "MMMd") for day in found["sow"]]
    assert len(table.columns) == 4


def test_crops_that_are_set_out_say_so(open_session):
    """Cabbage days count from plants, so the table says set out."""
    shown = view(open_session(guesses=GUESSED), {**PEA, "crop": "cabbage_main"})
    assert "Set out" in shown.table.columns
    assert shown.finding.startswith("Set out cabbage")


def test_a_spread_larger_than_the_interval_hides_the_dates(open_session):
    """Where the years differ by more than the interval, one sentence stands in place of dates and picture."""
    shown = view(open_session(guesses=GUESSED), {**PEA, "every_days": 3})
    assert shown.table is None
    assert shown.chart is None
    assert "more than your 3 days" in shown.finding


def test_harvests_that_come_too_late_are_told(open_session):
    """The sentence over the picture says how many harvests come after the middle first freeze or have no room."""
    shown = view(open_session(guesses=GUESSED), {"crop": "lettuce_leaf", "first": "Jul 15", "every_days": 50})
    assert "after the middle first freeze" in shown.finding
    assert "no room before the year ends" in shown.finding


def test_only_crops_with_a_base_are_offered(open_session):
    """The learner's crops that have a base are offered; without any, all that have one."""
    panel = Panel(open_session(guesses=GUESSED), _SPEC)
    assert [value for _, value in panel.controls["crop"].options] == [
        "cabbage_main",
        "lettuce_leaf",
        "pea",
        "bean_bush",
    ]
    other = open_session("other.json", guesses=GUESSED)
    other.save_fields("household", eat=[{"crop": crop} for crop in ("tomato", "pepper", "basil")], people=2)
    panel = Panel(other, _SPEC)
    assert "pea" in [value for _, value in panel.controls["crop"].options]


@pytest.mark.parametrize(
    ("typed", "said"),
    [("soon", "soon"), ("Feb 30", "Feb 30"), ("4/5", "4/5"), ("Mar 1", "garden opens"), ("Nov 20", "not ripe")],
)
def test_a_day_that_cannot_be_is_one_sentence(open_session, typed, said):
    """A first day that is no day, may be two, or lies outside the season is refused beside the controls."""
    panel = Panel(open_session(guesses=GUESSED), _SPEC)
    panel.controls["first"].value = typed
    assert said in panel.message.value
    assert "Something broke" not in panel.message.value
    assert panel.picture.value == ""
    panel.controls["first"].value = "Apr 10"
    assert panel.message.value == ""
    assert "<svg" in panel.picture.value


def test_without_a_daily_record_one_sentence_says_what_is_needed(without_record):
    """Without a station nothing breaks: guess, panel, working and checks ask for a daily record."""
    panel = Panel(without_record, _SPEC)
    assert "daily record" in panel.view.finding
    assert "daily record" in everything(panel.children[0])
    panel._fold.opener.value = True
    assert "daily record" in panel.message.value
    assert "daily record" in everything(CheckBox(without_record, _EQUAL))


def test_working_shows_the_calibration(open_session):
    """The working says how much warmth the crop needs, and that it is our own sum."""
    panel = Panel(open_session(guesses=GUESSED), _SPEC)
    panel._fold.opener.value = True
    text = everything(panel._fold)
    assert "our own sum" in text
    assert "degree days (°F)" in text


def test_each_answer_of_the_checks_has_its_own_reply(open_session):
    """One answer of each check holds; the others name the mistake, and no two replies are alike."""
    session = open_session(guesses=GUESSED)
    for check in (_EQUAL, _BASE):
        replies = check.replies(session)
        assert sum(reply.holds for reply in replies) == 1
        words = [session.voice.say(reply.reply) for reply in replies]
        assert len(set(words)) == 3
        assert len({session.voice.say(reply.words) for reply in replies}) == 3
    assert next(r.value for r in _EQUAL.replies(session) if r.holds) == "closer"


def test_warmth_of_one_day_by_hand(open_session):
    """Arithmetic: a day of 60 F above a base of 40 F gives 20 degree days F, or 11.1 C as a metric class reads them."""
    session = open_session(guesses=GUESSED)
    right = next(r for r in _BASE.replies(session) if r.value == "right")
    assert session.voice.say(right.words) == "20 degree days (°F)"
    session.save_fields("household", units="metric")
    assert session.voice.say(right.words) == "11 degree days (°C)"


def test_controls_come_back(open_session):
    """Crop, first day and interval are kept and put back."""
    first = Panel(open_session(guesses=GUESSED), _SPEC)
    first.controls["every_days"].value = 28
    first.controls["first"].value = "Apr 10"
    again = Panel(open_session(guesses=GUESSED), _SPEC)
    assert again.values == {"crop": "cabbage_main", "first": "Apr 10", "every_days": 28}
