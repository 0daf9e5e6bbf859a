"""Panels: the guess first, one sentence for a problem, nothing of another plot."""

import json

import pytest

from gardenlib import charts, panels
from gardenlib.panels.panel import Panel, Spec
from gardenlib.problems import InputProblem
from gardenlib.words import Said


def everything(widget) -> str:
    """Gather every text that a widget and its children hold."""
    texts = [str(getattr(widget, name, "")) for name in ("value", "description", "options", "placeholder")]
    return " ".join(texts + [everything(child) for child in getattr(widget, "children", ())])


def simple_spec(view, controls=None) -> Spec:
    """Make a panel without a guess around a view."""
    return Spec("test.panel", Said("risk.title"), controls or (lambda session: {}), view)


def test_picture_stays_hidden_until_a_guess_is_kept(open_session):
    """Before a guess nothing of the answer is on the page; after it, what was said stands beside what is so."""
    session = open_session(guesses={})
    panel = panels.risk.panel(session)
    assert panel.view is None
    assert "<svg" not in everything(panel)
    box = panel.children[0]
    box.answers.value = "9"
    box.children[2].click()
    assert "about 9 of 10" in everything(panel)
    assert "about 5 of 10" in everything(panel)
    assert "<svg" in panel.picture.value
    assert session.guess("01.risk.guess") == "9"


def test_guess_without_a_choice_asks_for_one(open_session):
    """Keeping a guess before choosing says so and keeps nothing."""
    session = open_session(guesses={})
    panel = panels.risk.panel(session)
    panel.children[0].children[2].click()
    assert "Choose one first" in everything(panel)
    assert session.guess("01.risk.guess") is None


def test_error_in_a_callback_becomes_a_sentence_and_a_log(open_session):
    """An unforeseen error shows one plain sentence beside the control and writes its trace to the log."""

    def broken(session, values):
        raise ZeroDivisionError("deep inside")

    session = open_session()
    panel = Panel(session, simple_spec(broken))
    assert "Something broke" in panel.message.value
    assert "deep inside" not in everything(panel)
    assert "ZeroDivisionError: deep inside" in session.path.with_suffix(".log").read_text("utf-8")


def test_problem_becomes_its_own_sentence(open_session):
    """A problem with the input is shown as it is, and the old picture is taken away."""
    bad = []

    def view(session, values):
        if bad:
            raise InputProblem("place.no_file")
        return charts.View("Fine.", None, None, "Fine.")

    panel = Panel(open_session(), simple_spec(view))
    assert "Fine." in panel.picture.value
    bad.append(True)
    panel.redraw()
    assert "No file was chosen" in panel.message.value
    assert panel.picture.value == ""


def test_controls_come_back_as_they_were_left(open_session):
    """A page that is opened again shows each control as the learner left it."""
    first = panels.risk.panel(open_session())
    first.controls["springs"].value = 3
    first.controls["threshold_f"].value = 28
    again = panels.risk.panel(open_session())
    assert again.values == {"springs": 3, "threshold_f": 28}


def test_another_plot_shows_nothing_of_the_first(open_session, tmp_path, shown):
    """After switching plots, neither the page nor what a saved copy keeps holds anything of the first."""
    other = open_session("other.json")
    other.save_fields("household", eat=[{"crop": crop} for crop in ("kale", "radish", "beet")], people=3)
    session = open_session()
    session.save_fields("household", eat=[{"crop": crop} for crop in ("tomato", "pepper", "basil")], people=2)
    parts = [panels.my_list.panel(session), panels.sowing.panel(session), panels.sowing.check(session)]
    parts += [panels.start.cold(session)]
    panels.results(session, panels.my_list.results)
    assert "tomato" in " ".join(everything(part) for part in parts)
    del shown[:]
    session.load(tmp_path / "other.json")
    now = " ".join(everything(part) for part in parts[:1] + parts[3:]) + json.dumps(shown)
    assert "kale" in now
    assert not any(crop in now for crop in ("tomato", "basil"))


@pytest.mark.parametrize("hostile", ["<script>alert(1)</script>", "<img src=x onerror=alert(1)>"])
def test_outside_text_is_escaped(open_session, hostile):
    """Words from files and forms never become HTML."""
    session = open_session()
    session.save_fields("site", way="typed", dates_from=hostile, last_freeze_50="04-25", first_freeze_50="10-12")
    panel = panels.place.panel(session)
    assert hostile not in panel.picture.value
    assert hostile.replace("<", "&lt;").replace(">", "&gt;") in panel.picture.value


def test_fold_is_built_when_first_opened(open_session):
    """A fold marked "more" costs nothing until it is opened, and says how long it takes."""
    fold = panels.climate.zone(open_session())
    assert "3 min" in fold.opener.description
    assert fold._body.children == ()
    fold.opener.value = True
    assert "zone" in everything(fold._body)


def test_working_shows_the_computed_steps(open_session):
    """The working that is shown holds the very date of the finding."""
    session = open_session()
    panel = panels.risk.panel(session)
    panel._fold.opener.value = True
    day = session.freezes.date("spring", 32, 0.1, year=2027)
    assert session.voice.date(day) in panel._working.value
    assert session.voice.date(day) in panel.view.finding


def test_check_teaches_and_remembers(open_session):
    """A wrong choice is answered with what to look at, the right one with why; the last choice is kept."""
    session = open_session()
    box = panels.place.check_zone(session)
    box.answers.value = "sow"
    box.children[2].click()
    assert "Look again" in box.reply.value
    assert "wrong" not in box.reply.value.lower()
    box.answers.value = "winter"
    box.children[2].click()
    assert "Yes" in box.reply.value
    assert session.plot.answers["01.zone.check"] == {"choice": "winter", "holds": True, "tries": 2, "page": "test"}


def test_units_change_every_part(open_session):
    """Changing the units on page 00 redraws the open panels in them."""
    session = open_session()
    risk, settings = panels.risk.panel(session), panels.start.settings(session)
    assert "32 °F" in risk.view.finding
    settings.controls["units"].value = "metric"
    assert "0 °C" in risk.view.finding


def test_guess_follows_a_change_of_crops(open_session):
    """After other crops are chosen, what the guess is told and the finding below it count the same crops."""
    session = open_session()
    panel = panels.start.cold(session)
    session.save_fields("household", people=4, eat=[{"crop": c} for c in ("pepper", "kale", "carrot", "okra")])
    assert "2 of your 4 crops" in panel.view.finding
    assert "2 of 4" in everything(panel.children[0])
