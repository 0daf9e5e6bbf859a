"""Page 06, the folds: when it is ready, and what to get for preserving."""

from dataclasses import replace

import pytest

from gardenlib import panels
from gardenlib.harvest import freezer_to_fill
from gardenlib.panels.harvest import preserve

OWN = {"06.ready.guess": "10", "06.preserve.guess": "25.0"}


def _open(open_session, which, *, units="us", guesses=OWN):
    session = open_session(guesses=guesses)
    if units != "us":
        session.save_fields("household", units=units)
    fold = getattr(panels.harvest, which).fold(session)
    fold.opener.value = True
    return session, fold._body.children[0].children


@pytest.mark.parametrize("which", ["ready", "preserve"])
def test_the_guess_comes_first(open_session, which):
    """Before a guess is kept the fold shows no answer; after it, what is so."""
    _, parts = _open(open_session, which, guesses={})
    panel = parts[0]
    assert panel.view is None
    box = panel.children[-1]
    box.answers.index = 1
    box.children[2].click()
    assert panel.view.finding
    assert "You said" in next(child for child in panel.children if hasattr(child, "_guess")).children[1].value


def test_weeks_are_drawn_and_told(open_session):
    """A crop with a base shows three weeks of past seasons, and a note on how many seasons are meant."""
    _, (weeks, *_) = _open(open_session, "ready")
    weeks.controls["crop"].value = "cabbage_main"
    assert "most past seasons" in weeks.view.finding
    assert list(weeks.view.table["season"]) == ["early", "middle", "late"]
    assert "8 of 10" in weeks.notes.value
    assert weeks.view.chart.startswith("<svg")


def test_a_typed_day_moves_the_weeks(open_session):
    """A later day gives a later week; a slip gets a sentence and no picture."""
    _, (weeks, *_) = _open(open_session, "ready")
    weeks.controls["crop"].value = "bean_bush"
    before = weeks.view.finding
    weeks.controls["planted"].value = "Jul 20"
    assert "Jul 20" in weeks.view.finding
    assert weeks.view.finding != before
    weeks.controls["planted"].value = "6,2"
    assert "6,2" in weeks.message.value
    assert weeks.picture.value == ""


def test_a_harvest_after_the_year_stays_in_the_drawing(open_session):
    """Brussels sprouts planted in December are drawn as far as the days that the books give, in the next year."""
    _, (weeks, *_) = _open(open_session, "ready")
    weeks.controls["crop"].value = "brussels_sprouts"
    weeks.controls["planted"].value = "Dec 1"
    assert "between Feb 9 and Feb 29" in weeks.view.finding  # 70 and 90 days on, in a leap year
    assert ">Feb<" in weeks.view.chart


def test_too_late_says_so(open_session):
    """A bean sown in October is ripe in no past season, and the sentence counts the seasons."""
    _, (weeks, *_) = _open(open_session, "ready")
    weeks.controls["crop"].value = "bean_bush"
    weeks.controls["planted"].value = "Oct 10"
    assert "not ready before the year ended" in weeks.view.finding
    assert weeks.view.chart is None


def test_without_a_record_the_books_days_stand(open_session):
    """Where a place has no daily record the days are the books', with two weeks, not three."""
    session, (weeks, *_) = _open(open_session, "ready")
    session.__dict__["place"] = replace(session.place, station=None)
    weeks.redraw()
    assert "the books expect" in weeks.view.finding
    assert list(weeks.view.table["season"]) == ["early", "late"]


@pytest.mark.parametrize("units", ["us", "metric"])
def test_every_crop_has_words_in_both_units(open_session, units):
    """Each crop of both panels gets a finding without an unforeseen error; sizes are in the class's units."""
    session, (weeks, signs, *_) = _open(open_session, "ready", units=units)
    for panel in (weeks, signs):
        for _, crop in panel.controls["crop"].options:
            panel.controls["crop"].value = crop
            assert panel.view.finding
            assert session.voice.say("page.broken") not in panel.message.value
    signs.controls["crop"].value = "beet"
    assert ("1.25 to 2 in" if units == "us" else "3 to 5 cm") in signs.view.finding


def test_signs_are_drawn_with_words(open_session):
    """Broccoli is drawn tight and loose, early cabbage with its stump; each drawing stands in the alt text."""
    _, (_, signs, *_) = _open(open_session, "ready")
    signs.controls["crop"].value = "broccoli"
    assert "too late" in signs.view.alt
    signs.controls["crop"].value = "cabbage_early"
    assert "buds on the stump" in signs.view.alt
    assert "2 to 4 small heads" in " ".join(signs.view.table["what to look for or do"])
    assert "no trial tells" in signs.notes.value
    signs.controls["crop"].value = "tomato"
    assert "(unchecked)" in signs.view.table["source"].iloc[0]


def test_the_caution_stands_before_the_number(open_session):
    """The caution is the first part of the panel, before guess and number."""
    _, (panel, *_) = _open(open_session, "preserve")
    assert "gl-caution" in panel.children[0].value
    assert "National Center" in panel.children[0].value


@pytest.mark.parametrize("units", ["us", "metric"])
def test_amounts_in_both_units(open_session, units):
    """Amounts are read in the class's units, and a way that nobody tested gets a sentence and no number."""
    _, (panel, *_) = _open(open_session, "preserve", units=units)
    panel.controls["crop"].value = "bean_bush"
    panel.controls["way"].value = "jar"
    assert ("lb" if units == "us" else "kg") in panel.view.finding
    panel.controls["way"].value = "crock"
    assert "Never go by guess" in panel.message.value
    assert panel.picture.value == ""


@pytest.mark.parametrize(
    ("metres", "words"), [(250.0, "Tell the office"), (1700.0, "before you begin"), (None, "not known")]
)
def test_the_height_is_told(open_session, metres, words):
    """The height of the class's place is told; above 5,000 ft the office comes first; unknown is said."""
    session, (panel, *_) = _open(open_session, "preserve")
    sites = {name: replace(site, elevation_m=metres) for name, site in session.klass.sites.items()}
    session.klass = replace(session.klass, sites=sites)
    panel.redraw()
    assert words in panel.notes.value


@pytest.mark.parametrize("which", ["ready", "preserve"])
def test_each_mistake_has_its_own_reply(open_session, which):
    """Each check has one right answer, and every other its own reply."""
    session, parts = _open(open_session, which)
    for box in parts[-2:]:
        replies = list(box._replies.values())
        assert sum(reply.holds for reply in replies) == 1
        said = [session.voice.say(reply.reply) for reply in replies]
        assert len(set(said)) == len(replies) == 3
        box.answers.value = next(reply.value for reply in replies if not reply.holds)
        box.children[2].click()
        assert "Look again" in box.reply.value


def test_the_numbers_of_the_check_are_the_answer_s():
    """Broccoli, refuse 39 % (USDA SR28): 30 needs 49; times the part gives 18, waste added 42."""
    edible, trimmed, times, added, right = preserve.CASE
    assert edible == 100 - 39
    assert round(freezer_to_fill("broccoli", float(trimmed)).to_get.low) == right
    assert round(trimmed * edible / 100) == times
    assert round(trimmed * (1 + (100 - edible) / 100)) == added
