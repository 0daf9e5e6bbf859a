"""Page 05: when to look, and pick or look again."""

from dataclasses import replace
from datetime import date

import pandas as pd
import pytest

from gardenlib import panels
from gardenlib.panels.panel import Panel
from gardenlib.panels.pests import weeks_beside, when
from gardenlib.site import degree_days
from gardenlib.units import f_to_c

OWN = {"05.when.guess": "near", "05.look.guess": "25"}


def _open(open_session, which, **how):
    session = open_session(guesses=how.pop("guesses", OWN), **how)
    return session, getattr(panels.pests, which).panel(session)


@pytest.mark.parametrize("which", ["when", "look"])
def test_the_guess_comes_first(open_session, which):
    """Before a guess is kept the panel shows no answer; after it, what is so."""
    _, panel = _open(open_session, which, guesses={})
    assert panel.view is None
    panel.children[0].answers.index = 1
    panel.children[0].children[2].click()
    assert panel.view.chart


def test_weeks_stand_beside_the_plantings(open_session):
    """The white butterfly's weeks come from two sources, the learner's cabbage stands above, and the table says so."""
    _, panel = _open(open_session, "when")
    assert panel.controls["pest"].value == "imported_cabbageworm"
    assert panel.view.finding.startswith("Look for")
    assert "cabbage" in panel.view.chart
    assert panel.view.table["source"].nunique() == 2
    assert "guess of ours" in panel.view.table["counted"].iloc[0]
    assert "Midwinter was taken" in panel.notes.value
    assert "Only a look at the plants can tell" in panel.notes.value


def test_a_pest_that_waits_for_its_first(open_session):
    """The cutworm asks for the day of the first catch; with it the weeks stand there, and a slip gets a sentence."""
    _, panel = _open(open_session, "when")
    panel.controls["pest"].value = "black_cutworm"
    assert "Type that day" in panel.view.finding
    panel.controls["seen"].value = "Apr 20"
    assert panel.view.finding.startswith("Look for")
    panel.controls["seen"].value = "6,2"
    assert "6,2" in panel.message.value
    assert panel.picture.value == ""


def test_a_pest_without_weeks_gets_a_sentence(open_session):
    """No weeks are made up for the harlequin bug."""
    _, panel = _open(open_session, "when")
    panel.controls["pest"].value = "harlequin_bug"
    assert "Nobody has published" in panel.view.finding
    assert panel.view.chart is None


def test_without_a_record_the_page_says_so(open_session):
    """Where a place has no daily record there are no weeks, but a sentence on what to do."""
    session, panel = _open(open_session, "when")
    session.__dict__.update(place=replace(session.place, station=None), laid_out=None)
    panel.redraw()
    assert "daily weather record" in panel.view.finding
    assert panel.view.chart is None


def test_this_year_s_record_tells_what_was_reached(open_session):
    """With a record that ends on June 28 the page says so: the first event's day, and "not yet" for August's."""
    session = open_session(guesses=OWN, today=date(2027, 7, 2))
    daily = session.place.station.daily
    spring = daily.loc["2025-01-01":"2025-06-28"].copy()
    spring.index = spring.index + pd.DateOffset(years=2)
    station = replace(session.place.station, daily=pd.concat([daily, spring]))
    session.__dict__.update(place=replace(session.place, station=station))
    panel = panels.pests.when.panel(session)
    first, *_, last = panel.view.table["this year"]
    assert f"This year's record, up to Jun 28, reached it on {first}." in panel.view.finding
    assert last == "not yet"
    assert "the ring this year" in panel.notes.value
    assert "reached it" not in panels.pests.when.panel(open_session("b.json", guesses=OWN)).view.finding


def test_what_counts_from_the_first_seen_is_announced(open_session):
    """The butterfly's next generation counts from the first that is seen: the page asks for that day, then adds it."""
    _, panel = _open(open_session, "when")
    assert "Type that day above" in panel.notes.value
    before = len(panel.view.table)
    panel.controls["seen"].value = "Apr 20"
    assert len(panel.view.table) == before + 1
    assert "Type that day above" not in panel.notes.value


def test_every_source_of_an_event_is_named(open_session):
    """Sums that three sources print stand with all three, and sources that differ in rows of their own."""
    _, panel = _open(open_session, "when")
    panel.controls["pest"].value = "cabbage_maggot"
    sources = panel.view.table.set_index("what")["source"]
    assert sources["first flies"].count(";") == 2
    assert ";" not in sources["first flies come out"]


def test_own_plantings_stand_beside_the_weeks(open_session):
    """A planting of the learner's stands where it was put: the fall's apart from the spring's, the moved one later."""
    session, _ = _open(open_session, "when")
    rows = [{"id": "a", "crop": "cabbage_main"}, {"id": "b", "crop": "cabbage_main", "season": "fall"}]
    session.save("plantings", rows)
    spring, fall = (
        one for one in weeks_beside.plantings_beside(session, "imported_cabbageworm") if one.name == "cabbage"
    )
    assert spring.start < fall.start
    session.save("plantings", [{**rows[0], "moved_weeks": 2}])
    later = weeks_beside.plantings_beside(session, "imported_cabbageworm")[0]
    assert (later.start - spring.start).days == 14
    assert weeks_beside.plantings_beside(session, "vine_borer") == []


@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_numbers_of_the_check_are_the_rule_s(units):
    """The right answer of the check is what the average method gives, in both unit systems."""
    low, high, lower, right, by_high, no_threshold = when.CASES[units]
    if units == "us":
        found = degree_days([f_to_c(low)], [f_to_c(high)], f_to_c(lower), method="average")[0] * 1.8
    else:
        found = degree_days([float(low)], [float(high)], float(lower), method="average")[0]
    assert found == pytest.approx(right)
    assert (by_high, no_threshold) == (high - lower, (low + high) / 2)


def test_pick_or_look_again(open_session):
    """A hit plant is picked today; unseen plants are named; the next look is in three or four days."""
    _, panel = _open(open_session, "look", today=date(2027, 5, 30))
    assert "Look again between Jun 2 and Jun 3" in panel.view.finding
    panel.controls["looked"].value = 8
    assert "4 plants were not looked at" in panel.view.finding
    panel.controls["hit"].value = 1
    assert panel.view.finding.startswith("Pick today: 1 plant has")
    panel.controls["hit"].value = 9
    assert "9 plants hit of 8" in panel.message.value


def test_first_line_is_always_pick_wash_cover(open_session):
    """Beside the answer stands what comes first, and no product is named."""
    _, panel = _open(open_session, "look")
    assert "First pick" in panel.notes.value
    assert "cover" in panel.notes.value


def test_the_guess_about_missing_tells_the_chance(open_session):
    """Two hit plants of twenty are both missed by ten in 24 of 100 looks (hypergeometric: 10 x 9 / (20 x 19))."""
    _, panel = _open(open_session, "look")
    assert "24 of 100" in panel.children[0].children[1].value


def _big(open_session):
    session = open_session(guesses={**OWN, "05.big.guess": "4"})
    fold = panels.pests.big.fold(session)
    fold.opener.value = True
    return [part for part in fold._body.children[0].children if isinstance(part, Panel)]


def test_ten_plants_mislead(open_session):
    """At 5 of 100 ten plants say "act" in 4 of 10 walks (1 - 0.95 ^ 10); a hundred seldom do."""
    walk, *_ = _big(open_session)
    assert "In 4 of 10 walks 10 plants still say: act" in walk.view.finding
    assert "59 plants show at least one" in walk.notes.value
    walk.controls["true"].value = 20
    # 0.8 ^ 10 = 0.107: no hit plant among ten.
    assert "In 1.1 of 10 walks 10 plants do not show it" in walk.view.finding


def test_the_plan_stops_and_the_limits_follow_its_count(open_session):
    """None of 20 stops under the limit and 6 of 40 over it; the published limits below take the same count."""
    _, plan, limits = _big(open_session)
    assert "Look at the next plant" in plan.view.finding
    plan.controls["looked"].value = 20
    assert plan.view.finding.startswith("Stop: 0 of 20 is under")
    plan.controls["looked"].value = 40
    plan.controls["hit"].value = 30
    assert plan.view.finding.startswith("Stop: 30 of 40 is over")
    assert limits.view.finding.startswith("30 of 40 plants: over every published limit")
    plan.controls["hit"].value = 41
    assert "41 plants hit of 40" in plan.message.value


def test_the_caution_stands_before_the_limits(open_session):
    """Where a limit could lead to a spray, consent, label and license are named first, and no product."""
    *_, limits = _big(open_session)
    values = [part.value for part in limits.children if hasattr(part, "value")]
    caution = next(i for i, value in enumerate(values) if "label is the law" in value)
    assert "licensed" in values[caution]
    assert all("of 100" not in value for value in values[:caution])
