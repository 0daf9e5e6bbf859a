"""The folds on seeds to raise and on warm soil."""

import pytest

from gardenlib import panels
from gardenlib.panels.check import CheckBox
from gardenlib.panels.panel import Panel
from gardenlib.site import Place

OWN_GUESSES = {"04.seeds.guess": "most", "04.warm.guess": "50"}


def _parts(fold):
    fold.opener.value = True
    inside = fold._body.children[0].children
    return [part for part in inside if isinstance(part, Panel)], [part for part in inside if isinstance(part, CheckBox)]


def _seeds(open_session, **how):
    session = open_session(guesses=OWN_GUESSES, **how)
    boxes, checks = _parts(panels.seeds.fold(session))
    return session, *boxes, checks


def _warm(open_session, **how):
    session = open_session(guesses=OWN_GUESSES, **how)
    boxes, checks = _parts(panels.warm.fold(session))
    return session, boxes[0], checks


@pytest.mark.parametrize("name", ["seeds", "warm"])
def test_the_guess_comes_first(open_session, name):
    """Before a guess is kept the fold shows no number of the answer; after it, what is so."""
    boxes, _ = _parts(getattr(panels, name).fold(open_session(guesses={})))
    assert boxes[0].view is None
    boxes[0].children[0].answers.index = 0
    boxes[0].children[0].children[2].click()
    assert boxes[0].view is not None


def test_seeds_by_how_sure(open_session):
    """Twenty plants at 75 of 100: 27 seeds give them 6.4 times in 10; 31 and 32 are enough 9 and 19 of 20 times."""
    _, panel, _, _ = _seeds(open_session)
    panel.controls["crop"].value = "tomato"
    panel.controls["germination"].value = "packet 75"
    table = panel.view.table
    # Computed examples: 27 seeds 64 %, 31 at 0.90, 32 at 0.95.
    assert "6.4 of 10" in table.iloc[0, 0]
    assert table.iloc[:, 1].tolist()[0] == "27"
    assert table.iloc[:, 1].tolist()[3:] == ["31", "32"]
    assert "sow 31 seeds" in panel.view.finding
    assert "packet" in panel.view.finding


def test_standard_is_named_with_its_year(open_session):
    """With the federal standard the finding says as of 1994."""
    _, panel, _, _ = _seeds(open_session)
    panel.controls["germination"].value = "standard"
    assert "as of 1994" in panel.view.finding


def test_towel_test_shows_what_it_leaves_open(open_session):
    """After a towel test the finding holds a range of seeds."""
    _, panel, _, _ = _seeds(open_session)
    panel.controls["germination"].value = "towel 7"
    assert " to " in panel.view.finding
    assert "7 of your 10" in panel.view.finding


def test_a_crop_without_a_standard_gets_a_sentence(open_session):
    """Basil has no standard: one sentence says what to do instead, and a packet's figure helps."""
    _, panel, _, _ = _seeds(open_session)
    panel.controls["crop"].value = "basil"
    assert "No germination standard" in panel.message.value
    panel.controls["germination"].value = "packet 80"
    assert panel.message.value == ""
    assert panel.view.table.iloc[1, 2] == "-"


def test_trays_follow_the_panel_above(open_session):
    """Cells and trays are for the crop and plants chosen above, at once."""
    _, panel, trays, _ = _seeds(open_session)
    panel.controls["crop"].value = "cucumber"
    panel.controls["plants"].value = 60
    assert trays.view.finding.startswith("60 plants of cucumber")
    one = int(trays.view.table.iloc[1, 1])
    trays.controls["per_cell"].value = 2
    assert int(trays.view.table.iloc[1, 1]) < one
    trays.controls["losses"].value = 3
    trays._fold.opener.value = True
    assert "later losses" in trays._working.value


@pytest.mark.parametrize(
    ("number", "choice", "told"), [(0, "percent", "As a fraction"), (1, "average", "half the time")]
)
def test_mistakes_with_seeds_are_named(open_session, number, choice, told):
    """A percent taken as a fraction, and plants divided by germination, get their own reply."""
    _, _, _, checks = _seeds(open_session)
    checks[number].answers.value = choice
    checks[number].children[2].click()
    assert told in checks[number].reply.value
    assert "Look again" in checks[number].reply.value


@pytest.mark.parametrize(("number", "right"), [(0, "right"), (1, "right")])
def test_right_answers_on_seeds(open_session, number, right):
    """The right answer is told so."""
    _, _, _, checks = _seeds(open_session)
    checks[number].answers.value = right
    checks[number].children[2].click()
    assert "Yes." in checks[number].reply.value


def test_days_by_the_thermometer(open_session):
    """Carrot at 50 °F takes 17 days (Harrington and Minges 1954); the working reads the same."""
    _, panel, _ = _warm(open_session)
    panel.controls["crop"].value = "carrot"
    panel.controls["temp_f"].value = 50
    assert "17 days" in panel.view.finding
    panel._fold.opener.value = True
    assert "17 days" in panel._working.value
    panel.controls["crop"].value = "bean_bush"
    assert "no seed of bush bean came up" in panel.view.finding


def test_table_keeps_none_and_not_tested_apart(open_session):
    """Pepper came up at none of the cold soils; beet was not tested at freezing."""
    _, panel, _ = _warm(open_session)
    panel.controls["crop"].value = "pepper"
    assert "none came up" in panel.view.table.iloc[:, 1].tolist()
    panel.controls["crop"].value = "beet"
    assert panel.view.table.iloc[0, 1] == "not tested"


def test_estimate_comes_with_its_error(open_session):
    """An estimate names its error; its working names the rule."""
    _, panel, _ = _warm(open_session)
    panel.controls["way"].value = "in 12"
    panel.controls["crop"].value = "carrot"
    assert "On May 10" in panel.view.finding
    assert "give or take 5 °F" in panel.view.finding
    assert "comes up in" in panel.view.finding
    panel._fold.opener.value = True
    assert "Zheng" in panel._working.value


def test_without_weather_the_estimate_says_what_is_needed(open_session, monkeypatch):
    """With neither a station nor monthly means one sentence says what to type or add."""
    session, panel, _ = _warm(open_session)
    monkeypatch.setattr(Place, "warmth", None, raising=False)
    monkeypatch.setattr(type(session), "place", type("Bare", (), {"station": None, "warmth": None})())
    panel.controls["way"].value = "in 0"
    assert "Type the soil" in panel.message.value


def test_units_keep_their_own_number(open_session):
    """After a change to °C the thermometer starts at 10, and 50 °F is not read as 50 °C."""
    session, panel, _ = _warm(open_session)
    panel.controls["temp_f"].value = 59
    session.save_fields("household", units="metric")
    assert panel.controls["temp_c"].value == 10
    session.save_fields("household", units="us")
    assert panel.controls["temp_f"].value == 59


@pytest.mark.parametrize(
    ("number", "choice", "told"), [(0, "neighbor", "Cold seed waits"), (1, "days", "none came up")]
)
def test_mistakes_with_warmth_are_named(open_session, number, choice, told):
    """Counting from the day of sowing alone, and going on past the table, get their own reply."""
    _, _, checks = _warm(open_session)
    checks[number].answers.value = choice
    checks[number].children[2].click()
    assert told in checks[number].reply.value


def test_a_check_of_two_rows_holds():
    """Sown 40 days later, carrots at 59 °F (10 days) come before those at 41 °F (51 days): the printed rows."""
    from gardenlib.sowing import days_to_emerge

    assert 40 + days_to_emerge("carrot", 15.0).days < days_to_emerge("carrot", 5.0).days
