"""The folds on kinds, on cold after setting out and on hardening off."""

from datetime import date, timedelta
from types import SimpleNamespace

import pytest

from gardenlib.panels import cold_spell, hardening, kinds
from gardenlib.panels.check import CheckBox
from gardenlib.panels.panel import Panel
from gardenlib.panels.sowing import dates_for

GUESSED = {"04.kinds.guess": "all", "04.cold.guess": "few"}
CHECKS = [kinds._CHECK1, kinds._CHECK2, cold_spell._CHECK, hardening.CHECK]


@pytest.fixture
def session(open_session):
    """Open the demo plot with both guesses kept."""
    return open_session(guesses=GUESSED)


def _inside(fold):
    fold.opener.value = True
    return fold._body.children[0].children


def _without_station(session):
    session.__dict__["place"] = SimpleNamespace(
        **{**vars(session.place), "station": None, "warmth": None, "night_offset_c": 0.0}
    )
    return session


@pytest.mark.parametrize(("page", "n_panels"), [(kinds, 1), (cold_spell, 2)])
def test_folds_open_to_panels_and_two_checks(session, page, n_panels):
    """Each fold is closed at first and opens to its panels and two checks, none of them broken."""
    fold = page.fold(session)
    assert fold._body.children == ()
    parts = _inside(fold)
    assert [isinstance(part, Panel) for part in parts].count(True) == n_panels
    assert [isinstance(part, CheckBox) for part in parts].count(True) == 2
    assert all(part.view is not None and part.message.value == "" for part in parts if isinstance(part, Panel))
    for panel in (part for part in parts if isinstance(part, Panel)):
        panel._fold.opener.value = True
        assert "<ol>" in panel._working.value
        assert panel.message.value == ""


def test_the_guess_on_cold_asks_for_a_crop_that_can_be_counted(session):
    """Kale comes first on the list, but nobody has published its limit; so the guess is on a crop with an answer."""
    session.save_fields("household", people=2, eat=[{"crop": "kale"}])
    panel = Panel(session, cold_spell._SPEC)
    assert "springs" in panel.view.finding
    assert "not found" not in panel.children[0].children[-1].value


@pytest.mark.parametrize("spec", [kinds._SPEC, cold_spell._SPEC])
def test_the_guess_comes_first(open_session, spec):
    """Before the guess there is no picture; with it the table answers."""
    open_ = open_session("other.json", guesses={})
    panel = Panel(open_, spec)
    assert panel.view is None
    open_.keep_guess(spec.guess.id, spec.guess.options(open_)[0][0])
    panel.build()
    assert panel.view.finding


def test_a_long_packet_shuts_a_kind_out_and_is_kept(session):
    """Typing the packet's days redraws, names the kind that no longer fits, and is kept for the next time."""
    panel = Panel(session, kinds._SPEC)
    before = panel.view.finding
    panel.controls["packet"].value = "300"
    assert panel.view.finding != before
    assert session.crop_name(panel.controls["crop"].value) in panel.view.finding.split("not:")[-1]
    assert Panel(session, kinds._SPEC).controls["packet"].value == "300"


@pytest.mark.parametrize("typed", ["7000", "sixty", "-4", "62.5"])
def test_a_packet_that_cannot_be_used_is_answered_with_one_sentence(session, typed):
    """A number of days that cannot be used gives one sentence beside the control and breaks nothing."""
    panel = Panel(session, kinds._SPEC)
    panel.controls["packet"].value = typed
    assert typed in panel.message.value
    panel.controls["packet"].value = "70"
    assert panel.message.value == ""


def test_every_shift_of_the_day_has_its_springs(session):
    """The table has five days a week apart, and each shift picks its own row for the finding."""
    panel = Panel(session, cold_spell._SPEC)
    table = panel.view.table
    assert len(table) == 5
    assert table.iloc[:, 1].between(0, 10).all()
    for shift, (day, springs) in zip(cold_spell.SHIFTS, table.itertuples(index=False), strict=True):
        panel.controls["shift"].value = shift
        assert f"on {day}:" in panel.view.finding
        assert f"in {springs} of 10 springs" in panel.view.finding


def test_without_a_daily_record_one_sentence_says_so_and_the_plan_stays(session):
    """Without a station the cold panel says what is needed, and the plan to harden off still stands."""
    bare = _without_station(session)
    assert "daily record" in Panel(bare, cold_spell._SPEC).view.finding
    assert Panel(bare, cold_spell._SPEC).message.value == ""
    assert len(Panel(bare, hardening.SPEC).view.table) == 11
    assert Panel(bare, kinds._SPEC).view.table is not None


def test_an_unknown_room_is_asked_about_as_an_example(session, monkeypatch):
    """Where nothing is known of the season's length, the check gives an example and does not call it the learner's."""
    assert "Your season" in session.voice.say(kinds._CHECK2.question(session))
    monkeypatch.setattr(kinds, "_room_days", lambda _: None)
    assert "Say a season" in session.voice.say(kinds._CHECK2.question(session))


def test_the_caution_stands_before_the_plan(session):
    """What can hurt a plant is said before the table of days."""
    panel = Panel(session, hardening.SPEC)
    kinds_of_part = [getattr(child, "value", "") for child in panel.children]
    caution = next(n for n, value in enumerate(kinds_of_part) if "gl-caution" in str(value))
    picture = next(n for n, child in enumerate(panel.children) if child is panel.picture)
    assert caution < picture


def test_the_plan_ends_on_the_first_day_to_set_out(session):
    """The plan's last row is the crop's own first day to set out."""
    panel = Panel(session, hardening.SPEC)
    out = dates_for(session, panel.controls["crop"].value).set_out[0]
    assert panel.view.table.iloc[-1, 0] == session.voice.date(out, "MMMd")
    panel.controls["days"].value = 14
    assert len(panel.view.table) == 15


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_each_check_has_one_answer_that_holds_and_replies_that_differ(session, check):
    """A check has three different answers, one of which holds, and a reply of its own to each."""
    replies = check.replies(session)
    say = session.voice.say
    assert len(replies) == 3
    assert [reply.holds for reply in replies].count(True) == 1
    assert len({say(reply.words) for reply in replies}) == len({say(reply.reply) for reply in replies}) == 3
    assert say(check.question(session))


def test_the_days_of_the_check_are_counted_from_the_right_day(session):
    """Days from plants are counted from setting out; from the sowing day they come out sooner by the weeks indoors."""
    days, weeks, out = kinds._plants_case(session)
    words = {reply.value: reply.words.values["day"] for reply in kinds._CHECK1.replies(session)}
    assert words["right"] == out + timedelta(days=days)
    assert words["seed"] == out - timedelta(weeks=weeks) + timedelta(days=days)


@pytest.mark.parametrize("today", [date(2027, 6, 20), date(2027, 11, 1)])
def test_the_folds_stand_at_any_time_of_year(open_session, today):
    """Past the last day to plant, and in fall for the next spring, every panel still has something to say."""
    open_ = open_session(guesses=GUESSED, today=today)
    for spec in (kinds._SPEC, cold_spell._SPEC, hardening.SPEC):
        panel = Panel(open_, spec)
        assert panel.view.finding
        assert panel.message.value == ""


def test_past_the_last_day_no_kind_fits(open_session):
    """In late June, after every last day to set cabbage out, the fold says that none fits."""
    finding = Panel(open_session(guesses=GUESSED, today=date(2027, 6, 20)), kinds._SPEC).view.finding
    assert finding.startswith("None of these fit")
