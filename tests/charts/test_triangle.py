"""The texture triangle: its outlines against the classes, its words inside the picture."""

import re

import numpy as np
import pytest

from gardenlib import charts, soil
from gardenlib.charts import theme
from gardenlib.charts.triangle import OUTLINES, texture_triangle
from gardenlib.soil.texture import CLASSES
from gardenlib.words import Voice

NAMES = {name: Voice().say(f"texture.short.{name.replace(' ', '_')}") for name in CLASSES}
PARTS = {"sand": "all sand", "silt": "all silt", "clay": "all clay"}


def _inside(outline, silt, clay):
    """Tell whether a mix lies inside an outline, by counting the edges to its right."""
    corners = [(mix[1], mix[2]) for mix in outline]
    crossed = 0
    for (x1, y1), (x2, y2) in zip(corners, corners[1:] + corners[:1], strict=True):
        if (y1 > clay) != (y2 > clay) and silt < x1 + (clay - y1) * (x2 - x1) / (y2 - y1):
            crossed += 1
    return crossed % 2 == 1


def _area(outline):
    x, y = np.array([(mix[1], mix[2]) for mix in outline]).T
    return abs(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2


def test_outlines_are_the_classes():
    """Each of 2,000 mixes lies inside the outline of its class alone (the classes are tested elsewhere)."""
    mixes = np.random.default_rng(7).dirichlet([1, 1, 1], 2000) * 100
    names = soil.texture_classes(*mixes.T)
    near_line = 0
    for (_, silt, clay), name in zip(mixes, names, strict=True):
        found = [other for other, (outline, _) in OUTLINES.items() if _inside(outline, silt, clay)]
        near_line += found != [name]
    assert near_line <= 6  # mixes within the slack of 0.01 of a line may fall on its other side


def test_outlines_fill_the_triangle():
    """The twelve areas make up the whole triangle, with no gap and no overlap."""
    assert set(OUTLINES) == set(CLASSES)
    assert sum(_area(outline) for outline, _ in OUTLINES.values()) == pytest.approx(5000)
    assert all(sum(mix) == 100 for outline, _ in OUTLINES.values() for mix in outline)


def _texts(**marked):
    return texture_triangle(NAMES, PARTS, **marked).to_dict(validate=False)["datasets"]["text"]


def _box(row):
    wide = theme.text_px(row["text"], bold=row["bold"] == "bold")
    left = row["x"] + row["dx"] - {"left": 0, "center": wide / 2, "right": wide}[row["align"]]
    return left, row["y"] - 6, left + wide, row["y"] + 6


def _laid_on_each_other(boxes):
    return [
        (a, b)
        for i, (a, ax1, ay1, ax2, ay2) in enumerate(boxes)
        for b, bx1, by1, bx2, by2 in boxes[i + 1 :]
        if ax1 < bx2 and bx1 < ax2 and ay1 < by2 - 0.5 and by1 + 0.5 < ay2
    ]


@pytest.mark.parametrize("chosen", CLASSES)
def test_words_stay_inside_and_apart(chosen):
    """Every word lies inside the picture, and none on another, even when all are bold."""
    rows = _texts(chosen=chosen, near=CLASSES)
    height = texture_triangle(NAMES, PARTS, chosen=chosen).to_dict()["height"]
    boxes = [(row["text"], *_box(row)) for row in rows]
    assert all(x1 >= -0.5 and x2 <= theme.CHART_PX + 0.5 and y1 >= 0 and y2 <= height for _, x1, y1, x2, y2 in boxes)
    assert _laid_on_each_other(boxes) == []


@pytest.mark.parametrize("mix", [(41, 41, 18), (20, 20, 60), (64, 25, 11), (11, 55.5, 33.5), (32.5, 34, 33.5)])
def test_words_make_way_for_the_dot(mix):
    """Where the dot falls on a class's words they stand above or below it."""
    rows = _texts(chosen=soil.texture_class(*mix), point=mix)
    chart = texture_triangle(NAMES, PARTS, chosen="loam", point=mix).to_dict(validate=False)
    dot = chart["datasets"]["point"][0]
    on_dot = [row["text"] for row in rows if _box(row)[0] < dot["x"] < _box(row)[2] and abs(row["y"] - dot["y"]) < 10]
    assert on_dot == []


def test_chosen_class_is_shaded_and_bold():
    """The chosen class alone is shaded; its name and its neighbours' are bold."""
    chart = texture_triangle(NAMES, PARTS, chosen="loam", near=("clay loam",)).to_dict(validate=False)
    assert len(chart["datasets"]["inside"]) == len(OUTLINES["loam"][0])
    bold = {row["text"] for row in chart["datasets"]["text"] if row["bold"] == "bold"}
    assert bold == {"loam", "clay loam"}


def test_lines_go_in_the_order_of_their_points():
    """An outline that turns back is drawn as it is given, not sorted from left to right."""
    picture = charts.svg(texture_triangle(NAMES, PARTS, chosen="clay"))
    assert 'viewBox="0 0 280 ' in picture
    # The inside of the class clay: left to the corner at 45 sand, 55 clay, up to all clay and down again.
    inside = re.search(r'<path aria-label[^>]*|<path [^>]*fill="#222222"[^>]*', picture)
    assert inside is not None
    xs = [float(x) for x in re.findall(r"[ML]([\d.]+),", re.search(r' d="([^"]+)"', inside[0])[1])]
    assert xs != sorted(xs)


def test_no_words_in_a_small_class_under_the_dot():
    """In a class too small for dot and words the words of that class alone are left out."""
    mix = (11, 55.5, 33.5)
    assert soil.texture_class(*mix) == "silty clay loam"
    bare, full = ({row["text"] for row in _texts(chosen="silty clay loam", point=at)} for at in (mix, None))
    assert full - bare == {"silty clay"}


@pytest.mark.parametrize("seed", range(3))
def test_words_stay_apart_wherever_the_dot_is(seed):
    """For 40 mixes no word lies on another or on the dot."""
    for mix in np.random.default_rng(seed).dirichlet([1, 1, 1], 40) * 100:
        chart = texture_triangle(NAMES, PARTS, chosen=soil.texture_class(*mix), near=CLASSES, point=tuple(mix))
        drawn = chart.to_dict(validate=False)["datasets"]
        boxes = [(row["text"], *_box(row)) for row in drawn["text"]]
        assert _laid_on_each_other(boxes) == [], mix
        x, y = drawn["point"][0]["x"], drawn["point"][0]["y"]
        assert [word for word, x1, y1, x2, y2 in boxes if x1 < x < x2 and y1 - 2 < y < y2 + 2] == [], mix
