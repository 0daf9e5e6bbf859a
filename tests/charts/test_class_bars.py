"""The bars of a class: lengths as the counts, told apart without colour, every word within the picture."""

import re

from gardenlib.charts import svg, theme
from gardenlib.charts.class_bars import ReasonBar, class_bars

LONG = "You forgot the path between the beds. Measure it, and take it off the length before you count the rows."


def _drawn(*bars, title="04.seeds.4: Work out how many seeds to sow"):
    return svg(class_bars([(title, bars)], axis="answers"))


def _filled(picture):
    return [float(wide) for wide in re.findall(r'x2="([\d.]+)" y2="0"[^>]*stroke-width="14"', picture)]


def test_bars_are_as_long_as_their_counts():
    """6, 4 and 2 answers: the bars stand to each other as 3, 2 and 1, and each count is written at its bar."""
    picture = _drawn(*(ReasonBar("path forgotten", n, "filled") for n in (6, 4, 2)))
    longest, middle, shortest = _filled(picture)
    assert round(longest / shortest, 2) == 3
    assert round(middle / shortest, 2) == 2
    assert {"6", "4", "2"} <= set(re.findall(r">(\d+)</text>", picture))


def test_states_differ_without_colour():
    """To look at again is filled, what holds is an outline, what is empty a broken outline; all of it is ink."""
    picture = _drawn(ReasonBar("a", 3, "filled"), ReasonBar("b", 2, "outline"), ReasonBar("c", 1, "dashed"))
    assert len(_filled(picture)) == 1
    lines = re.findall(r'<path d="M0.75[^>]*stroke-dasharray="([\d,]+)"', picture)
    assert sorted(lines) == ["1,0", "3,3"]
    assert set(re.findall(r'stroke="(#\w+)"', picture)) == {theme.INK, theme.PAPER}


def test_words_stay_within_the_picture():
    """Long words are written in lines that are no wider than the picture, none of them lost."""
    picture = _drawn(ReasonBar(LONG, 1, "filled"), title=LONG)
    lines = [line for line in re.findall(r">([^<>]+)</text>", picture) if " " in line]
    assert " ".join(lines) == f"{LONG} {LONG}"
    assert all(theme.text_px(line, bold=True) <= theme.CHART_PX + 20 for line in lines)
    assert f'viewBox="0 0 {theme.CHART_PX} ' in picture


def test_the_axis_names_its_unit():
    """Below the bars stand the unit and the ends of the axis, for one answer too."""
    picture = _drawn(ReasonBar("a", 1, "filled"))
    assert picture.index(">answers</text>") > picture.index(">0</text>")
    assert picture.count(">1</text>") == 2
