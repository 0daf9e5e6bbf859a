"""Supply by week: words and marks lie inside the drawing, whatever the weeks."""

from datetime import date, timedelta

import pytest

from gardenlib.charts import svg, theme
from gardenlib.charts.supply import SupplyWeek, SupplyWords, _shown, _ticks, supply_weeks
from gardenlib.words import Voice

WORDS = SupplyWords("servings a week", "comes in", "up to", "eaten", "from the store", "too little", "left over")


def _weeks(rows, count=53):
    start = date(2027, 1, 4)
    empty = (0.0,) * 6
    return [SupplyWeek(start + timedelta(days=7 * n), *rows.get(n, empty)) for n in range(count)]


@pytest.mark.parametrize(
    "rows",
    [
        {24: (5.0, 9.0, 4.0, 0.0, 0.0, 1.0)},
        dict.fromkeys(range(53), (0.1, 4000.0, 40.0, 2.0, 38.0, 0.0)),
        {52: (5.0, 5.0, 4.0, 0.0, 0.0, 0.0)},
        {0: (0.0, 0.0, 4.0, 0.0, 4.0, 0.0)},
    ],
)
def test_nothing_leaves_the_drawing(rows):
    """From one week to all of the year, every part stands inside the picture's width and height."""
    chart = supply_weeks(_weeks(rows), words=WORDS, voice=Voice())
    drawn = chart.to_dict()
    for kind, marks in drawn["datasets"].items():
        for mark in marks:
            for name in ("y", "y2"):
                assert -1 <= mark.get(name, 0) <= drawn["height"], (kind, mark)
    assert drawn["width"] == theme.CHART_PX
    ticks = [mark for mark in drawn["datasets"]["text"] if mark["align"] == "right"]
    left = min(layer["encoding"]["x"]["scale"]["range"][0] for layer in drawn["layer"])
    assert all(left + mark["dx"] - theme.text_px(mark["text"]) >= 0 for mark in ticks)
    assert svg(chart).startswith("<svg")


def test_weeks_without_anything_are_left_out():
    """The picture begins a week before all that happens, and shows ten weeks at least."""
    shown = _shown(_weeks({24: (5.0, 9.0, 4.0, 0.0, 0.0, 1.0)}))
    assert shown[0].week == date(2027, 1, 4) + timedelta(days=7 * 23)
    assert len(shown) == 10


@pytest.mark.parametrize("most", [0.2, 1.0, 4.0, 39.0, 250.0, 7e5])
def test_the_axis_reaches_the_highest(most):
    """The axis is as high as the highest week and has six ticks at most."""
    top, step = _ticks(most)
    assert top >= most - 1e-9
    assert top / step <= 5 + 1e-9
