"""The page's session: which season is planned, what stands in, what is kept."""

from datetime import date

import pytest

from gardenlib import plot
from gardenlib.panels import Session


@pytest.mark.parametrize(
    ("latitude", "today", "year"),
    [
        (40.0, date(2027, 2, 15), 2027),
        (40.0, date(2027, 7, 31), 2027),
        (40.0, date(2027, 8, 1), 2028),
        (-40.0, date(2027, 8, 15), 2027),
        (-40.0, date(2028, 1, 31), 2027),
        (-40.0, date(2028, 2, 1), 2028),
    ],
)
def test_season_that_is_planned(open_session, monkeypatch, latitude, today, year):
    """Until its spring half is over this year's spring is planned, then the next one, in both hemispheres."""
    session = open_session(today=today)
    monkeypatch.setattr(Session, "latitude", latitude)
    assert session.year == year


def test_nothing_is_written_before_the_first_answer(open_session):
    """Opening a page makes no file; the first answer does."""
    session = open_session(guesses={})
    assert not session.path.exists()
    session.keep_guess("01.risk.guess", "5")
    assert plot.read(session.path).guesses == {"01.risk.guess": "5"}


def test_class_stands_in_and_says_so(open_session):
    """Without crops of their own learners see the class's, and are told."""
    session = open_session(guesses={})
    assert session.crop_ids == ["cabbage_main", "lettuce_leaf", "pea", "tomato", "bean_bush"]
    assert any("class's crops stand in" in session.voice.say(note) for note in session.notes())


def test_a_record_beside_typed_dates_is_named(open_session):
    """Who types dates of another town reads whose weather the past years are; who takes the class's dates does not."""
    session = open_session()
    assert session.record_elsewhere() == []
    session.save_fields("site", way="typed", dates_from="made up", last_freeze_50="04-06", first_freeze_50="10-28")
    [said] = session.record_elsewhere()
    assert said in session.notes()
    assert "still that of PELLOWBY" in session.voice.say(said)


def test_two_pages_keep_both_guesses(open_session):
    """Two pages open at once on one plot lose neither's guess."""
    one, two = open_session(guesses={}), open_session(guesses={})
    one.keep_guess("a", "1")
    two.keep_guess("b", "2")
    one.keep_guess("c", "3")
    assert plot.read(one.path).guesses == {"a": "1", "b": "2", "c": "3"}


def test_start_over_keeps_a_copy(open_session):
    """Starting over empties the plot and keeps the old file beside it."""
    session = open_session()
    copy = session.start_over()
    assert session.guess("01.risk.guess") is None
    assert plot.read(copy).guesses["01.risk.guess"] == "5"
