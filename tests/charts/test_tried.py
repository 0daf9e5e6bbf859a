"""The picture of a sowing tried many times."""

import re

import pytest

from gardenlib import charts
from gardenlib.charts.tried import tried_sowings

WORDS = {"short": "too few", "enough": "enough", "axis": "Plants"}


def test_each_sowing_is_one_dot_and_short_ones_are_rings():
    """Five sowings make five dots; the two with fewer plants than wanted are rings, the others are filled."""
    picture = tried_sowings([18, 19, 20, 20, 23], 20, **WORDS).to_dict(validate=False)
    points = picture["datasets"]["point"]
    assert len(points) == 5
    assert sum(point["fill"] != point["hue"] for point in points) == 2


@pytest.mark.parametrize(
    ("came_up", "wanted"), [([1] * 100, 1), ([4] * 80 + [3] * 20, 3), (list(range(400, 600)), 500)]
)
def test_every_dot_stays_inside(came_up, wanted):
    """A hundred sowings with one result, and ones with many, stay inside the picture with all their words."""
    picture = charts.svg(tried_sowings(came_up, wanted, **WORDS))
    height = float(re.search(r'viewBox="0 0 280 ([\d.]+)"', picture)[1])
    assert height < 280
    assert all(word in picture for word in WORDS.values())
    rows = tried_sowings(came_up, wanted, **WORDS).to_dict(validate=False)["datasets"]["point"]
    assert all(0 < row["y"] < height for row in rows)
