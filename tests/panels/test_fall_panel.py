"""Page 04, the fold on fall crops: it shows what the library computes and never breaks."""

import importlib.util
from datetime import date

import pytest

from conftest import GUESSES
from gardenlib import panels
from gardenlib.carried import carried
from gardenlib.panels.check import CheckBox
from gardenlib.panels.panel import Panel
from gardenlib.sowing import latest_sowing

ALL = {**GUESSES, "04.fall.guess": "some"}


def _open(session):
    fold = panels.fall.fold(session)
    fold.opener.value = True
    [inside] = fold.children[1].children
    shown = [part for part in inside.children if isinstance(part, Panel)]
    return shown, [part for part in inside.children if isinstance(part, CheckBox)]


def test_both_rules_are_the_library_s(open_session):
    """The finding names the safe day and the gamble of the library."""
    session = open_session(guesses=ALL)
    (last, _), _ = _open(session)
    last.controls["crop"].value, last.controls["started"].value = "kale", "seed"
    freeze = session.freezes.date("fall", 32, 0.5, year=2027)
    for rule in ("safe", "latest"):
        day = latest_sowing("kale", freeze, rule, started="seed").date
        assert session.voice.date(day, "MMMd") in last.view.finding
    assert "gamble" in last.view.finding


def test_guess_comes_first(open_session):
    """Before the guess there are three answers and no date."""
    (last, _), _ = _open(open_session(guesses=GUESSES))
    assert last.view is None
    guess = last.children[0]
    assert len(guess.answers.options) == 3


def test_every_crop_and_start_gives_a_date_or_one_sentence(open_session):
    """No choice of the controls breaks the panel."""
    (last, _), _ = _open(open_session(guesses=ALL))
    for name in ("kale", "tomato", "garlic", "bean_bush"):
        for started in ("own", "bought", "seed"):
            last.controls["crop"].value, last.controls["started"].value = name, started
            assert last.view.finding
            assert "log" not in last.message.value


def test_still_today_in_summer(open_session):
    """In August some crops can still be sown, and those past their day are not in the table."""
    session = open_session(guesses=ALL, today=date(2027, 8, 1))
    (_, still), _ = _open(session)
    still.controls["crops"].value = "all"
    assert {"in time", "a gamble"} >= set(still.view.table["Today"])
    assert len(still.view.table)


def test_still_time_is_no_word_to_sow_in_winter(open_session):
    """In November no crop is called safe to sow today: there is time, and spring has its own dates."""
    (_, still), _ = _open(open_session(guesses=ALL, today=date(2026, 11, 27)))
    assert still.view.finding == "On Nov 27 there is still time for 4 of 4 crops."
    assert "How early you may be stands in your spring dates" in still.notes.value


def test_checks_name_the_mistake(open_session):
    """Counting on from the freeze, or taking days from plants for days from seed, gets its own reply."""
    _, (days, back) = _open(open_session(guesses=ALL))
    for box, mistake, words in ((days, "as_seed", "weeks indoors"), (back, "forward", "Count back")):
        box.answers.value = mistake
        box.children[2].click()
        assert words in box.reply.value


@pytest.mark.parametrize("where", ["never_freezes", "cold_short_season", "southern_hemisphere"])
def test_fold_opens_anywhere(open_session, tmp_path_factory, where):
    """Where it never freezes the fold says one sentence; elsewhere it gives days."""
    spec = importlib.util.spec_from_file_location("make_demo", carried("data_demo") / "make_demo.py")
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    folder = tmp_path_factory.mktemp("sites")
    script.other_sites(folder)
    (last, still), _ = _open(open_session(guesses=ALL, folder=folder / where))
    for panel in (last, still):
        assert ("Plan by the heat" in panel.view.finding) == (where == "never_freezes")
