"""Page 03: the folds on water and on pots."""

import re
from types import SimpleNamespace

import pytest

from gardenlib import panels
from gardenlib.panels.beds import weather
from gardenlib.panels.check import CheckBox
from gardenlib.panels.panel import Panel

GUESSES = {"03.water.guess": "week", "03.pots.guess": "same"}


def _inside(fold):
    fold.opener.value = True
    inside = fold._body.children[0].children
    return [part for part in inside if isinstance(part, Panel)], [part for part in inside if isinstance(part, CheckBox)]


def _water(open_session, **how):
    session = open_session(**{"guesses": GUESSES, **how})
    return session, *_inside(panels.beds.water.fold(session))


def _pots(open_session, **how):
    session = open_session(**{"guesses": GUESSES, **how})
    return session, *_inside(panels.beds.containers.fold(session))


@pytest.mark.parametrize("open_fold", [_water, _pots])
def test_the_guess_comes_first(open_session, open_fold):
    """Before a guess is kept nothing is shown; after it the panel opens."""
    _, (panel, *_), _ = open_fold(open_session, guesses={})
    assert panel.view is None
    guess = panel.children[1] if open_fold is _water else panel.children[0]
    guess.answers.index = 0
    guess.children[2].click()
    assert panel.view is not None


def test_cans_and_minutes_come_first_and_the_finger_wins(open_session):
    """A settled bed: cans, minutes, days and the finger test in one breath."""
    _, (panel, *_), _ = _water(open_session)
    assert panel.message.value == ""
    finding = panel.view.finding
    assert "can" in finding.split("minute")[0]
    assert "every" in finding
    assert "the finger wins" in finding
    assert "April 20" in panel.notes.value
    panel._fold.opener.value = True
    assert "FAO" in panel._working.value or "Allen" in panel._working.value


def test_seeds_have_no_interval(open_session):
    """Seeds not up: look each day, no number of days."""
    _, (panel, *_), _ = _water(open_session)
    panel.controls["stage"].value = "unsprouted"
    assert "Look each day" in panel.view.finding
    assert "every" not in panel.view.finding


def test_a_slow_hose_and_rain_change_the_answer(open_session):
    """The first panel follows the can, the hose and the rain of the second."""
    _, (panel, hose, _), _ = _water(open_session)
    before = panel.view.finding
    hose.controls["seconds_us"].value = 600
    assert panel.view.finding != before
    hose.controls["rain_in"].value = 20
    assert "The rain was enough" in panel.view.finding


def test_every_view_is_drawn(open_session):
    """No view of either fold ends in a problem or the broken-page sentence."""
    for open_fold in (_water, _pots):
        _, shown, checks = open_fold(open_session)
        for panel in shown:
            for name, control in panel.controls.items():
                for option in getattr(control, "options", ()):
                    control.value = option[1]
                    assert panel.message.value == "", (panel.spec.id, name, option, panel.message.value)
        assert all(check.children[0].value for check in checks)


def test_without_a_record_the_days_are_typed(open_session, monkeypatch):
    """Neither record nor normals: three kinds of day, said as such, and a sentence in place of the chart."""
    from gardenlib.panels.beds import water, water_year

    monkeypatch.setattr(water, "weekly_of", lambda session: None)
    monkeypatch.setattr(water_year, "weekly_of", lambda session: None)
    _, (panel, _, season), _ = _water(open_session)
    assert [value for _, value in panel.controls["weather"].options] == ["day cool", "day mild", "day hot"]
    assert "No weather record" in panel.notes.value
    assert "cannot be drawn" in season.view.finding


@pytest.mark.parametrize("open_fold", [_water, _pots])
def test_each_slip_has_its_own_reply(open_session, open_fold):
    """Three answers to each check, one of them holds, three replies."""
    session, _, checks = open_fold(open_session)
    for check in checks:
        replies = check._check.replies(session)
        assert [reply.holds for reply in replies].count(True) == 1
        assert len({session.voice.say(reply.reply) for reply in replies}) == 3
        assert len({session.voice.say(reply.words) for reply in replies}) == 3


def test_a_trade_pot_holds_less_than_its_name(open_session):
    """Sold as 5 gallons, 3.8 to 4.1 in the lists (three lists); a bag of 5 holds 5."""
    _, (panel, *_), _ = _pots(open_session)
    assert "3.8" in panel.view.finding
    assert "4.1 gal" in panel.view.finding
    assert "less than its name" in panel.view.finding
    panel.controls["sold"].value = "bag 5"
    assert "less than its name" not in panel.view.finding


def test_one_day_reads_each_day(open_session):
    """A gap of one day is not written as every 1 day."""
    _, (panel, *_), _ = _water(open_session)
    panel.controls["stage"].value = "just_planted"
    assert "with your hose, each day." in panel.view.finding


def test_seeds_are_not_told_of_a_gap(open_session):
    """Seeds have no interval, so nothing is said of coming too often."""
    _, (panel, *_), _ = _water(open_session)
    assert "too often" in panel.notes.value
    panel.controls["stage"].value = "unsprouted"
    assert "too often" not in panel.notes.value


def test_metric_depths_are_whole(open_session):
    """Depths read in whole millimetres, and the drip line by ten metres."""
    session, (panel, *_), _ = _water(open_session)
    session.save_fields("household", units="metric")
    words = panel.view.table.to_string()
    assert "each 10 m" in words
    assert not re.search(r"\d\.\d+ mm", words)


def test_days_of_opening_in_disorder_leave_all_months(open_session):
    """A class whose garden closes before it opens is offered all twelve months."""
    session = open_session(guesses=GUESSES)
    weekly = weather.weekly_of(session)
    last, first = session.season[0], session.season[1]
    disorder = SimpleNamespace(
        voice=session.voice, opens=first, closes=last, season=session.season, today=session.today
    )
    shown, usual = weather.weathers(disorder, weekly)
    assert len(shown) == 12
    assert usual == "month 2"


def test_the_class_s_bed_is_named(open_session):
    """The water is for the class's bed, and the fold says so."""
    _, (panel, *_), _ = _water(open_session)
    assert "The class&#x27;s bed stands in" in panel.notes.value


def test_a_pot_of_one_gallon_is_singular(open_session):
    """One gallon is not written as 1 gallons."""
    _, (panel, *_), _ = _pots(open_session)
    panel.controls["sold"].value = "pot 1"
    assert panel.view.finding.startswith("Sold as 1 gallon, ")


def test_drip_minutes_are_for_lines_as_far_apart_as_they_are_bought(open_session):
    """Penn State's table: 27 gallons an hour for 100 ft bring an inch to 30 inches in 5.8 hours; here 30 cm a line."""
    _, (panel, *_), _ = _water(open_session)
    row = panel.view.table.set_index("What")["How much"]
    minutes = float(next(n for what, n in row.items() if "drip line" in what))
    inches = float(row["depth over the bed"].split()[0])
    assert minutes == pytest.approx(5.8 * 60 * inches * 30 / (30 * 2.54), rel=0.03)
