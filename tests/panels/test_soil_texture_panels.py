"""Page 02: the key by feel, and the fold on the jar."""

import re

import pytest

from gardenlib import panels
from gardenlib.charts import theme
from gardenlib.panels.check import CheckBox
from gardenlib.panels.panel import Panel

GUESSES = {"02.feel.guess": "coarse", "02.jar.guess": "hour"}


def _feel(open_session, **how):
    session = open_session(**{"guesses": GUESSES, **how})
    return session, panels.soil.feel.panel(session)


def _jar(open_session, **how):
    session = open_session(**{"guesses": GUESSES, **how})
    fold = panels.soil.jar.fold(session)
    fold.opener.value = True
    inside = fold._body.children[0].children
    boxes = [part for part in inside if isinstance(part, Panel)]
    return session, *boxes, [part for part in inside if isinstance(part, CheckBox)]


def _walk(panel, **answers):
    for name, answer in answers.items():
        panel.controls[name].value = answer


@pytest.mark.parametrize("which", ["feel", "jar"])
def test_the_guess_comes_first(open_session, which):
    """Before a guess is kept nothing is shown; after it the panel opens."""
    panel = _feel(open_session, guesses={})[1] if which == "feel" else _jar(open_session, guesses={})[1]
    assert panel.view is None
    guess = panel.children[0]
    guess.answers.index = 0
    guess.children[2].click()
    assert panel.view is not None


def test_feel_asks_one_question_after_the_other(open_session):
    """A question shows once the answers before it lead there."""
    _, panel = _feel(open_session)
    hidden = [name for name, control in panel.controls.items() if control.layout.display == "none"]
    assert hidden == ["ribbon", "feel"]
    _walk(panel, ball="yes")
    assert panel.controls["ribbon"].layout.display is None
    assert panel.controls["feel"].layout.display == "none"
    _walk(panel, ribbon="long")
    assert panel.controls["feel"].layout.display is None
    _walk(panel, ball="no")
    assert panel.controls["ribbon"].layout.display == panel.controls["feel"].layout.display == "none"
    assert "your soil is sand" in panel.view.finding


def test_feel_ends_at_the_class_of_the_diagram(open_session):
    """A middle ribbon with neither grit nor flour is clay loam (Thien 1979); the guess is set beside it."""
    _, panel = _feel(open_session)
    _walk(panel, ball="yes", ribbon="middle", feel="neither")
    assert "clay loam" in panel.view.finding
    assert "You guessed coarse; your hand says fine." in panel.notes.value
    assert "Unchecked" in panel.notes.value
    panel._fold.opener.value = True
    assert "Thien" in panel._working.value


def test_feel_is_kept_only_by_the_button(open_session):
    """Walking saves nothing in the soil section; the button does, and says what stood there before."""
    session, panel = _feel(open_session)
    panel.keep_result()
    assert "Answer the next question" in panel.reply.value
    _walk(panel, ball="yes", ribbon="short", feel="smooth")
    assert session.plot.soil.texture == ""
    panel.keep_result()
    assert (session.plot.soil.texture, session.plot.soil.texture_from) == ("silt loam", "feel")
    _walk(panel, feel="gritty")
    assert panel.reply.value == ""
    panel.keep_result()
    assert "Before, it was silt loam" in panel.reply.value
    assert session.plot.soil.texture == "sandy loam"


@pytest.mark.parametrize("which", ["feel", "jar"])
def test_lab_stands_over_hand_and_jar(open_session, which):
    """A texture from the lab's sheet is not replaced; one sentence says so."""
    session, panel = _feel(open_session) if which == "feel" else (_jar(open_session)[0], None)
    session.save_fields("soil", texture="loam", texture_from="lab", sand_pct=40, silt_pct=40, clay_pct=20)
    if panel is None:
        panel = _jar(open_session)[3]
    else:
        _walk(panel, ball="no")
    panel.keep_result()
    assert "stays" in panel.reply.value
    assert panel.session.plot.soil.texture == "loam"
    assert panel.session.plot.soil.clay_pct == 20


def test_feel_walk_is_there_again(open_session):
    """Opened again, the page shows the answers as they were left."""
    session, panel = _feel(open_session)
    _walk(panel, ball="yes", ribbon="short", feel="neither")
    again = panels.soil.feel.panel(session)
    assert again.view.finding == panel.view.finding
    assert again.controls["feel"].layout.display is None


def test_jar_times_follow_height_and_warmth(open_session):
    """At 4 in and 68 F silt takes 7.9 hours (by Stokes 7.7 h for 10 cm at 20 C); in colder water it takes longer."""
    _, times, _, _, _ = _jar(open_session)
    times.controls["height_in"].value = 4
    assert times.view.table.iloc[1, 1] == "8 hours"
    assert times.view.table.iloc[0, 1] == "45 seconds"
    times.controls["water_f"].value = 50
    assert times.view.table.iloc[1, 1] == "10 hours"  # 10.1 h for 10 cm at 10 C in the reference table
    assert "2 to 6 hours" in times.notes.value


def test_jar_shows_class_neighbours_and_doubt(open_session):
    """Marks at 45, 66 and 75 mm (worked by hand: 60, 28, 12) are sandy loam; the doubt is told."""
    session, _, _, marks, _ = _jar(open_session)
    session.save_fields("household", units="metric")
    _walk(marks, marks_sand_cm=4.5, marks_silt_cm=6.6, marks_clay_cm=7.5)
    assert "sandy loam" in marks.view.finding
    assert marks.view.table.iloc[:, 1].tolist() == ["60", "28", "12"]
    assert "Fresh clay is loose" in marks.notes.value
    assert "no source" in marks.notes.value
    marks._fold.opener.value = True
    assert "Montana" in marks._working.value


def test_falling_marks_get_a_sentence(open_session):
    """A mark below the one under it: one sentence beside the controls, no picture."""
    _, _, _, marks, _ = _jar(open_session)
    marks.controls["marks_clay_in"].value = 0.5
    assert "below the one under it" in marks.message.value
    assert marks.picture.value == ""
    marks.keep_result()
    assert "below the one under it" in marks.reply.value


def test_layers_have_their_own_numbers(open_session):
    """After a change to layers the panel asks for layers, with numbers of their own; so has each unit."""
    session, _, way, marks, _ = _jar(open_session)
    marks.controls["marks_sand_in"].value = 1.5
    way.controls["way"].value = "layers"
    assert list(marks.controls) == ["layers_sand_in", "layers_silt_in", "layers_clay_in"]
    assert marks.controls["layers_sand_in"].value == 1.2
    way.controls["way"].value = "marks"
    assert marks.controls["marks_sand_in"].value == 1.5
    session.save_fields("household", units="metric")
    assert list(marks.controls) == ["marks_sand_cm", "marks_silt_cm", "marks_clay_cm"]


def test_jar_goes_into_the_plot(open_session):
    """The button saves class and shares from the jar; feel later replaces them and clears the shares."""
    session, _, _, marks, _ = _jar(open_session)
    _walk(marks, marks_sand_in=1.0, marks_silt_in=3.0, marks_clay_in=4.0)
    marks.keep_result()
    kept = session.plot.soil
    assert (kept.texture, kept.texture_from) == ("silt loam", "jar")
    assert (kept.sand_pct, kept.silt_pct, kept.clay_pct) == (25, 50, 25)
    panel = panels.soil.feel.panel(session)
    _walk(panel, ball="no")
    panel.keep_result()
    assert session.plot.soil.clay_pct is None


@pytest.mark.parametrize(
    ("number", "choice", "told"),
    [
        (0, "mark", "Take the sand off first"),
        (0, "added", "Marks do not add up"),
        (1, "water", "with the water"),
        (1, "third", "not alike"),
    ],
)
def test_mistakes_with_the_jar_are_named(open_session, number, choice, told):
    """Marks read as layers, and the water counted as soil, get their own reply."""
    *_, checks = _jar(open_session)
    checks[number].answers.value = choice
    checks[number].children[2].click()
    assert told in checks[number].reply.value
    assert "Look again" in checks[number].reply.value


@pytest.mark.parametrize(("choice", "told"), [("clay", "Clay is sticky"), ("sandy", "gritty"), ("right", "Yes.")])
def test_check_by_feel(open_session, choice, told):
    """Smooth taken for clay, and flour taken for sand, get their own reply; the right answer is told so."""
    check = panels.soil.feel.check(open_session(guesses=GUESSES))
    check.answers.value = choice
    check.children[2].click()
    assert told in check.reply.value


@pytest.mark.parametrize("number", [0, 1])
def test_right_answers_on_the_jar(open_session, number):
    """The right answer is told so; the numbers are worked out by hand (1 of 4, 2 of 4)."""
    *_, checks = _jar(open_session)
    checks[number].answers.value = "right"
    checks[number].children[2].click()
    assert "Yes." in checks[number].reply.value


def _words_that_run_out(picture):
    """List the words of a drawing that end beyond its right edge or begin before its left one."""
    found = []
    centred = 'text-anchor="middle"' in picture
    for x, words in re.findall(r'<text x="([\d.]+)" y="[\d.]+">([^<]+)</text>', picture):
        left = float(x) - (theme.text_px(words) / 2 if centred else 0)
        if left < 0 or left + theme.text_px(words) > theme.CHART_PX:
            found.append(words)
    return found


@pytest.mark.parametrize("units", ["us", "metric"])
def test_words_of_the_drawings_stay_inside(open_session, units):
    """In both unit systems, with the longest times, no label of a drawing runs out of it."""
    session, panel = _feel(open_session)
    session.save_fields("household", units=units)
    pictures = [panel.view.chart]
    _walk(panel, ball="yes")
    pictures.append(panel.view.chart)
    _walk(panel, ribbon="long")
    pictures.append(panel.view.chart)
    _, times, way, _, _ = _jar(open_session)
    _walk(times, **({"height_in": 20, "water_f": 35} if units == "us" else {"height_cm": 50, "water_c": 2}))
    pictures += [times.view.chart, way.view.chart]
    way.controls["way"].value = "layers"
    pictures.append(way.view.chart)
    assert all("<text" in picture for picture in pictures)
    assert [words for picture in pictures for words in _words_that_run_out(picture)] == []
