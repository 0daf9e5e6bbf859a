"""Page 06: how much to plant, the weeks it feeds the table, what keeping bridges."""

import re
from datetime import date

import pytest

from gardenlib import panels
from gardenlib.panels.harvest import bridge, much
from gardenlib.panels.harvest.own_supply import own_supply
from gardenlib.panels.panel import Panel
from gardenlib.units import Quantity

OWN = {"06.much.guess": "range"}


def _kept(session):
    return {name: control.value for name, control in bridge._controls(session).items()}


def _open(open_session, **how):
    session = open_session(guesses=how.pop("guesses", OWN), **how)
    return session, panels.harvest.much.panel(session)


def test_the_guess_comes_first(open_session):
    """Before a guess is kept the panel shows no answer; after it, what is so."""
    _, panel = _open(open_session, guesses={})
    assert panel.view is None
    panel.children[0].answers.index = 1
    panel.children[0].children[2].click()
    assert panel.view.chart
    assert "One plant gives" in panel.children[0].children[1].value


def test_plants_low_end_first_and_the_weeks(open_session):
    """The class's two people and five cabbages: a range with the low end first, then weeks too little and left over."""
    session, panel = _open(open_session)
    assert panel.controls["crop"].value == "cabbage_main"
    assert panel.controls["servings"].value == 2
    low, high = map(int, re.search(r"(\d+) to (\d+) plants of cabbage", panel.view.finding).groups())
    assert low < high
    assert "so the class's 5 plants were counted" in panel.view.finding
    session.save("plantings", [{"id": "planting-1", "crop": "cabbage_main", "plants": 6}])
    assert "Your 6 plants were counted" in panel.view.finding
    assert "too little" in panel.view.finding
    assert "left over" in panel.view.alt
    assert "Plant the last to be sure" in panel.notes.value
    assert "First gardens often get less" in panel.notes.value
    assert "would help most. It leaves" in panel.notes.value
    assert len(panel.view.table) >= 8
    # Three notes on a phone; the rest is read in the working.
    assert panel.notes.value.count("<p>") == 3
    taken = [session.voice.say(said) for said in panel.spec.working(session, panel.values).assumptions]
    for words in ("within two weeks (common practice, no source)", "Nothing is kept here", "planting guides print"):
        assert any(words in said for said in taken)


def test_too_little_and_left_over_are_told_without_colour(open_session):
    """The picture names both kinds of weeks in words, and what each look means."""
    _, panel = _open(open_session)
    for words in ("too little", "left over, goes bad", "what you eat", "comes in, low end", "up to the high end"):
        assert words in panel.view.chart


def test_own_table_and_crops_count(open_session):
    """A learner's own people and times a week start the panel; without plantings the plants worked out stand in."""
    session = open_session(guesses=OWN)
    session.save_fields("household", people=4, eat=[{"crop": "tomato", "times_a_week": 3}])
    panel = panels.harvest.much.panel(session)
    assert (panel.controls["crop"].value, panel.controls["servings"].value) == ("tomato", 3)
    assert "For 4 at the table" in panel.view.finding
    assert "Your beds hold no tomato yet" in panel.view.finding
    assert "Only one figure for tomato" in panel.notes.value
    panel.controls["weeks"].value = 2
    assert "come when you no longer eat it" in panel.notes.value


def test_own_plantings_count(open_session):
    """Plants of the learner's own plantings are added up; another crop's are not."""
    session, panel = _open(open_session)
    plantings = [
        {"id": "a", "crop": "cabbage_main", "plants": 7},
        {"id": "b", "crop": "cabbage_main", "plants": 4, "season": "fall"},
        {"id": "c", "crop": "pea", "plants": 90},
    ]
    session.save("plantings", plantings)
    assert "Your 11 plants were counted" in panel.view.finding


@pytest.mark.parametrize("crop", ["lettuce_leaf", "pea", "bean_bush", "kale", "sweet_corn", "cabbage_mini", "spinach"])
@pytest.mark.parametrize(("servings", "weeks"), [(0.5, 1), (21.0, 40)])
def test_least_and_most(open_session, crop, servings, weeks):
    """From half a serving in one week to the most of both, each crop gets a finding and a picture."""
    _, panel = _open(open_session)
    panel.controls["crop"].value = crop
    panel.controls["servings"].value = servings
    panel.controls["weeks"].value = weeks
    assert panel.message.value == ""
    assert panel.view.chart
    assert "nan" not in panel.view.finding
    assert "NaN" not in panel.view.chart


def test_crops_without_a_figure_or_a_harvest_get_a_sentence(open_session):
    """No number is made up for basil; garlic, with no harvest in the season, has its plants but no weeks."""
    _, panel = _open(open_session)
    panel.controls["crop"].value = "basil"
    assert "what a cup of basil weighs" in panel.message.value
    panel.controls["crop"].value = "garlic"
    assert "could be worked out" in panel.view.finding
    assert panel.view.chart is None
    assert "unchecked" in panel.notes.value


def test_a_memory_figure_is_called_unchecked(open_session):
    """Weeks of picking written down from memory are named so beside the picture."""
    _, panel = _open(open_session)
    panel.controls["crop"].value = "bean_bush"
    assert "is unchecked" in panel.notes.value


def test_the_working_opens(open_session):
    """The steps lead from servings to plants and on to the weeks, in words."""
    session, panel = _open(open_session)
    keys = [step.key for step in panel.spec.working(session, panel.values).steps]
    assert keys[0] == "need.servings"
    assert keys.index("need.plants") < keys.index("need.by_week")
    panel._fold.opener.value = True
    assert "Two cups" not in panel._working.value
    assert "What is left to eat?" in panel._working.value


@pytest.mark.parametrize("units", ["us", "metric"])
def test_each_mistake_of_the_check_has_its_own_reply(open_session, units):
    """Row for plant, months, high end, trimming: five answers in the class's units, one right, no reply twice."""
    session = open_session(guesses=OWN)
    session.save_fields("household", units=units)
    found = {reply.value: reply for reply in much._CHECK.replies(session)}
    assert [kind for kind, reply in found.items() if reply.holds] == ["right"]
    said = [session.voice.say(reply.words) for reply in found.values()]
    told = [session.voice.say(reply.reply) for reply in found.values()]
    assert len(set(said)) == len(set(told)) == 5
    # By hand: 6 x 13 cups of 91 g, 61 % eaten, 50 lb for 100 ft are 51.3 ft, 15.6 m.
    right = {"us": "51 ft of row", "metric": "16 m of row"}[units]
    assert session.voice.say(found["right"].words) == right
    assert session.voice.quantity(Quantity(15.64, "m"), 0) in right
    much.check(session).answers.index = 2


def test_keeping_bridges(open_session):
    """With keeping, the store fills weeks that the garden does not, and the picture shows it in words."""
    session = open_session(guesses=OWN)
    fold = panels.harvest.bridge.fold(session)
    fold.opener.value = True
    keeping, cups = (part for part in fold._body.children[0].children if isinstance(part, Panel))
    assert "the store fills what the garden lacks" in keeping.view.finding
    assert "from the store" in keeping.view.chart
    keeping.controls["keeps"].value = 0
    assert "the store fills" not in keeping.view.finding
    assert "14 to 21 cups" in cups.view.finding  # MyPlate: women of 31 to 59 years, 2 to 3 cups a day
    cups.controls["alike"].value = 2
    assert "28 to 42 cups" in cups.view.finding
    assert "doctor" in cups.notes.value


def test_keeping_starts_with_the_learner_s_own_place(open_session):
    """At 40 F cabbage keeps 2 to 6 weeks (Western Australia 2017), at 32 F 4 to 16: the shortest opens the fold."""
    session = open_session(guesses=OWN)
    assert bridge._controls(session)["keeps"].value == 2
    assert "2 to 6 weeks" in session.voice.say(bridge._notes(session, _kept(session))[0])
    session.keep("06.keep", {"temp_us": 32.0})
    assert bridge._controls(session)["keeps"].value == 4
    session.keep("06.keep", {"temp_us": 100.0})
    assert bridge._controls(session)["keeps"].value == 0
    assert "No figure fits your place" in session.voice.say(bridge._notes(session, _kept(session))[0])


def test_no_week_that_is_past_is_advised(open_session):
    """In July no planting in spring is named any more."""
    for today, months in ((date(2027, 2, 15), {3, 4, 5}), (date(2027, 7, 10), {7, 8, 9})):
        session, panel = _open(open_session, today=today)
        found = own_supply(session, much.household(session, panel.values), {**panel.values, "weeks": 40}, 0).found
        assert found.plant_again is None or found.plant_again.month in months | {7, 8, 9}


def test_a_moved_planting_moves_its_weeks(open_session):
    """A planting put in two weeks later is picked two weeks later."""
    session, panel = _open(open_session)
    first = []
    for weeks in (0, 2):
        session.save("plantings", [{"id": "a", "crop": "cabbage_main", "plants": 5, "moved_weeks": weeks}])
        table = own_supply(session, much.household(session, panel.values), panel.values, 0).found.table
        first.append(table.loc[table["low"] > 0, "week"].min())
    assert (first[1] - first[0]).days == 14


def test_group_names_say_their_ages(open_session):
    """The first group counts in months, the last has no end."""
    session = open_session(guesses=OWN)
    names = [name for name, _ in bridge._cups_controls(session)["who"].options]
    assert names[0] == "toddlers, 12 to 23 months"
    assert names[-1] == "men, 60 years and over"


@pytest.mark.parametrize(("today", "year"), [(date(2027, 2, 15), 2027), (date(2027, 10, 1), 2028)])
def test_the_weeks_belong_to_the_season_that_is_planned(open_session, today, year):
    """In spring the weeks are this year's; from August on they are the next year's."""
    session, panel = _open(open_session, today=today)
    weeks = own_supply(session, much.household(session, panel.values), panel.values, 0).found.table
    assert {day.year for day in weeks.loc[weeks["need"] > 0, "week"]} == {year}
