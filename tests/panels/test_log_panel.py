"""Page 07, the folds: the plot log with a hostile log in it, the bed's past, and the three questions."""

import json
from dataclasses import replace
from datetime import date

import pytest

from gardenlib import panels, plot
from gardenlib.panels import Session
from gardenlib.units import KG_PER_POUND

TODAY = date(2027, 8, 20)
PLANTINGS = [
    {"id": "p1", "crop": "tomato", "bed": "bed-1"},
    {"id": "p2", "crop": "pea", "bed": "bed-1"},
    {"id": "p3", "crop": "tomato", "bed": "bed-2"},
]
BEDS = [
    {"id": "bed-1", "name": "North bed", "families": [["Brassicaceae"], ["Cucurbitaceae"]]},
    {"id": "bed-2", "name": "South bed", "families": [["Apiaceae"]]},
]


def _open(open_session, *, today=TODAY, units="us", own=True, log=(), guesses=None):
    session = open_session(today=today, guesses=guesses or {"07.log.guess": "within"})
    if own:
        session.save("beds", BEDS)
        session.save("plantings", PLANTINGS)
    if units != "us":
        session.save_fields("household", units=units)
    if log:
        session.save("log", list(log))
    fold = panels.season.log.fold(session)
    fold.opener.value = True
    form, _, last, _, real, _, amounts, families, paper = fold._body.children[0].children
    return session, {
        "form": form,
        "last": last,
        "real": real,
        "amounts": amounts,
        "families": families,
        "paper": paper,
    }


def _write(form, **values):
    for name, value in {"day": "", "plant": "", "did": "watered", "much": "", "note": "", **values}.items():
        form.fields[name].value = value
    form.submit()
    return form.reply.value


def test_a_line_is_written_and_every_part_follows(open_session):
    """Set out on May 20 and picked 71 days later: the lines, the days and the weight stand below at once."""
    session, parts = _open(open_session)
    _write(parts["form"], day="May 20", plant="planting p1", did="set_out", much="6")
    assert "Written: July 30, picked" in _write(
        parts["form"], day="Jul 30", plant="planting p1", did="picked", much="6.2"
    )
    assert [line.did for line in session.plot.log] == ["set_out", "picked"]
    assert session.plot.log[1].amount_kg == pytest.approx(6.2 * KG_PER_POUND)
    assert "6.2 lb" in parts["last"].value
    row = parts["real"].view.table.iloc[0]
    assert row["plant"] == "tomato (North bed)"
    assert row["your days"] == "71 days"
    assert "1 in its days" in parts["real"].view.finding
    assert "You picked 6.2 lb" in parts["amounts"].view.finding
    assert plot.read(session.path).log == session.plot.log


def test_the_day_is_today_where_none_is_typed(open_session):
    """An empty day is the page's today."""
    session, parts = _open(open_session)
    _write(parts["form"])
    assert session.plot.log[0].day == TODAY


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({"day": "Dec 1"}, "is after today"),
        ({"day": "2031-05-01"}, "is after today"),
        ({"day": "4/5"}, "may be"),
        ({"day": "soon"}, "soon"),
        ({"did": "picked", "plant": "planting p1", "much": "-2"}, "-2 lb cannot be"),
        ({"did": "picked", "plant": "planting p1", "much": "6,2"}, "with a point: 6.2"),
        ({"did": "picked", "plant": "planting p1", "much": "nan"}, "Write a number"),
        ({"did": "picked", "much": "2"}, "Say which plant"),
        ({"did": "watered", "much": "2"}, "does not go with"),
        ({"did": "set_out", "plant": "planting p1", "much": "2.5"}, "whole number"),
        ({"did": "worked", "much": "30"}, "cannot be"),
    ],
)
def test_a_slip_is_one_sentence_and_nothing_is_saved(open_session, values, words):
    """Each slip gets its own sentence; the log stays as it was."""
    session, parts = _open(open_session)
    reply = _write(parts["form"], **values)
    assert words in reply
    assert "gl-again" in reply
    assert session.voice.say("page.broken") not in reply
    assert session.plot.log == ()


def test_a_second_press_saves_nothing(open_session):
    """The same line twice is refused."""
    session, parts = _open(open_session)
    _write(parts["form"], note="hot")
    parts["form"].submit()
    assert "in the log already" in parts["form"].reply.value
    assert len(session.plot.log) == 1


def test_a_log_with_the_future_in_it(open_session):
    """Lines of days to come, saved by somebody's hand, stay in the file, count nowhere, and are told."""
    ahead = {"day": "2029-05-01", "did": "picked", "planting": "p1", "crop": "tomato", "amount_kg": 900.0}
    session, parts = _open(open_session, log=[ahead, {"day": "2027-05-20", "did": "set_out", "planting": "p1"}])
    assert "One line has a day after August 20" in parts["real"].notes.value
    assert "Nothing is weighed" in parts["amounts"].view.finding
    assert "one line from this season" in parts["last"].value
    _write(parts["form"])
    assert [line.day.year for line in session.plot.log] == [2029, 2027, 2027]


def test_what_another_page_saved_stays(open_session):
    """Two pages write to one log: both lines are kept, and so are lines of an older form."""
    session, parts = _open(open_session, log=[{"day": "2027-01-09", "text": "cold", "tmin_c": -12.0}])
    other = Session("other", session.path, None, TODAY)
    other.save(
        "log", [*(line.model_dump(mode="json") for line in other.plot.log), {"day": "2027-06-01", "text": "hail"}]
    )
    _write(parts["form"], note="mine")
    assert [line.text for line in plot.read(session.path).log] == ["cold", "hail", "mine"]


def test_metric_weights(open_session):
    """A class that reads kilograms types and reads kilograms."""
    session, parts = _open(open_session, units="metric")
    _write(parts["form"], plant="planting p2", did="picked", much="2.5")
    assert session.plot.log[0].amount_kg == 2.5
    assert "2.5 kg" in parts["amounts"].view.finding


def test_without_plantings_the_crops_stand_in(open_session):
    """A learner who planned nothing writes by crop, and the panel says that the crops stand in."""
    session, parts = _open(open_session, own=False)
    crop = session.crop_ids[0]
    _write(parts["form"], day="May 5", plant=f"crop {crop}", did="set_out")
    assert parts["real"].view.table.iloc[0]["plant"] == session.crop_name(crop)
    assert "not written down any plantings" in parts["real"].notes.value


def test_the_guess_comes_first(open_session):
    """Before the guess nothing is told of own days; after it, what the log says."""
    session, parts = _open(open_session, guesses={"x": "y"})
    assert parts["real"].view is None
    box = parts["real"].children[-1]
    box.answers.index = 0
    box.children[2].click()
    assert parts["real"].view.finding
    assert session.guess("07.log.guess") == "sooner"


def test_a_planting_moved_by_weeks_is_measured_from_there(open_session):
    """A planting put off by two weeks has its window 14 days later."""
    session, parts = _open(open_session)
    _write(parts["form"], day="May 20", plant="planting p1", did="set_out")
    assert parts["real"].view.table.iloc[0]["against the plan"].endswith("before")
    early = int(parts["real"].view.table.iloc[0]["against the plan"].split()[0])
    session.save("plantings", [{**PLANTINGS[0], "moved_weeks": 2}, *PLANTINGS[1:]])
    parts["real"].build()
    assert int(parts["real"].view.table.iloc[0]["against the plan"].split()[0]) == early + 14


def test_the_planned_days_are_those_of_the_season_that_is_logged(open_session):
    """In August the next season is planned already; the log still stands beside this year's days."""
    _, late = _open(open_session)
    _write(late["form"], day="May 20", plant="planting p1", did="set_out")
    assert abs(int(late["real"].view.table.iloc[0]["against the plan"].split()[0])) < 60


# ---- the bed's past --------------------------------------------------------------------------------

GREW = [
    {"day": "2027-04-05", "did": "sown", "planting": "p2", "crop": "pea"},
    {"day": "2027-05-20", "did": "set_out", "planting": "p1", "crop": "tomato"},
]


def _years(session, bed=0):
    return [list(year) for year in session.plot.beds[bed].families]


def test_the_season_goes_into_the_past_once(open_session):
    """Pressed twice, the years move once and all earlier ones stay; a bed without a line is named and stays."""
    session, parts = _open(open_session, log=GREW)
    parts["families"].submit()
    assert _years(session) == [["Fabaceae", "Solanaceae"], ["Brassicaceae"], ["Cucurbitaceae"]]
    assert _years(session, 1) == [["Apiaceae"]]
    assert "their years stay: South bed" in parts["families"].reply.value
    parts["families"].submit()
    assert len(_years(session)) == 3
    assert "stood there already" in parts["families"].reply.value
    assert plot.read(session.path).beds == session.plot.beds


def test_pressed_again_it_adds_what_is_new(open_session):
    """What was planted after the first press joins the same year; a bed that had nothing gets its year."""
    session, parts = _open(open_session, log=GREW)
    parts["families"].submit()
    _write(parts["form"], day="Aug 10", plant="planting p3", did="set_out")
    parts["families"].submit()
    assert _years(session, 1) == [["Solanaceae"], ["Apiaceae"]]
    assert _years(session)[1:] == [["Brassicaceae"], ["Cucurbitaceae"]]


def test_a_save_that_was_cut_off_is_made_good(open_session):
    """Where only the note of the press was saved, the next press still puts the season before the years."""
    session, parts = _open(open_session, log=GREW)
    session.keep("07.families", {"year": 2027, "beds": {"bed-1": [["Brassicaceae"], ["Cucurbitaceae"]]}})
    parts["families"].submit()
    assert _years(session) == [["Fabaceae", "Solanaceae"], ["Brassicaceae"], ["Cucurbitaceae"]]


def test_the_next_season_moves_the_years_again(open_session):
    """A year later the new season stands first and nothing is lost."""
    session, parts = _open(open_session, log=GREW)
    parts["families"].submit()
    later = Session("later", session.path, None, date(2028, 9, 1))
    later.save("log", [*GREW, {"day": "2028-05-20", "did": "set_out", "planting": "p1", "crop": "tomato"}])
    fold = panels.season.log.fold(later)
    fold.opener.value = True
    form = fold._body.children[0].children[7]
    form.submit()
    assert _years(later) == [["Solanaceae"], ["Fabaceae", "Solanaceae"], ["Brassicaceae"], ["Cucurbitaceae"]]


def test_the_running_season_waits(open_session):
    """In spring the last season is meant: what grows now does not count, and the sentence says when it will."""
    session, parts = _open(open_session, today=date(2027, 6, 1), log=GREW)
    parts["families"].submit()
    assert "The log of 2026 names no crop" in parts["families"].reply.value
    assert _years(session) == [["Brassicaceae"], ["Cucurbitaceae"]]


def test_without_a_bed_it_says_where_to_go(open_session):
    """No bed: one sentence, nothing saved."""
    _, parts = _open(open_session, own=False, log=GREW)
    parts["families"].submit()
    assert "There is no bed" in parts["families"].reply.value


# ---- paper, and the three questions ----------------------------------------------------------------


@pytest.mark.parametrize("large", [False, True])
def test_the_page_for_the_pocket_is_made(open_session, large):
    """The button writes a PDF into the learner's folder and says where."""
    session, parts = _open(open_session)
    parts["paper"].size.value = large
    parts["paper"].write()
    assert (session.folder / "garden_log.pdf").read_bytes().startswith(b"%PDF")
    assert "garden_log.pdf" in parts["paper"].reply.value


def test_the_three_questions_are_kept_before_and_after(open_session):
    """Answers stand under their ids; both moments are set side by side; they are shown again when opened anew."""
    session = open_session()
    fold = panels.season.before_after.fold(session)
    fold.opener.value = True
    before, after = fold._body.children[0].children
    before.submit()
    assert "at least one question" in before.reply.value
    for form, answers in ((before, ("yes", "no", "partly")), (after, ("yes", "yes", "yes"))):
        for question, answer in zip(form.fields.values(), answers, strict=True):
            question.value = answer
        form.submit()
    assert "yes to 1 of 3, now to 3 of 3" in after.reply.value
    kept = json.loads(session.path.read_text())["answers"]
    assert [kept[f"07.before.q{n}"]["choice"] for n in (1, 2, 3)] == ["yes", "no", "partly"]
    again = panels.season.before_after.fold(session)
    again.opener.value = True
    assert [field.value for field in again._body.children[0].children[0].fields.values()] == ["yes", "no", "partly"]


def test_where_no_days_are_planned_it_is_said(open_session, monkeypatch):
    """A planting that went in without planned days keeps its real day, and the note names it."""
    session, parts = _open(open_session, log=GREW)
    bare = replace(panels.sowing.dates_for(session, "pea"), set_out=None, direct_sow=None)
    monkeypatch.setattr("gardenlib.panels.season.log_lines.dates_for", lambda *_, **__: bare)
    parts["real"].build()
    assert "no planned days are known here" in parts["real"].notes.value
    assert list(parts["real"].view.table["planned"]) == ["-", "-"]
    assert list(parts["real"].view.table["real"]) == ["May 20", "Apr 5"]
