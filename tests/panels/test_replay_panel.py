"""Page 07: the plan in past springs, and what if one planting were changed."""

from dataclasses import replace

import numpy as np
import pytest

from gardenlib import panels
from gardenlib.panels.season import replay_here, what_if
from gardenlib.panels.season.replay import in_ten
from gardenlib.words import Voice

OWN = {"07.replay.guess": "half"}
BY_DATES = {"laid_out": None}


def _open(open_session, **how):
    session = open_session(guesses=how.pop("guesses", OWN), **how)
    return session, panels.season.replay.panel(session)


def _what_if(open_session):
    session = open_session(guesses=OWN)
    fold = what_if.fold(session)
    fold.opener.value = True
    panel, form = fold._body.children[0].children
    return session, panel, form


def _left_without_record(session):
    session.__dict__.update(place=replace(session.place, station=None), **BY_DATES)


def test_the_guess_comes_first_and_the_truth_is_counted(open_session):
    """Before the guess nothing is shown; after it the count of springs in which all plantings worked."""
    session, panel = _open(open_session, guesses={})
    assert panel.view is None
    panel.children[0].answers.index = 1
    panel.children[0].children[2].click()
    table = replay_here.replay_here(session, replay_here.plantings_here(session)[0]).table
    worked = int(table.groupby("year")["worked"].all().sum())
    assert f"in {worked} of {table['year'].nunique()} springs" in panel.children[0].children[1].value
    assert panel.view.chart


def test_each_planting_has_its_row_and_a_mark_a_spring(open_session):
    """Five plantings of the class, the whole plan first; a chosen one has what stands beside the verdict."""
    _, panel = _open(open_session)
    assert panel.view.finding.startswith("All of the plan")
    assert panel.view.table["planting"].tolist() == ["cabbage", "leaf lettuce", "pea", "tomato", "bush bean"]
    assert "plan of the class" in panel.notes.value
    panel.controls["planting"].value = "planting-1"
    assert panel.view.finding.startswith("Cabbage:")
    assert "too hot" in panel.notes.value
    assert "rule is our own" in panel.notes.value
    assert "New years may differ" in panel.notes.value
    for decade in ("1980s", "2020s"):
        assert decade in panel.view.chart


def test_its_words_name_no_bare_percentage(open_session):
    """On the core path a count is written in springs."""
    _, panel = _open(open_session)
    for text in (panel.view.finding, panel.notes.value, panel.view.alt):
        assert "%" not in text


def test_official_dates_without_a_record_get_a_sentence(open_session):
    """The page says what it cannot do, in place of the picture, and the check still asks."""
    session, panel = _open(open_session)
    _left_without_record(session)
    panel.redraw()
    assert "past seasons cannot be replayed" in panel.view.finding
    assert panel.picture.value == ""
    box = panels.season.replay.check(session)
    assert "31 of 40" in box.children[0].value


def test_an_empty_plan_takes_the_crops_that_are_eaten(open_session):
    """Crops without plantings are planted once each, and that is said."""
    session, panel = _open(open_session)
    session.save("household", {"eat": [{"crop": "kale"}, {"crop": "tomato"}]})
    panel.build()
    assert panel.view.table["planting"].tolist() == ["kale", "tomato"]
    assert "each crop you eat was planted once" in panel.notes.value


def test_a_crop_that_cannot_be_replayed_stays_in_the_table(open_session):
    """A planting without a window is named, not dropped."""
    session, _ = _open(open_session)
    late = [{"id": "a", "crop": "tomato"}, {"id": "b", "crop": "cabbage_main", "risk": 0.01}]
    session.save("plantings", late)
    panel = panels.season.replay.panel(session)
    assert panel.view.table.iloc[1]["worked in"] == "not known"
    assert "too short for cabbage" in panel.notes.value


@pytest.mark.parametrize(("answer", "word"), [("sure", "not a promise"), ("percent", "not out of 100")])
def test_foreseen_mistakes_get_their_own_reply(open_session, answer, word):
    """A count read as certain, and 31 of 40 read as 31 of 100."""
    session = open_session(guesses=OWN)
    box = panels.season.replay.check(session)
    box.answers.value = answer
    box._answered()
    assert word in box.reply.value
    assert "Look again" in box.reply.value
    box.answers.value = "in_ten"
    box._answered()
    assert "Look again" not in box.reply.value


def test_springs_in_ten_of_a_count():
    """31 of 40 are 7.75 in 10, written 8; by hand."""
    assert (in_ten(31, 40), in_ten(1, 40), in_ten(40, 40)) == (8, 0, 10)


def test_the_old_answer_stays_beside_the_new(open_session):
    """A week later cabbage meets fewer cold nights: both counts are in table and picture."""
    _, panel, _ = _what_if(open_session)
    assert list(panel.view.table) == ["what", "as planned"]
    panel.controls["change"].value = "week_later"
    table = panel.view.table.set_index("what")
    old, new = (int(table.loc["worked in", name].split()[0]) for name in ("as planned", "changed"))
    assert new > old
    assert f"as planned: {old} of" in panel.view.chart
    assert f"changed: {new} of" in panel.view.chart
    panel.controls["change"].value = "week_earlier"
    assert "only" in panel.view.finding


def test_a_cover_says_what_is_published(open_session):
    """A row cover helps by 2 F; a tunnel has no figure and changes nothing."""
    _, panel, _ = _what_if(open_session)
    panel.controls["change"].value = "row_cover"
    assert "low end" in panel.notes.value
    assert "wind" in panel.notes.value
    panel.controls["change"].value = "tunnel"
    assert "changed or not" in panel.view.finding
    assert "adds nothing here" in panel.notes.value


def test_a_change_that_leaves_no_window_says_why(open_session):
    """At a risk of 1 in 10 cabbage comes too late for the heat: the old answer stays, the reason stands below."""
    _, panel, _ = _what_if(open_session)
    panel.controls["change"].value = "risk_1"
    assert "As planned it would have worked" in panel.view.finding
    assert "too short" in panel.notes.value
    assert list(panel.view.table) == ["what", "as planned"]


def test_a_change_is_kept_in_the_plot(open_session):
    """The button saves it; the class's plan becomes the learner's own; the next change counts from there."""
    session, panel, form = _what_if(open_session)
    form.submit()
    assert "Choose a change" in form.reply.value
    assert not session.plot.plantings
    panel.controls["change"].value = "week_later"
    form.submit()
    assert "Saved" in form.reply.value
    assert session.plot.plantings[0].moved_weeks == 1
    assert len(session.plot.plantings) == 5
    assert panel.controls["change"].value == "same"
    for _ in range(7):
        panel.controls["change"].value = "week_later"
        form.submit()
    panel.controls["change"].value = "week_later"
    assert "8 weeks at most" in panel.message.value


def test_the_picture_tells_sorts_apart_without_colour(open_session):
    """Filled, ring and dash: three shapes for three words, drawn for the longest name within the width."""
    from gardenlib.charts.replay import Run, past_seasons

    runs = [
        Run(
            "a very long name of a planting that goes on and on for two lines",
            {1999: "worked", 2000: "hurt", 2001: "late"},
        )
    ]
    words = {"worked": "it worked", "hurt": "a cold night", "late": "not ready"}
    drawn = past_seasons(runs, words=words, voice=Voice()).to_dict()
    points = drawn["datasets"]["point"]
    assert len({(point["fill"] == point["hue"]) for point in points}) == 2
    assert len(drawn["datasets"]["rule"]) == 2
    assert np.all([point["x"] <= 280 for point in points])
