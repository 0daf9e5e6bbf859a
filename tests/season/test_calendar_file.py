"""The calendar file, read back with a library that is not ours, and with names that nobody should type."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from icalendar import Calendar

from gardenlib import InputProblem
from gardenlib.plot import Planting, Plot
from gardenlib.season import Task, calendar_events, season_tasks
from gardenlib.site import FreezeDates
from gardenlib.words import Said, Voice

DAY = date(2027, 2, 15)
HERE = FreezeDates.typed((4, 15), (10, 15), source="made up", latitude=42.0)
TOMATO = Planting(id="p2", crop="tomato")


def _plan(*plantings, **how):
    return season_tasks(Plot(plantings=plantings or (TOMATO,)), HERE, year=2027, latitude=42.0, **how)


def _events(made):
    return Calendar.from_ical(made).walk("VEVENT")


def _one(words, **changed):
    """Make a plan of one task whose words are given."""
    task = Task("p/workday", DAY, DAY, "workday", None, "p", Said("task.workday"))
    plan = replace(_plan(), tasks=(replace(task, **changed),))
    return calendar_events(
        plan, plot_id="x", day=DAY, voice=Voice(local={"task.workday": words.replace("{", "").replace("}", "")})
    )


def test_as_many_events_as_tasks():
    """Each task is one event, with the words of the plan."""
    plan = _plan()
    events = _events(calendar_events(plan, plot_id="my_plot", day=DAY))
    assert [str(event["SUMMARY"]) for event in events] == [str(task.said) for task in plan.tasks]


def test_events_are_whole_days_and_the_end_is_not_counted():
    """A task from one day to another ends, in the file, on the day after its last."""
    plan = _plan(water_on=date(2027, 4, 20))
    for task, event in zip(plan.tasks, _events(calendar_events(plan, plot_id="x", day=DAY)), strict=True):
        start, end = event["DTSTART"].dt, event["DTEND"].dt
        assert type(start) is type(end) is date
        assert start == task.first
        assert end == (task.first if task.goes_on else task.last) + timedelta(days=1)


def test_what_goes_on_comes_again_until_its_last_day():
    """Twice a week, three and four days apart, the first day among them."""
    plan = _plan()
    made = zip(plan.tasks, _events(calendar_events(plan, plot_id="x", day=DAY)), strict=True)
    rules = [(task, event["RRULE"]) for task, event in made if task.goes_on]
    assert len(rules) == 2
    for task, rule in rules:
        days = [("MO", "TU", "WE", "TH", "FR", "SA", "SU").index(str(day)) for day in rule["BYDAY"]]
        assert days[0] == task.first.weekday()
        assert (days[1] - days[0]) % 7 == 3
        assert rule["UNTIL"] == [task.last]


def test_a_moved_planting_keeps_its_names():
    """Days move, the ids of the events do not; another planting, plot or year has others."""
    first, again = _plan(), _plan(TOMATO.model_copy(update={"moved_weeks": 2}))

    def uids(plan, plot_id="x"):
        return [str(event["UID"]) for event in _events(calendar_events(plan, plot_id=plot_id, day=DAY))]

    assert sorted(uids(first)) == sorted(uids(again))
    assert len(set(uids(first))) == len(first.tasks)
    mine = set(uids(first))
    assert mine.isdisjoint(uids(first, "y"))
    assert mine.isdisjoint(uids(replace(first, year=2028)))
    shared = mine & set(uids(_plan(TOMATO.model_copy(update={"id": "q"}))))
    assert len(shared) == sum(task.planting is None for task in first.tasks)


def test_nobody_is_named_in_an_id():
    """The name of the plot file and of the planting are not in the file."""
    plan = _plan(TOMATO.model_copy(update={"id": "planting-of-somebody"}))
    made = calendar_events(plan, plot_id="plot-of-somebody", day=DAY)
    assert b"somebody" not in made
    assert all(str(event["UID"]).endswith("@gardenlib.invalid") for event in _events(made))


def test_the_same_plan_gives_the_same_bytes():
    """The stamp is the plan's day, not the clock's."""
    first, second = (calendar_events(_plan(), plot_id="x", day=DAY, revision=3) for _ in range(2))
    assert first == second
    event = _events(first)[0]
    assert event["DTSTAMP"].dt.date() == DAY
    assert int(event["SEQUENCE"]) == 3


def test_a_caution_stands_before_its_number():
    """The words on slime and mold come before the days that a crop keeps."""
    plan = _plan(Planting(id="c", crop="cabbage_main"))
    told = [str(event.get("DESCRIPTION", "")) for event in _events(calendar_events(plan, plot_id="x", day=DAY))]
    keeps = [words for words in told if "keeps" in words]
    assert keeps
    assert all(words.index("Slime") < words.index("keeps") for words in keeps)


@pytest.mark.parametrize(
    "typed",
    [
        "peas, beans; and \\ more",
        "first line\nsecond line",
        "a\r\nBEGIN:VEVENT\r\nUID:evil",
        "END:VCALENDAR",
        "🍅" * 40,
        "é" * 200,
        "x" * 300,
        "\N{WOMAN}\N{ZERO WIDTH JOINER}\N{EAR OF RICE}" * 20,
        "nul \x00 bell \x07",
        "\\n is not a new line",
        'a "quoted": colon',
    ],
)
def test_words_come_back_as_they_were(typed):
    """Escapes round trip; a new line starts no line of the file; bytes that may not stand in a text are dropped."""
    events = _events(_one(typed))
    kept = typed.replace("\r\n", "\n").replace("\x00", "").replace("\x07", "")
    assert [str(event["SUMMARY"]) for event in events] == [kept]


@settings(max_examples=100, deadline=None)
@given(st.text(max_size=400))
def test_any_words_come_back(typed):
    """Whatever is typed, one event comes back with the same words, in lines of at most 75 bytes of whole letters."""
    plain = "".join(c for c in typed if c not in "{}\r" and (c == "\n" or c.isprintable() or c in "\u2028\u2029\u0085"))
    plain = "".join(c for c in plain if c != "\u0085")
    made = _one(plain)
    for line in made.split(b"\r\n"):
        assert len(line) <= 75
        line.decode("utf-8")
    assert [str(event["SUMMARY"]) for event in _events(made)] == [plain]


@pytest.mark.parametrize("before", range(60, 80))
@pytest.mark.parametrize("letter", ["a", "é", "€", "🍅"])
def test_no_letter_is_cut_at_the_edge(before, letter):
    """Letters of one to four bytes at and around the 75th byte."""
    typed = "x" * before + letter * 3
    made = _one(typed)
    assert max(len(line) for line in made.split(b"\r\n")) <= 75
    assert str(_events(made)[0]["SUMMARY"]) == typed


def test_too_long_a_text_is_refused():
    """One sentence that names the limit."""
    with pytest.raises(InputProblem, match="2000"):
        _one("x" * 2001)
    assert _one("x" * 2000)


def test_too_many_tasks_are_refused():
    """A calendar of thousands of tasks helps nobody."""
    plan = _plan()
    with pytest.raises(InputProblem, match="5001"):
        calendar_events(replace(plan, tasks=(plan.tasks[0],) * 5001), plot_id="x", day=DAY)
