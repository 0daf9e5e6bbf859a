"""The printed plan: its pages, what stands on them, cautions in front, and nothing in the data is a command."""

import re
import subprocess
from datetime import date

import pytest
from test_sheets import LONGEST, _pages, _pixels

from gardenlib import InputProblem
from gardenlib.plot import Bed, Planting, Plot
from gardenlib.season import season_tasks
from gardenlib.sheets import PrintedBed, season_plan_data, sheet_pdf, when_words
from gardenlib.sheets.printing import PAPERS, _typeset
from gardenlib.site import FreezeDates
from gardenlib.soil import lime_for_bed, lime_rate
from gardenlib.words import Said, Voice

HERE = FreezeDates.typed((4, 20), (10, 15), source="made up", latitude=42.0)
FIVE = ["cabbage_main", "lettuce_leaf", "pea", "tomato", "bean_bush"]
TWELVE = [*FIVE, "kale", "broccoli", "pepper", "cucumber", "squash_summer", "carrot", "beet"]
BED = Bed(id="b", families=(("Fabaceae",),))
SIZE = 'width="280" height="290" viewBox="0 0 280 290"'
SVG = f'<svg xmlns="http://www.w3.org/2000/svg" {SIZE}><rect width="80" height="280"/></svg>'
LINE = "D tomato: 4 plants, first at 9 in, then every 18 in; C pea: 30 plants, first at 73 in, then every 2 in"
PRINTED = PrintedBed(
    SVG,
    "A bed in lines.",
    "From the north edge",
    [
        ("9 in", LINE),
        *((f"{place} in", "A cabbage: 4 plants, first at 8 in, then every 15 in") for place in (26, 36, 40)),
    ],
    ["tomato: 4 plants, or 7 seeds"] * 9,
)
TOLD = [Said("plan.from_first_day"), Said("plan.picked_on"), Said("plan.no_pest_days")]


def _plan(crops=tuple(FIVE), **how):
    plantings = tuple(Planting(id=f"p{number}", crop=crop, bed="b") for number, crop in enumerate(crops))
    days = {"water_on": date(2027, 4, 20), "water_off": date(2027, 10, 20), "workdays": [date(2027, 4, 3)]}
    return season_tasks(Plot(plantings=plantings, beds=(BED,)), HERE, year=2027, latitude=42.0, **days, **how)


def _data(plan, voice=None, **how):
    return season_plan_data(plan, voice or Voice(), **{"place": "Pellowby Hollow", "told": TOLD, "bed": PRINTED, **how})


def _text(pdf, tmp_path):
    (tmp_path / "plan.pdf").write_bytes(pdf)
    made = subprocess.run(["pdftotext", "-layout", tmp_path / "plan.pdf", "-"], check=True, capture_output=True)
    return re.sub(r"\s+", " ", made.stdout.decode("utf-8"))


@pytest.mark.parametrize("paper", PAPERS)
def test_a_plan_of_five_crops_is_two_pages(paper):
    """With its bed, what to get and the notes, in normal print."""
    assert _pages(sheet_pdf("season_plan", _data(_plan()), paper=paper, invented=True)) <= 2


@pytest.mark.parametrize("paper", PAPERS)
def test_a_plan_of_twelve_crops_is_two_pages(paper):
    """It is set closer, in two columns, so that one sheet with two sides goes to the garden."""
    assert _pages(sheet_pdf("season_plan", _data(_plan(TWELVE)), paper=paper, invented=True)) == 2


def test_large_print_goes_on_to_the_next_page():
    """Twelve crops in large print are never set closer."""
    assert 2 < _pages(sheet_pdf("season_plan", _data(_plan(TWELVE)), large=True)) <= 6


def test_every_task_is_printed_in_its_week():
    """Crops with the same task on the same days share a line; no task is lost."""
    plan = _plan(TWELVE)
    data = _data(plan)
    assert [week["week"] for week in data["weeks"]] == [Voice().date(day, "MMMd") for day, _ in plan.by_week()]
    for week, (_, tasks) in zip(data["weeks"], plan.by_week(), strict=True):
        printed = " ".join(item["what"] for item in week["tasks"])
        assert len(week["tasks"]) <= len(tasks)
        for task in tasks:
            assert task.crop is None or str(task.crop.name) in printed
            assert task.goes_on or when_words(task, Voice()) in printed


def test_the_words_are_in_the_file(tmp_path):
    """Title, weeks, the bed's lines, what to get and the notes can be read."""
    found = _text(sheet_pdf("season_plan", _data(_plan()), invented=True), tmp_path)
    for words in (
        "Pellowby Hollow: what to do in 2027",
        "Set out tomato",
        "From the north edge",
        "first at 73 in",
        "or 7 seeds",
        "Good to know",
        "are invented",
    ):
        assert words in found
    assert "invented" not in _text(sheet_pdf("season_plan", _data(_plan())), tmp_path)


def test_a_caution_is_printed_before_its_number(tmp_path):
    """Lime: the dust, then the weight, in the box of one task."""
    rate = lime_rate("smp_isu", water_ph=5.8, target_ph=6.5, buffer_ph=6.4)
    plan = _plan(lime=lime_for_bed(rate, 4.5, plant_on=date(2027, 10, 1)))
    items = [item for week in _data(plan)["weeks"] for item in week["tasks"] if item["what"].startswith("Lime")]
    assert len(items) == 1
    assert not re.search(r"\d", items[0]["what"].replace("dose 1", "").partition(":")[0])
    found = _text(sheet_pdf("season_plan", _data(plan)), tmp_path)
    assert found.index("Lime dust hurts") < found.index("Weigh out")
    assert items[0]["caution"].startswith("Lime dust hurts")
    assert "lb" in items[0]["more"]


def test_what_is_not_possible_stands_first_among_the_notes():
    """A crop without a window is named on paper too."""
    notes = _data(_plan(("cabbage_main", "no_such_crop")))["notes"]
    assert "no_such_crop" in notes[0]


def test_without_a_bed_the_plan_is_printed_all_the_same():
    """Nobody measured a bed: no drawing, no list, no empty heading."""
    data = _data(_plan(), bed=None)
    assert "bed_title" not in data
    assert _pages(sheet_pdf("season_plan", data)) <= 2
    bare = PrintedBed(None, "", "From the edge", [("9 in", "peas")], [])
    assert _pages(sheet_pdf("season_plan", _data(_plan(), bed=bare))) <= 2


@pytest.mark.parametrize("large", [False, True])
def test_nothing_runs_out_of_the_page(large):
    """The outer centimetre stays white with the longest names."""
    long = PrintedBed(SVG, "A bed.", LONGEST, [(LONGEST, LONGEST)], [LONGEST])
    data = _data(_plan(TWELVE), place=LONGEST, bed=long)
    made = _typeset("season_plan", data, Voice(), "a4", large=large, invented=True, format="png", ppi=25.4)
    for page in made:
        ink = _pixels(page)[..., :3].min(axis=2) < 200
        assert ink.any()
        assert ink.sum() == ink[10:-10, 10:-10].sum()


@pytest.mark.parametrize(
    "typed", ["#pagebreak()", '#panic("x")', "*b* _i_ $x$ @ref <a>", "]; #image", "\\", '"', "peas, a\nb"]
)
def test_what_was_typed_is_never_a_command(typed):
    """A place or a line with marks of the typesetter is printed as it is."""
    bed = PrintedBed(SVG, typed, typed, [(typed, typed)], [typed])
    assert 1 <= _pages(sheet_pdf("season_plan", _data(_plan(), place=typed, bed=bed))) <= 2


@pytest.mark.parametrize("letter", ["🍅", "園"])
def test_a_letter_that_the_typeface_lacks_is_one_sentence(letter):
    """It is named, and no page is made with a hole in it."""
    with pytest.raises(InputProblem, match=letter):
        sheet_pdf("season_plan", _data(_plan(), place=f"Plot {letter}"))


def test_the_same_plan_gives_the_same_bytes():
    """A page has no date of its own."""
    first, second = (sheet_pdf("season_plan", _data(_plan())) for _ in range(2))
    assert first == second
