"""Page 03: the bed in lines, the form by numbers, and what to get."""

import re

import pytest

from gardenlib import panels
from gardenlib.panels.beds import line_bed
from gardenlib.panels.form import Form

GUESSES = {"03.lines.guess": "mean"}
BED = {"id": "bed-1", "length_m": 3.6576, "width_m": 1.2192, "bearing_deg": 90}


def _open(open_session, **how):
    session = open_session(guesses=GUESSES)
    session.save("beds", [{**BED, **how}])
    return session, panels.beds.lines.panel(session)


def _form(session):
    fold = panels.beds.set_lines.fold(session)
    fold.opener.value = True
    return next(part for part in fold._body.children if isinstance(part, Form))


def test_the_guess_comes_first(open_session):
    """Before a guess is kept nothing is shown."""
    panel = panels.beds.lines.panel(open_session(guesses={}))
    assert panel.view is None
    panel.children[0].answers.value = "mean"
    panel.children[0]._keep()
    assert panel.view.chart.startswith("<svg")


def test_a_line_is_read_from_a_named_edge(open_session):
    """In an east-west bed of the north, lines are measured from the north edge, plants from the west end."""
    _, panel = _open(open_session)
    assert "From the north edge" in panel.view.table.columns
    assert "north edge" in panel.notes.value
    assert "west edge" in panel.notes.value
    assert re.search(r"\d+ in", panel.view.table.iloc[0, 1])


def test_an_unknown_direction_is_said(open_session):
    """Without a direction no wind is named."""
    _, panel = _open(open_session, bearing_deg=None)
    assert "From the edge you start from" in panel.view.table.columns
    assert "not known yet" in panel.notes.value


def test_plants_are_changed_and_a_line_is_kept_by_numbers(open_session):
    """What the form saves is in the plot file and in the picture; other fields of the planting stay."""
    session, panel = _open(open_session)
    crop = line_bed.crop_ids(session)[0]
    session.save("plantings", [{"id": "planting-1", "crop": crop, "season": "fall", "started": "bought"}])
    form = _form(session)
    form.fields["plants"].value, form.fields["keep"].value = 3, 24
    form.submit()
    assert "Saved" in form.reply.value
    saved = session.plot.plantings[0]
    assert (saved.plants, saved.season, saved.started) == (3, "fall", "bought")
    kept = panel.view.table[panel.view.table.iloc[:, 2].str.contains("kept here")]
    assert kept.iloc[0, 1] == "24 in"


def test_a_kept_line_without_room_is_refused_and_nothing_is_saved(open_session):
    """A line at the very edge is one sentence, not a saved plot."""
    session, _ = _open(open_session)
    form = _form(session)
    form.fields["keep"].value = 0.1
    form.submit()
    assert "too near an edge" in form.reply.value
    assert not any(planting.plants for planting in session.plot.plantings)


@pytest.mark.parametrize("value", ["gap", "from_line", "added"])
def test_each_answer_of_the_check_has_a_reply(open_session, value):
    """Every foreseen mistake is answered; the gap between 14 and 26 inches is 12."""
    session = open_session(guesses=GUESSES)
    box = panels.beds.lines.check(session)
    words = dict(box.answers.options)
    assert words["12 in"] == "gap"
    box.answers.value = value
    box._answered()
    assert ("Look again" in box.reply.value) == (value != "gap")


def test_to_get_shows_what_the_lines_need(open_session):
    """A bed of 12 by 4 feet under 3 inches takes 12 cubic feet of mulch."""
    session, _ = _open(open_session)
    fold = panels.beds.to_get.fold(session)
    fold.opener.value = True
    inside = fold._body.children[0]
    inside.controls["depth"].value = 1
    assert "12" in inside.view.table.set_index("To get").loc["mulch", "How much"]
    assert "common practice" in inside.notes.value


def test_families_are_noted(open_session):
    """What stands in the bed is listed by family, for the rotation of later years."""
    _, panel = _open(open_session)
    assert "Families, to note for the years to come: " in panel.notes.value
    assert "cabbage family: cabbage" in panel.notes.value


def test_lines_out_of_reach_are_named(open_session):
    """A child reaches half as far as a bed of 3 m is wide; in a narrow bed every line is within reach."""
    session, panel = _open(open_session, width_m=3.0, reach="child")
    session.save_fields("household", people=8, eat=[{"crop": crop} for crop in ("tomato", "cabbage_main", "kale")])
    assert "farther in than you reach" in panel.notes.value
    _, panel = _open(open_session, width_m=0.6, reach="one")
    assert "We took the north edge" in panel.notes.value
    _, panel = _open(open_session, width_m=0.6, reach="both")
    assert "farther in than you reach" not in panel.notes.value


def test_a_stand_in_bed_is_named(open_session):
    """Without a bed and a plan of one's own those of the class stand in, and the page says so."""
    session = open_session(guesses=GUESSES)
    panel = panels.beds.lines.panel(session)
    assert "The class&#x27;s bed stands in" in panel.notes.value
    assert "those of the class&#x27;s plan" in panel.notes.value
    planned = {planting.crop: planting.plants for planting in session.klass.class_plot.plantings}
    assert all(line_bed.plants_wanted(session, crop) == planned[crop] for crop in line_bed.crop_ids(session))
