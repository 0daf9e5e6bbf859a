"""Page 07: the tasks of four weeks, the page to print and the calendar file."""

import re
from dataclasses import replace
from datetime import date

import pytest
from icalendar import Calendar

from gardenlib import panels
from gardenlib.panels.form import Form
from gardenlib.panels.paper import PaperSheet

GUESSES = {"07.plan.guess": "half"}
PLANTINGS = [
    {"id": "a", "crop": "cabbage_main", "plants": 5},
    {"id": "b", "crop": "tomato", "plants": 3},
    {"id": "d", "crop": "pea", "plants": 20},
]


@pytest.fixture
def session(open_session):
    """Open a plot with two plantings of its own."""
    opened = open_session(guesses=GUESSES)
    opened.save("plantings", PLANTINGS)
    return opened


def _take_along(session, monkeypatch):
    """Give what stands below the panel: the page to print and the calendar."""
    shown = []
    monkeypatch.setattr("gardenlib.panels.season.plan.charts.show", lambda widget, *_: shown.append(widget))
    panels.season.plan.panel(session)
    parts = shown[-1].children
    return next(p for p in parts if isinstance(p, PaperSheet)), next(p for p in parts if isinstance(p, Form))


def test_the_guess_comes_first(open_session):
    """Before a guess is kept no task is shown."""
    box = panels.season.plan.panel(open_session(guesses={}))
    assert box.view is None
    box.children[0].answers.value = "few"
    box.children[0]._keep()
    assert "four weeks" in box.view.finding


def test_four_weeks_are_listed(session):
    """A task stands in the table when one of its days lies in the four weeks, and no other."""
    box = panels.season.plan.panel(session)
    box.controls["start"].value = "2027-04-19"
    whats = list(box.view.table["what"])
    assert any(what.startswith("Set out cabbage.") for what in whats)
    assert not any("pick" in what for what in whats)
    assert f"hold {len(whats)} tasks" in box.view.finding


def test_a_kind_can_be_chosen(session):
    """Only the seedlings, or only the picking."""
    box = panels.season.plan.panel(session)
    box.controls["start"].value = "2027-04-05"
    box.controls["kind"].value = "raise"
    assert all(re.match("Sow .* indoors|Begin to harden", what) for what in box.view.table["what"])
    box.controls["kind"].value = "pick"
    assert box.view.table is None
    assert box.view.finding.startswith("Nothing of this kind")


def test_an_empty_month_of_all_tasks_names_no_kind(open_session):
    """Where all tasks are asked for and none falls in four weeks, the sentence does not speak of a kind."""
    opened = open_session(guesses=GUESSES, today=date(2026, 11, 27))
    opened.save("plantings", PLANTINGS)
    assert panels.season.plan.panel(opened).view.finding.startswith("Nothing to do in the four weeks from November 23")


def test_no_reply_says_yes_twice(session):
    """The word before a reply is the box's own."""
    box = panels.season.plan.check(session)
    assert not any(session.voice.say(reply.reply).startswith(("Yes", "Look again")) for reply in box._replies.values())


def test_a_caution_stands_before_its_number(session):
    """How long cabbage keeps comes after the words on slime and mold, in one cell."""
    box = panels.season.plan.panel(session)
    box.controls["start"].value = "2027-06-21"
    cell = next(what for what in box.view.table["what"] if "pick cabbage." in what and "keeps" in what)
    assert cell.index("Slime") < cell.index("keeps")


def test_whose_plan_it_is_is_said(open_session):
    """Without plantings of their own learners see the class's, and are told."""
    box = panels.season.plan.panel(open_session(guesses=GUESSES))
    assert "plan of the class" in box.notes.value


def test_a_saved_planting_makes_the_plan_anew(session):
    """A change of the plantings is in the table at once."""
    box = panels.season.plan.panel(session)
    box.controls["start"].value = "2027-04-19"
    assert any("tomato" in what for what in box.view.table["what"])
    session.save("plantings", PLANTINGS[:1])
    assert not any("tomato" in what for what in box.view.table["what"])


def test_an_unknown_crop_is_one_sentence(session):
    """The other plantings stay in the plan."""
    session.save("plantings", [*PLANTINGS, {"id": "x", "crop": "no_such_crop"}])
    box = panels.season.plan.panel(session)
    assert "no_such_crop" in box.notes.value
    assert len(box.view.finding) > 0
    assert "Traceback" not in box.notes.value


def test_lime_stands_in_the_plan_with_its_caution_first(session):
    """Lime that was worked out on page 02 is a task; the dust is named before the weight."""
    soil = {"sheet": "in_hand", "water_ph": 5.8, "buffer": "smp", "buffer_ph": 6.5}
    session.save("soil", {**session.plot.soil.model_dump(mode="json"), **soil})
    session.keep("02.lime", {"cce": 90, "plant_on": "2027-10-01"})
    box = panels.season.plan.panel(session)
    box.controls["start"].value = "2027-03-01"
    box.controls["kind"].value = "care"
    starts = [value for _, value in box.controls["start"].options]
    found = []
    for start in starts:
        box.controls["start"].value = start
        found += [] if box.view.table is None else [what for what in box.view.table["what"] if "Lime" in what]
    assert found
    assert found[0].index("dust") < found[0].index("Weigh out")


def test_the_check_counts_both_ends(session):
    """The last day counts; the day after it does not."""
    box = panels.season.plan.check(session)
    replies = {value: words for words, value in box.answers.options}
    assert len(set(replies.values())) == 3
    for choice, words in (("before", "opens"), ("last", "both count"), ("after", "closed")):
        box.answers.value = choice
        box._answered()
        assert words in box.reply.value
    assert session.answer("07.plan.check1") == "after"


def test_the_page_is_written(session, monkeypatch):
    """The button writes the plan into the learner's folder."""
    paper, _ = _take_along(session, monkeypatch)
    paper.write()
    assert (session.folder / "my_plan.pdf").read_bytes()[:5] == b"%PDF-"
    assert "my_plan.pdf" in paper.reply.value


def test_the_calendar_is_written_and_can_be_read(session, monkeypatch):
    """The file lies in the learner's folder, and another program's reader finds the tasks in it."""
    _, form = _take_along(session, monkeypatch)
    form.submit()
    events = Calendar.from_ical((session.folder / "my_plan.ics").read_bytes()).walk("VEVENT")
    assert "my_plan.ics" in form.reply.value
    assert f"{len(events)} tasks" in form.reply.value
    assert any(str(event["SUMMARY"]) == "Set out cabbage" for event in events)


def test_a_folder_that_is_gone_is_one_sentence(session, monkeypatch):
    """Nothing is written and the sentence names the file."""
    _, form = _take_along(session, monkeypatch)
    session.path = session.path.parent / "gone" / session.path.name
    form.submit()
    assert "my_plan.ics" in form.reply.value
    assert "gl-again" in form.reply.value


def test_no_freeze_dates_are_one_sentence(session):
    """A place of which nobody knows the freezes has no plan, and says so."""
    session.__dict__["place"] = replace(session.place, freezes=None)
    box = panels.season.plan.panel(session)
    assert "Pellowby Hollow" in box.view.finding
    assert box.view.table is None


def test_lime_while_the_garden_is_closed_is_named(session):
    """A dose that falls into the winter is not moved to a day on which it would be too late."""
    soil = {"sheet": "in_hand", "water_ph": 5.8, "buffer": "smp", "buffer_ph": 6.5}
    session.save("soil", {**session.plot.soil.model_dump(mode="json"), **soil})
    session.keep("02.lime", {"cce": 90, "plant_on": "2027-09-01"})
    assert "Lime falls on March 1, when the garden is closed" in panels.season.plan.panel(session).notes.value


def test_the_end_names_what_comes_next(session):
    """Next task with its day, number of tasks, plants to raise: peas are sown in the bed."""
    rows = dict(panels.season.settled.results(session))
    assert rows["plants to raise"] == "5 cabbage, 3 tomato"
    assert int(rows["tasks in all"]) > 10
    assert re.fullmatch(r"Sow cabbage indoors, from \w+ \d+", rows["next task"])


def test_a_panel_answers_at_once(session):
    """A second look does not make the plan anew."""
    first = panels.season.plan.plan_here(session)
    assert panels.season.plan.plan_here(session) is first
    session.save("plantings", PLANTINGS[:1])
    assert panels.season.plan.plan_here(session) is not first


@pytest.mark.parametrize("today", [date(2026, 11, 25), date(2027, 6, 1), date(2027, 7, 31), date(2027, 12, 31)])
def test_any_day_of_the_year_opens(open_session, today):
    """The first week that is offered is one that the list has."""
    session = open_session(guesses=GUESSES, today=today)
    session.save("plantings", PLANTINGS)
    box = panels.season.plan.panel(session)
    assert box.controls["start"].value in [value for _, value in box.controls["start"].options]
    assert box.view.finding
