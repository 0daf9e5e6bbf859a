"""Page 02, a fold: what the bag of lime says."""

import pytest

from gardenlib import panels


def _open(open_session, *, units="us"):
    session = open_session(guesses={"02.bag.guess": "half"})
    if units != "us":
        session.save_fields("household", units=units)
    fold = panels.soil.bag.fold(session)
    fold.opener.value = True
    return session, fold._body.children[0].children


def test_the_caution_comes_first_and_the_guess_before_the_number(open_session):
    """Dust is named before any number, and without a guess there is no answer."""
    session = open_session(guesses={})
    fold = panels.soil.bag.fold(session)
    fold.opener.value = True
    panel = fold._body.children[0].children[0]
    assert "dust" in panel.children[0].value
    assert panel.view is None


@pytest.mark.parametrize("units", ["us", "metric"])
def test_a_label_is_read(open_session, units):
    """Iowa's printed example (PM 1688: 100, 90, 55; CCE 92): fineness 70, and without water 64 of 100."""
    _, (panel, _) = _open(open_session, units=units)
    assert "4, 8, 60 mesh" in panel.view.finding
    panel.controls["cce"].value = 92
    panel.controls["passing"].value = "100 90 55"
    assert "64" in panel.view.finding
    assert ("pounds" if units == "us" else "kg") in panel.view.finding
    assert panel.view.table.iloc[-2, 1] == 70
    assert "which lime its rate means" in panel.notes.value


@pytest.mark.parametrize("typed", ["100 90", "100, 90, 55", "a b c", "6,2", "100 90 55 1", "nan 1 1"])
def test_slips_get_a_sentence(open_session, typed):
    """What cannot be read gets a sentence beside the control and no number."""
    session, (panel, _) = _open(open_session)
    panel.controls["passing"].value = typed
    assert panel.message.value
    assert session.voice.say("page.broken") not in panel.message.value
    assert panel.picture.value == ""


def test_percents_of_what_lies_between_are_noticed(open_session):
    """Percents that rise from coarse to fine get the sentence that names the slip."""
    _, (panel, _) = _open(open_session)
    panel.controls["passing"].value = "10 35 55"
    assert "not what lies between" in panel.message.value


def test_each_mistake_has_its_own_reply(open_session):
    """Passing taken as between, and the CCE forgotten, each get their own reply."""
    session, (_, box) = _open(open_session)
    assert sum(reply.holds for reply in box._replies.values()) == 1
    assert len({session.voice.say(reply.reply) for reply in box._replies.values()}) == 3
    box.answers.value = "between"
    box.children[2].click()
    assert "Take them off first" in box.reply.value
