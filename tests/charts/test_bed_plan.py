"""The picture of a bed in plan."""

import re

import pandas as pd
import pytest

from gardenlib import charts
from gardenlib.beds import positions
from gardenlib.charts.bed_plan import bed_plan
from gardenlib.charts.theme import CHART_PX, text_px
from gardenlib.words import Voice

FOOT, INCH = 0.3048, 0.0254


def _plants(length, width, spacing, **how):
    return positions(length, width, spacing, **how).assign(spread_m=spacing, letter="")


def _rows(chart):
    return chart.to_dict(validate=False)["datasets"]


def _mixed(length):
    rows = []
    for at, apart, letter in ((8, 16, "A"), (20, 8, "B"), (32, 10, "C"), (40, 4, "D")):
        rows += [(x * INCH, at * INCH, apart * INCH, letter) for x in range(apart // 2, int(length / INCH), apart)]
    return pd.DataFrame(rows, columns=["x_m", "y_m", "spread_m", "letter"])


def test_rings_are_to_scale():
    """Twelve feet by four: the rings stand as far apart as they are wide, and the edges measure three to one."""
    rows = _rows(bed_plan(12 * FOOT, 4 * FOOT, _plants(12 * FOOT, 4 * FOOT, 1 * FOOT, pattern="square"), voice=Voice()))
    rings = pd.DataFrame(rows["point"])
    assert len(rings) == 48
    px = (rings["size"] / 0.785) ** 0.5 + 1.5
    step = rings.x.drop_duplicates().sort_values().diff().dropna()
    assert step.tolist() == pytest.approx([px[0]] * 11)
    edges = pd.DataFrame(rows["rule"]).query("w == 2")
    assert (edges.x2 - edges.x).max() == pytest.approx(3 * (edges.y2 - edges.y).max())


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize(
    ("length", "width", "spacing"),
    [(1, 1, 12), (1, 1, 1), (40, 4, 18), (40, 4, 2), (4, 12, 15), (2, 40, 6), (40, 40, 3), (300, 3, 12)],
)
def test_all_stays_inside(units, length, width, spacing):
    """From one foot square to forty by four and beyond: rings, edges and words lie inside the drawing."""
    plants = _plants(length * FOOT, width * FOOT, spacing * INCH)
    chart = bed_plan(length * FOOT, width * FOOT, plants, voice=Voice(units=units))
    picture = charts.svg(chart)
    assert 'viewBox="0 0 280 ' in picture
    height, rows = chart.to_dict()["height"], _rows(chart)
    assert height < 460
    for ring in rows["point"]:
        half = (ring["size"] / 0.785) ** 0.5 / 2
        assert half <= ring["x"] <= CHART_PX - half
        assert half <= ring["y"] <= height - half
    _words_inside(rows["text"], height)


def _words_inside(texts, height):
    boxes = []
    for text in texts:
        wide = text_px(text["text"], bold=text["bold"] == "bold")
        left = text["x"] - {"left": 0, "center": wide / 2, "right": wide}[text["align"]]
        assert left >= -0.5
        assert left + wide <= CHART_PX + 0.5
        assert 6 <= text["y"] <= height - 6
        boxes.append((left, left + wide, text["y"]))
    for n, (left, right, y) in enumerate(boxes):
        assert not any(a < right and left < b and abs(y - z) < 12 for a, b, z in boxes[:n])


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("length", [4, 12, 40])
def test_lines_carry_their_letter_and_distance(units, length):
    """Each line of a mixed bed is named once with its crops' letter and its distance; nothing touches."""
    lines = [8 * INCH, 20 * INCH, 32 * INCH, 40 * INCH]
    chart = bed_plan(length * FOOT, 4 * FOOT, _mixed(length * FOOT), voice=Voice(units=units), lines=lines)
    texts = _rows(chart)["text"]
    names = [text["text"] for text in texts if re.match(r"[A-D] \d", text["text"])]
    assert sorted(name[0] for name in names) == ["A", "B", "C", "D"]
    if units == "us":
        assert sorted(names) == ["A 8 in", "B 20 in", "C 32 in", "D 40 in"]
    _words_inside(texts, chart.to_dict()["height"])
    for rule in _rows(chart)["rule"]:
        for text in texts:
            wide = text_px(text["text"])
            if rule["x"] == rule["x2"] and text["align"] == "left" and text["text"] in names:
                crossed = text["x"] - 2 < rule["x"] < text["x"] + wide and rule["y"] < text["y"] < rule["y2"]
                assert not crossed


def test_a_part_is_said_to_be_one():
    """Ten thousand plants: a part is drawn, and the words give the whole bed."""
    chart = bed_plan(10, 10, _plants(10, 10, 0.1, pattern="square"), voice=Voice(units="metric"))
    rows = _rows(chart)
    assert 500 < len(rows["point"]) < 2000
    assert any("10 m by 10 m" in text["text"] for text in rows["text"])
    whole = bed_plan(1, 1, _plants(1, 1, 0.1, pattern="square"), voice=Voice(units="metric"))
    assert len(_rows(whole)["point"]) == 100
    assert not any("Part" in text["text"] for text in _rows(whole)["text"])


def test_an_empty_bed_is_drawn_too():
    """No plant fits: the bed stands alone with its measures."""
    chart = bed_plan(0.3, 0.3, _plants(0.3, 0.3, 1.0), voice=Voice())
    assert charts.svg(chart).startswith("<svg")
    assert any("1 ft" in text["text"] for text in _rows(chart)["text"])
