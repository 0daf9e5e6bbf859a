"""Page 03: what fits, the bed's form, closer or wider, and rotation."""

import pytest

from gardenlib.panels.beds import closer, count, my_bed, rotation
from gardenlib.panels.check import CheckBox
from gardenlib.panels.panel import Panel

GUESSES = {"03.count.guess": "fifteen", "03.closer.guess": "same", "03.rotation.guess": "30"}
FOLDS = {"closer": closer, "rotation": rotation}


def _inside(fold):
    fold.opener.value = True
    return fold._body.children[0]


def _form(session):
    return _inside(my_bed.fold(session))


def _fill(form, **values):
    for name, value in values.items():
        form.fields[name].value = value
    form.submit()
    return form.reply.value


@pytest.mark.parametrize("name", ["count", "closer", "rotation"])
def test_the_guess_comes_first(open_session, name):
    """Before a guess is kept there is no number; afterwards there is."""
    session = open_session(guesses={})
    panel = count.panel(session) if name == "count" else _inside(FOLDS[name].fold(session))
    assert isinstance(panel, Panel)
    assert panel.view is None
    panel.children[0].answers.index = 0
    panel.children[0].children[2].click()
    assert panel.view is not None


def test_the_class_s_bed_stands_in(open_session):
    """Twelve by four feet, cabbage at 15 in: 9 by 3 in squares (worked out by hand: 144/15 and 48/15, rounded down)."""
    panel = count.panel(open_session(guesses=GUESSES))
    panel.controls["crop"].value = "cabbage_main"
    panel.controls["which"].value = "closest"
    panel.controls["pattern"].value = "square"
    assert "27 plants of cabbage" in panel.view.finding
    assert panel.view.table.iloc[0, 1] == "27"
    assert "12 ft by 4 ft" in panel.view.alt


@pytest.mark.parametrize("pattern", ["rows", "square", "offset"])
def test_every_crop_has_a_picture(open_session, pattern):
    """Each crop of the list is drawn in each pattern, and its plants stand in the table."""
    panel = count.panel(open_session(guesses=GUESSES))
    panel.controls["pattern"].value = pattern
    for _, crop in panel.controls["crop"].options:
        panel.controls["crop"].value = crop
        assert panel.message.value == ""
        assert panel.view.chart is None or panel.view.chart.startswith("<svg")
        place = ["square", "offset", "rows"].index(pattern)
        plants = int(panel.view.table.iloc[place, 1])
        assert f"{plants}" in panel.view.finding


def test_distances_from_memory_are_unchecked(open_session):
    """Basil's distance comes from memory and says so; cabbage's does not."""
    panel = count.panel(open_session(guesses=GUESSES))
    panel.controls["crop"].value = "basil"
    assert "unchecked" in panel.notes.value
    panel.controls["crop"].value = "cabbage_main"
    assert panel.notes.value == ""


def test_each_mistake_has_its_reply(open_session):
    """Area by the distance, plants on the edge, feet by inches: each is told where to look; the right one holds."""
    box = count.check(open_session(guesses=GUESSES))
    assert isinstance(box, CheckBox)
    seen = set()
    for value, reply in box._replies.items():
        box.answers.value = value
        box._answered()
        assert ("Yes." in box.reply.value) == reply.holds
        seen.add(box.reply.value)
    assert len(seen) == len(box._replies) >= 3
    # By hand, 14 by 4 ft at 15 in: 11 by 3; 56 sq ft by 1.25 ft; 12 by 4 with plants on the edge; 56 by 225.
    labels = {value: label for label, value in box.answers.options}
    assert labels == {
        "right": "33 plants",
        "not_squared": "44 plants",
        "no_margin": "48 plants",
        "units_mixed": "not even one",
    }
    assert [value for value, reply in box._replies.items() if reply.holds] == ["right"]
    assert " 33 " not in count.panel(open_session(guesses=GUESSES)).view.finding


def test_the_form_saves_the_bed_and_the_panel_follows(open_session):
    """Eight by four feet in feet becomes metres; what grew becomes families; the count follows at once."""
    session = open_session(guesses=GUESSES)
    panel = count.panel(session)
    reply = _fill(_form(session), name="My bed", length=8, width=4, depth=10, grew_1="cabbage, beans", grew_3="tomato")
    assert "8 ft by 4 ft" in reply
    bed = session.plot.beds[0]
    assert (bed.id, bed.length_m, bed.width_m) == ("bed-1", pytest.approx(2.4384), pytest.approx(1.2192))
    assert bed.depth_m == pytest.approx(0.254)
    assert bed.families == (("Brassicaceae", "Fabaceae"), (), ("Solanaceae",))
    assert panel.view.alt.startswith("A bed of 8 ft by 4 ft")


def test_metric_classes_type_metres(open_session):
    """With metric units the same fields take metres."""
    session = open_session(guesses=GUESSES)
    session.save_fields("household", units="metric")
    _fill(_form(session), length=3, width=1.2, depth=30)
    bed = session.plot.beds[0]
    assert (bed.length_m, bed.width_m, bed.depth_m) == (3, 1.2, pytest.approx(0.3))


def test_other_beds_stay(open_session):
    """Only the first bed is written; a second one is left as it was."""
    session = open_session(guesses=GUESSES)
    session.save("beds", [{"id": "bed-1", "length_m": 1, "width_m": 1}, {"id": "bed-2", "name": "herbs"}])
    _fill(_form(session), length=8, width=4, bearing=90)
    assert [bed.id for bed in session.plot.beds] == ["bed-1", "bed-2"]
    assert session.plot.beds[0].bearing_deg == 90
    assert session.plot.beds[1].name == "herbs"


@pytest.mark.parametrize(
    "values", [{"length": 0, "width": 4}, {"length": 329, "width": 4}, {"length": 8, "width": 4, "grew_1": "stones"}]
)
def test_what_cannot_be_used_saves_nothing(open_session, values):
    """No length, a length beyond any bed, or an unknown plant: one sentence, and the plot stays as it was."""
    session = open_session(guesses=GUESSES)
    assert "gl-again" in _fill(_form(session), **values)
    assert session.plot.beds == ()


def test_a_bed_too_small_for_one_plant(open_session):
    """In a bed of one foot a squash has no room: the finding says so, without a picture."""
    session = open_session(guesses=GUESSES)
    _fill(_form(session), length=1, width=1)
    panel = count.panel(session)
    panel.controls["crop"].value = "squash_winter"
    assert panel.view.chart is None
    assert "full room" in panel.view.finding


def test_no_bed_anywhere_is_one_sentence(open_session, monkeypatch):
    """Where neither the learner nor the class has a bed, the panel says so in words."""
    session = open_session(guesses=GUESSES)
    monkeypatch.setattr("gardenlib.panels.bed_of._class_row", lambda session: None)
    panel = count.panel(session)
    assert "No bed" in panel.view.finding
    rotating = _inside(rotation.fold(session))
    assert "written down" in rotating.view.finding


def test_heads_only_where_trials_reach(open_session):
    """Cabbage at 15 in lies between two trials (Tegen and Jembere 2022: 923 g is 2 lb); leek has none."""
    panel = _inside(closer.fold(open_session(guesses=GUESSES)))
    panel.controls["crop"].value = "cabbage_main"
    assert "2 to 3.1 lb" in panel.view.finding
    assert "hint" in panel.notes.value
    panel.controls["crop"].value = "leek"
    assert "No trial of leek" in panel.view.finding


def test_rotation_of_the_class_s_bed(open_session):
    """The class's bed held beans last year and cabbages three years ago: wait with beans, sources differ on cabbage."""
    panel = _inside(rotation.fold(open_session(guesses=GUESSES)))
    panel.controls["asked"].value = "Fabaceae"
    assert "wait beyond 2027" in panel.view.finding
    panel.controls["asked"].value = "Brassicaceae"
    assert "differ" in panel.view.finding
    assert panel.view.table.iloc[3, 2] == "2029"
    panel.controls["asked"].value = "Brassicaceae clubroot"
    assert "After this disease" in panel.view.finding
    assert "fly" in panel.notes.value


def test_every_choice_of_rotation_is_answered(open_session):
    """Each family and each disease of the list gives a finding and a table."""
    panel = _inside(rotation.fold(open_session(guesses=GUESSES)))
    for _, asked in panel.controls["asked"].options:
        panel.controls["asked"].value = asked
        assert panel.message.value == ""
        assert len(panel.view.table) >= 2
        panel._first_working()


@pytest.mark.parametrize(
    ("units", "typed", "told"), [("us", 330, "330 ft"), ("metric", 101, "101 m"), ("us", 0, "0 ft")]
)
def test_a_side_that_cannot_be_is_told_as_it_was_typed(open_session, units, typed, told):
    """The sentence names the value in the units of the form, and the most that it takes."""
    session = open_session()
    session.save_fields("household", units=units)
    assert f"A side of the bed is {told}. " in _fill(_form(session), length=typed, width=1)
    assert not session.plot.beds


def test_a_named_disease_is_saved(open_session):
    """Clubroot, chosen in the form, stands in the bed and can be taken back."""
    session = open_session()
    for disease in ("clubroot", ""):
        _fill(_form(session), length=8, width=4, disease=disease)
        assert session.plot.beds[0].known_disease == disease


def test_words_on_a_disease_from_elsewhere_stay(open_session):
    """What somebody wrote in the file is a choice of its own, and is saved as it was."""
    session = open_session()
    session.save("beds", [{"id": "bed-1", "known_disease": "club root, seen 2024"}])
    form = _form(session)
    assert [value for _, value in form.fields["disease"].options] == ["", "clubroot", "club root, seen 2024"]
    _fill(form, length=8, width=4)
    assert session.plot.beds[0].known_disease == "club root, seen 2024"
