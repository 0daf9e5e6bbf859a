"""The curve of keeping: nothing runs out of it, and the two temperatures that are compared are marked."""

import pytest

from gardenlib.charts import theme
from gardenlib.charts.few_bars import few_bars
from gardenlib.charts.keep_curve import Life, keep_curve
from gardenlib.words import Voice

ALIGN = {"left": 0.0, "center": 0.5, "right": 1.0}
CASES = {
    "one point": ([Life(0, 273.6, 273.6)], Life(0, 273.6, 273.6)),
    "short": ([Life(0, 1, 2), Life(20, 1, 1)], Life(20, 1, 1)),
    "long": ([Life(-1, 7, 273.6), Life(20, 1, 4)], Life(-1, 7, 273.6)),
    "warm": ([Life(5, 7, 10), Life(17, 60.8, 60.8)], Life(17, 60.8, 60.8)),
}


def _rows(chart):
    return chart.to_dict()["datasets"]


def _is_inside(chart):
    for row in _rows(chart)["text"]:
        wide = theme.text_px(row["text"], bold=row["bold"] == "bold")
        left = row["x"] + row["dx"] - ALIGN[row["align"]] * wide
        assert left >= -0.5, row["text"]
        assert left + wide <= theme.CHART_PX + 0.5, row["text"]
        assert 0 <= row["y"] <= chart.to_dict()["height"]
    for row in _rows(chart)["point"]:
        assert 0 <= row["x"] <= theme.CHART_PX
        assert 0 <= row["y"] <= chart.to_dict()["height"]


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("case", CASES)
def test_nothing_runs_out_of_the_curve(case, units):
    """Words and dots of the shortest and longest lives lie inside the drawing; both marks are named."""
    chart = keep_curve(*CASES[case], marks_c=(0.0, 4.4), words=("yours: 68.5 °F", "how warm"), voice=Voice(units=units))
    _is_inside(chart)
    words = [row["text"] for row in _rows(chart)["text"]]
    assert {"32 °F", "40 °F"} <= set(words) or {"0 °C", "4.4 °C"} <= set(words)
    assert len([word for word in words if "week" in word or "day" in word]) >= 3


def test_each_doubling_is_one_step():
    """Twice the life stands one step higher, wherever it is: the axis is one of logarithms."""
    chart = keep_curve(
        [Life(0, 28, 56), Life(10, 14, 28)], Life(0, 28, 56), marks_c=(0.0, 4.4), words=("a", "b"), voice=Voice()
    )
    heights = sorted({round(row["y"], 6) for row in _rows(chart)["point"]})
    assert heights[1] - heights[0] == pytest.approx(heights[2] - heights[1])


def test_nothing_runs_out_of_the_bars():
    """Seven large amounts and none at all fit."""
    full = few_bars([4410.0] * 7, ["4,410"] * 7, list("0123456"), axis="weeks", hue=theme.INK)
    for chart in (full, few_bars([0.0, 0.0], ["0", "0"], ["0", "1"], axis="weeks", hue=theme.INK)):
        rows = _rows(chart)
        assert all(0 <= row["y"] <= chart.to_dict()["height"] for row in rows["text"])
    assert not _rows(chart)["rule"][:-1]
