"""The page for the pocket: one side on both papers and in both sizes, with lines high enough to write on."""

import re
from itertools import pairwise

import pytest

from gardenlib.sheets import pocket_log_data, sheet_pdf
from gardenlib.sheets.printing import PAPERS, _typeset
from gardenlib.tables import crop, crops
from gardenlib.words import Voice

EVERY = [Voice().value(crop(name).name) for name in crops().index]
LONGEST = ["Invented_squash_of_the_long_valley_" + "x" * 60] * 40
WRITABLE_MM = 8.0  # Common practice, no source: ruled paper has lines 7 to 8.7 mm apart.


def _pages(pdf):
    return len(re.findall(rb"/Type/Page\b(?!s)", pdf))


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("names", [[], ["pea"], EVERY, LONGEST], ids=["none", "one", "every", "longest"])
def test_it_is_one_side(paper, large, names):
    """With no crop, one, all of the table and forty long names the page stays one side."""
    pdf = sheet_pdf("log", pocket_log_data(names, Voice(), large=large), paper=paper, large=large, invented=True)
    assert _pages(pdf) == 1


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("names", [EVERY, LONGEST], ids=["every", "longest"])
def test_the_lines_are_high_enough_to_write_on(paper, large, names):
    """Measured between the rules of the drawn page: no line is lower than that of ruled paper."""
    data = pocket_log_data(names, Voice(), large=large)
    drawn = _typeset("log", data, Voice(), paper, large=large, invented=True, format="svg")
    svg = (drawn[0] if isinstance(drawn, list) else drawn).decode()
    rules = _rules_mm(svg)
    gaps = [after - before for before, after in pairwise(rules)]
    assert len(gaps) >= data["lines"]
    assert min(gaps[-data["lines"] :]) >= WRITABLE_MM


def _rules_mm(svg):
    """Give the heights of the long level lines of the drawing, in millimetres, from the top of their group."""
    found = re.findall(r'translate\([\d.-]+ ([\d.-]+)\)" d="M 0 0h ([\d.]+)"', svg)
    return sorted({float(height) * 25.4 / 72 for height, run in found if float(run) > 20})


def test_many_crops_are_counted():
    """What is not named is counted: both together are all 39 crops of the table."""
    said = pocket_log_data(EVERY, Voice())["crops"]
    assert len(EVERY) == 39
    assert said.count(",") + int(re.search(r"and (\d+) more", said)[1]) == 39
    assert "more" not in pocket_log_data(EVERY[:12], Voice())["crops"]


def test_the_head_is_in_the_units_of_the_class():
    """Pounds for US units, kilograms for metric ones, never both."""
    heads = {units: pocket_log_data([], Voice(units=units))["head"][-1] for units in ("us", "metric")}
    assert "lb" in heads["us"]
    assert "kg" not in heads["us"]
    assert "kg" in heads["metric"]


def test_names_are_never_commands():
    """What somebody calls a crop is printed as it is."""
    data = pocket_log_data(["#pagebreak()", '#panic("x")', "*b* $x$"], Voice())
    assert _pages(sheet_pdf("log", data)) == 1
