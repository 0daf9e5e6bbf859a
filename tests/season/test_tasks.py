"""The tasks of a season: days, order, the garden's open days, and input that nobody can use."""

from dataclasses import replace
from datetime import date, timedelta
from functools import cache

import pytest

from gardenlib import InputProblem, tables
from gardenlib.carried import carried
from gardenlib.harvest import storage_life
from gardenlib.pests import forecast
from gardenlib.plot import Bed, Planting, Plot
from gardenlib.season import season_tasks
from gardenlib.season.task import AT_HOME, KINDS, OpenDays
from gardenlib.site import FreezeDates, Warmth, lay_out, read_station
from gardenlib.soil import lime_for_bed, lime_rate, side_dress
from gardenlib.sowing import sowing_dates
from gardenlib.working import Notes

YEAR = 2027
HERE = FreezeDates.typed(
    (4, 15), (10, 15), source="made up", latitude=42.0, last_spring_10=(5, 5), last_spring_90=(3, 30)
)
CABBAGE = Planting(id="p1", crop="cabbage_main", bed="b1", plants=5)
TOMATO = Planting(id="p2", crop="tomato", bed="b1", plants=3)
BED = Bed(id="b1", length_m=3.0, width_m=1.2, families=(("Fabaceae",),))


def _plan(*plantings, beds=(BED,), freezes=HERE, latitude=42.0, **how):
    return season_tasks(Plot(plantings=plantings, beds=beds), freezes, year=YEAR, latitude=latitude, **how)


def _days(plan, kind, planting=None):
    return [(task.first, task.last) for task in plan.tasks if task.kind == kind and task.planting == planting]


@cache
def _record():
    station = read_station(carried("data_demo") / "stations" / "invented_pellowby_daily.csv", latitude=42.0)
    return lay_out(station.daily, 42.0), Warmth.from_station(station, 42.0)


def test_the_days_are_those_of_page_04():
    """Sowing, hardening off, setting out and picking are what `sowing_dates` says, day for day."""
    plan, dates = _plan(TOMATO), sowing_dates("tomato", HERE, year=YEAR)
    for kind in ("sow_indoors", "harden_off", "set_out", "harvest"):
        assert _days(plan, kind, "p2") == [getattr(dates, kind)]
    assert _days(plan, "direct_sow", "p2") == []


def test_bought_plants_are_not_sown():
    """A planting of bought plants has no sowing indoors."""
    plan = _plan(TOMATO.model_copy(update={"started": "bought"}))
    assert _days(plan, "sow_indoors", "p2") == []
    assert _days(plan, "set_out", "p2")


def test_what_is_sown_in_the_bed_is_not_set_out():
    """Peas are sown; nothing is raised."""
    plan = _plan(Planting(id="p", crop="pea"))
    assert _days(plan, "direct_sow", "p") == [sowing_dates("pea", HERE, year=YEAR).direct_sow]
    assert _days(plan, "set_out", "p") == _days(plan, "sow_indoors", "p") == []


def test_cabbage_is_fed_two_to_three_weeks_after_setting_out():
    """Weeks as `side_dress` has them from its sources, counted from the first day of setting out."""
    plan = _plan(CABBAGE)
    out = _days(plan, "set_out", "p1")[0][0]
    times = [time.days for time in side_dress("cabbage_main", 1.0, planted_on=out).times]
    assert _days(plan, "feed", "p1") == [(min(first for first, _ in times), max(last for _, last in times))]


def test_a_cover_goes_on_at_planting_and_off_at_the_first_picking():
    """Where the family grew elsewhere; where it grew here last year there is none, and the plan says why."""
    plan = _plan(CABBAGE)
    assert _days(plan, "cover_on", "p1") == _days(plan, "set_out", "p1")
    assert _days(plan, "cover_off", "p1")[0][0] == _days(plan, "harvest", "p1")[0][0]
    same = _plan(CABBAGE, beds=(BED.model_copy(update={"families": (("Brassicaceae",),)}),))
    assert _days(same, "cover_on", "p1") == []
    assert any(said.key == "before.not_here" for said in same.assumptions)


def test_looking_begins_with_the_first_early_pest():
    """The later of planting and the day by which a pest had come in 1 past season of 10."""
    laid, warmth = _record()
    plan = _plan(CABBAGE, daily=laid, warmth=warmth)
    look, out = _days(plan, "look", "p1")[0], _days(plan, "set_out", "p1")[0][0]
    found = forecast("imported_cabbageworm", laid, YEAR, latitude=42.0, typical=warmth)
    worm = min(event.early for event in found.events if event.early is not None)
    assert out <= look[0] <= max(worm, out)
    assert any(said.key == "plan.pest_days" for said in plan.assumptions)


def test_without_a_record_looking_begins_at_planting():
    """No pest has a day, and the plan says what is lacking."""
    plan = _plan(CABBAGE)
    assert _days(plan, "look", "p1")[0][0] == _days(plan, "set_out", "p1")[0][0]
    assert any(said.key == "plan.no_pest_days" for said in plan.assumptions)


def test_how_long_it_keeps_stands_behind_a_caution():
    """The days are those of `storage_life`; where nothing is in print the task stands without."""
    task = next(task for task in _plan(CABBAGE).tasks if task.kind == "harvest")
    life = storage_life("cabbage_main", 4.0).days
    assert task.caution is not None
    assert (task.more.values["days"].low, task.more.values["days"].high) == (round(life.low), round(life.high))
    plain = next(task for task in _plan(TOMATO).tasks if task.kind == "harvest")
    assert plain.more is None
    assert any(said.key == "plan.no_keeping" for said in _plan(TOMATO).assumptions)


def test_water_is_carried_until_the_tap_is_open():
    """The stretches of carrying and of the tap meet, and do not overlap."""
    tap = date(YEAR, 6, 1)
    plan = _plan(CABBAGE, water_on=tap, water_off=date(YEAR, 10, 1))
    (first, last), (begin, _) = _days(plan, "carry_water")[0], _days(plan, "water_check")[0]
    assert first == _days(plan, "set_out", "p1")[0][0]
    assert last + timedelta(days=1) == begin == tap


def test_workdays_outside_the_season_are_left_out():
    """Only those of the season that is planned, each once."""
    days = [date(YEAR, 4, 3), date(YEAR, 4, 3), date(YEAR - 1, 4, 3)]
    assert _days(_plan(CABBAGE, workdays=days), "workday") == [(days[0], days[0])]


def test_what_is_outside_is_named():
    """Nothing but what is done at home has a day while the garden is closed; the tap of March is named."""
    opens, closes = date(YEAR, 4, 1), _days(_plan(CABBAGE), "harvest", "p1")[0][1]
    plan = _plan(CABBAGE, water_on=date(YEAR, 3, 1), garden_opens=opens, garden_closes=closes)
    outside = [task for task in plan.tasks if task.kind not in AT_HOME]
    assert all(opens <= task.first <= task.last <= closes for task in outside)
    assert _days(plan, "water_on") == []
    assert [said.key for said in plan.not_possible] == ["plan.closed_then"]


def test_a_task_is_moved_into_the_open_days_and_that_is_said():
    """It keeps the days that are open, and the sentence has the days that are left."""
    task = next(task for task in _plan(CABBAGE).tasks if task.kind == "look")
    notes, opens, closes = Notes(), task.first + timedelta(days=3), task.last - timedelta(days=2)
    assert OpenDays(opens, closes).fit(task, notes) == replace(task, first=opens, last=closes)
    assert [(said.key, said.values["first"], said.values["last"]) for said in notes.assumptions] == [
        ("plan.moved_in", opens, closes)
    ]
    assert OpenDays(None, None).fit(task, Notes()) == task
    assert OpenDays(task.last + timedelta(days=1), None).fit(task, Notes()) is None


def test_seedlings_are_raised_while_the_garden_is_closed():
    """What is done at home needs no open garden."""
    opens = date(YEAR, 5, 1)
    plan = _plan(TOMATO, garden_opens=opens, garden_closes=date(YEAR, 11, 20))
    assert _days(plan, "sow_indoors", "p2")[0][0] < opens


def test_a_garden_that_is_hardly_open_leaves_no_crop():
    """Each planting is named with the reason, and nothing is planted."""
    plan = _plan(CABBAGE, TOMATO, garden_opens=date(YEAR, 1, 1), garden_closes=date(YEAR, 1, 5))
    assert len(plan.not_possible) == 2
    assert {task.planting for task in plan.tasks} == {None} or plan.tasks == ()


@pytest.mark.parametrize("closes", [date(YEAR, 3, 15), date(YEAR, 1, 1)])
def test_a_garden_that_closes_before_it_opens_is_refused(closes):
    """One sentence with both days."""
    with pytest.raises(InputProblem, match="March 15"):
        _plan(CABBAGE, garden_opens=date(YEAR, 3, 15), garden_closes=closes)


def test_a_plot_without_plantings_is_one_sentence():
    """It says what is lacking and where to go."""
    with pytest.raises(InputProblem, match="no plantings yet"):
        season_tasks(Plot(), HERE, year=YEAR, latitude=42.0)


def test_an_unknown_crop_does_not_take_the_others_with_it():
    """It is named, with what is near it."""
    plan = _plan(CABBAGE, Planting(id="x", crop="cabage"))
    assert _days(plan, "set_out", "p1")
    assert "cabage" in str(plan.not_possible[0])


def test_a_moved_planting_moves_all_its_days():
    """Two weeks later, day for day, with the same ids, and the plan says so."""
    plan, later = _plan(TOMATO), _plan(TOMATO.model_copy(update={"moved_weeks": 2}))
    by = timedelta(weeks=2)
    for kind in ("sow_indoors", "set_out", "harvest"):
        (first, last), moved = _days(plan, kind, "p2")[0], _days(later, kind, "p2")[0]
        assert moved == (first + by, last + by)
    assert {task.id for task in plan.tasks} == {task.id for task in later.tasks}
    assert any(said.key == "plan.moved_later" for said in later.assumptions)


def test_lime_names_the_dust_first():
    """Each dose is a task of its own, its weight behind the caution."""
    rate = lime_rate("smp_isu", water_ph=5.8, target_ph=6.5, buffer_ph=6.4)
    plan = _plan(CABBAGE, lime=lime_for_bed(rate, 4.5, plant_on=date(YEAR, 10, 1)))
    task = next(task for task in plan.tasks if task.kind == "lime")
    assert "dust" in str(task.caution)
    assert not any(letter.isdigit() for letter in str(task.said).replace("dose 1", ""))
    assert "lb" in str(task.more)


def test_ids_are_once_and_tasks_in_order():
    """Every task has an id of its own; they stand by their first day."""
    crops = ["cabbage_main", "kale", "lettuce_leaf", "pea", "tomato", "pepper", "bean_bush", "cucumber", "carrot"]
    plan = _plan(*(Planting(id=f"p{n}", crop=crop) for n, crop in enumerate(crops)), water_on=date(YEAR, 4, 20))
    assert len({task.id for task in plan.tasks}) == len(plan.tasks)
    assert [task.first for task in plan.tasks] == sorted(task.first for task in plan.tasks)
    assert {task.kind for task in plan.tasks} <= set(KINDS)
    assert plan.table["week"].map(lambda day: day.weekday()).eq(0).all()
    assert len(plan.table) == len(plan.tasks) == sum(len(tasks) for _, tasks in plan.by_week())


def test_the_same_plot_gives_the_same_plan():
    """Nothing is left to chance or to the clock."""
    assert _plan(CABBAGE, TOMATO) == _plan(CABBAGE, TOMATO)


@pytest.mark.parametrize("crop", sorted(tables.crops().index))
def test_every_crop_can_be_planned(crop):
    """Every crop of the table gives tasks or a reason, in both seasons."""
    for season in ("spring", "fall"):
        plan = _plan(Planting(id="p", crop=crop, season=season))
        assert plan.not_possible or any(task.planting == "p" for task in plan.tasks)
        assert all(task.first <= task.last for task in plan.tasks)


def test_south_of_the_equator_the_season_crosses_the_new_year():
    """The growing year runs from July to June (design rule of the freeze seasons)."""
    south = FreezeDates.typed((9, 20), (4, 20), source="made up", latitude=-38.0)
    days = [date(YEAR, 8, 1), date(YEAR + 1, 3, 1), date(YEAR, 3, 1)]
    plan = season_tasks(Plot(plantings=(CABBAGE,)), south, year=YEAR, latitude=-38.0, workdays=days)
    assert [task.first for task in plan.tasks if task.kind == "workday"] == days[:2]


def test_weeks_count_both_ends():
    """Four weeks are 28 days: a task of day 28 is in, one of day 29 is not."""
    plan = _plan(CABBAGE, water_on=date(YEAR, 4, 5), workdays=[date(YEAR, 2, 1) + timedelta(days=n) for n in (27, 28)])
    assert [task.first.day for task in plan.weeks(date(YEAR, 2, 1), 4) if task.kind == "workday"] == [28]
    assert plan.next_from(date(YEAR, 12, 30)) is None
    assert plan.begun_before(plan.tasks[0].first) == 0


def test_a_crop_that_the_class_added_is_planned():
    """Its own name stands in the tasks, whatever marks are in it; no table knows its id."""
    name = "peas, {x}; 🍅"
    own = replace(tables.crop("pea"), id="own_pea", name=name)
    plan = _plan(Planting(id="o", crop="own_pea"), crops={"own_pea": own})
    assert _days(plan, "direct_sow", "o") == [sowing_dates("pea", HERE, year=YEAR).direct_sow]
    assert any(name in str(task.said) for task in plan.tasks)


def test_a_record_of_few_seasons_gives_no_pest_a_day():
    """The plan says so, and looking begins at planting (`forecast` asks for ten whole past seasons)."""
    station = read_station(carried("data_demo") / "stations" / "invented_pellowby_daily.csv", latitude=42.0)
    few = lay_out(station.daily.tail(3 * 366), 42.0)
    plan = _plan(CABBAGE, daily=few, warmth=Warmth.from_station(station, 42.0))
    assert any(said.key == "plan.no_pest_days" for said in plan.assumptions)
    assert _days(plan, "look", "p1")[0][0] == _days(plan, "set_out", "p1")[0][0]
