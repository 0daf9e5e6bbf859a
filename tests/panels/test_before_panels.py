"""Page 05, two folds: before it happens, and diseases."""

from dataclasses import replace

import pytest

from gardenlib import panels
from gardenlib.panels.check import CheckBox
from gardenlib.panels.panel import Panel
from gardenlib.words import texts

OWN = {"05.before.guess": "most", "05.disease.guess": "some"}


def _fold(open_session, which, *, guesses=OWN, metric=False, rule=None):
    session = open_session(guesses=guesses)
    if metric:
        session.save_fields("household", units="metric")
    if rule is not None:
        session.klass = replace(session.klass, spray_rule=rule)
    fold = getattr(panels.pests, which).fold(session)
    fold.opener.value = True
    return list(fold._body.children[0].children)


def _panels(parts):
    return [part for part in parts if isinstance(part, Panel)]


def test_the_caution_comes_first(open_session):
    """Before anything else of the fold: the label, gloves, days to harvest, license, office, and the garden's rule."""
    first = _fold(open_session, "before")[0].value
    assert "gl-caution" in first
    for word in ("Nothing is sprayed in class", "label is the law", "gloves", "days to wait", "licensed", "extension"):
        assert word in first
    assert "consent of the garden" in first


def test_a_garden_without_a_rule_is_told_to_ask(open_session):
    """Where the class has no spray rule written down, the caution says whom to ask."""
    assert "written down no rule" in _fold(open_session, "before", rule="")[0].value


def test_a_rule_is_shown_as_text(open_session):
    """The class's own words are never HTML and never a place to fill in."""
    assert "&lt;b&gt;{n}" in _fold(open_session, "before", rule="<b>{n}")[0].value


@pytest.mark.parametrize("which", ["before", "disease"])
def test_the_guess_comes_first(open_session, which):
    """Before a guess is kept the first panel shows no answer; after it, what the sources say."""
    panel = _panels(_fold(open_session, which, guesses={}))[0]
    assert panel.view is None
    box = next(part for part in panel.children if hasattr(part, "answers"))
    box.answers.index = 0
    box.children[2].click()
    assert panel.view.chart


def test_cover_goes_on_and_stays(open_session):
    """The learner's cabbage is covered the day it is out, on rotated ground, and stays covered to harvest."""
    cover = _panels(_fold(open_session, "before"))[0]
    cover.controls["crop"].value = "cabbage_main"
    cover.controls["ground"].value = "rotated"
    assert "Cover cabbage on the day" in cover.view.finding
    assert "until you harvest, from about" in cover.view.finding
    cover.controls["crop"].value = "cucumber"
    assert "off at the first flower" in cover.view.finding
    assert "Bees must reach" in cover.notes.value
    cover.controls["ground"].value = "same"
    assert cover.view.finding.startswith("Do not cover cucumber in this bed")
    assert "hatch under the cover" in cover.notes.value


def test_holes_stay_in_millimeters(open_session):
    """The trade's unit stays in both systems, and sizes read nowhere are called unchecked."""
    for metric in (False, True):
        cover = _panels(_fold(open_session, "before", metric=metric))[0]
        cover.controls["crop"].value = "cabbage_main"
        cover.controls["hole"].value = 0.4
        assert "0.4 mm" in cover.view.finding
        table = cover.view.table.set_index("pest")
        assert table.loc["whitefly", "largest hole, mm"] == "0.462"
        assert tuple(table.loc["whitefly", ["kept out", "figure"]]) == ("yes", "published")
        assert table.loc["aphids (plant lice)", "kept out"] == "no"
        assert table.loc["flea beetle", "figure"] == "unchecked"
        assert ("50 mm" if metric else "2 in") in cover.view.chart


def test_trials_name_their_place(open_session):
    """Each trial stands with its place; the Solomon Islands' nets took 72 and 38 in 100 away (abstract)."""
    table = _panels(_fold(open_session, "before"))[1].view.table
    found = dict(table.itertuples(index=False))
    fine = next(text for trial, text in found.items() if trial.startswith("Fine net"))
    assert "72 in 100 less" in fine
    assert all(any(letter.isupper() for letter in trial[1:]) or "same trial" in trial for trial in found)


def test_the_spray_has_no_name_and_no_amount():
    """What is said of a spray holds no number, product or strain, and comes after picking and covering in rank."""
    text = texts("en")["before.spray"]
    assert not any(sign.isdigit() for sign in text)
    assert not any(name in text.lower() for name in ("bt ", "bacillus", "kurstaki", "spinosad", "neem", "ounce"))
    assert text.endswith("Picking, washing and covering come first.")


def test_clubroot_by_history(open_session):
    """One year after cabbage clubroot keeps the bed; after seven full years 20 to 45 of 100 spores still live."""
    bed = _panels(_fold(open_session, "disease"))[0]
    bed.controls["disease"].value = "clubroot"
    bed.controls["last"].value = 1
    assert "Grow it in another bed in 2027" in bed.view.finding
    bed.controls["last"].value = 8
    assert "enough for all of them" in bed.view.finding
    assert "20 to 45 of 100" in bed.view.finding
    assert "7.2" in bed.notes.value


def test_every_disease_is_shown(open_session):
    """Each disease says what it looks like and how it comes, and has its figures with a source."""
    bed = _panels(_fold(open_session, "disease"))[0]
    for _, disease in bed.controls["disease"].options:
        bed.controls["disease"].value = disease
        assert not bed.message.value
        assert texts("en")[f"disease.how_{disease}"] in bed.notes.value.replace("&#x27;", "'")
        assert bed.view.table["source"].str.len().min() > 10


def test_the_caution_stands_before_the_disease(open_session):
    """Trash, washing, lime dust and the extension office are named before any control or number."""
    bed = _panels(_fold(open_session, "disease"))[0]
    assert "gl-caution" in bed.children[0].value
    for word in ("No spray cures", "extension office", "trash", "lime dust"):
        assert word in bed.children[0].value


def test_evening_sprinkling_passes_nine_hours(open_session):
    """Eight hours of dew are under nine; three more from the evening pass it (University of Connecticut: over 9)."""
    wet = _panels(_fold(open_session, "disease"))[1]
    assert "needs more than 9 hours" in wet.view.finding
    wet.controls["sprinkled"].value = "evening"
    assert wet.view.finding.startswith("Leaves stay wet for 11 hours")
    assert "added 3 hours" in wet.view.finding
    wet.controls["sprinkled"].value = "morning"
    assert wet.view.finding.startswith("Leaves stay wet for 8 hours")


@pytest.mark.parametrize(("which", "right"), [("before", ["moved"]), ("disease", ["thanks", "both"])])
def test_each_slip_gets_its_own_reply(open_session, which, right):
    """Each answer of each check has a reply of its own, and one of them holds."""
    boxes = [part for part in _fold(open_session, which) if isinstance(part, CheckBox)]
    held = []
    for box in boxes:
        replies = set()
        for _, value in box.answers.options:
            box.answers.value = value
            box.children[2].click()
            replies.add(box.reply.value)
            if "gl-good" in box.reply.value:
                held.append(value)
        assert len(replies) == len(box.answers.options) == 3
    assert held == right
