"""Texture classes: bounds, rescaling, neighbours, hostile input."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardenlib import InputProblem, soil
from gardenlib.soil.doubt import Doubt
from gardenlib.soil.texture import CLASSES
from gardenlib.words import Voice


@pytest.mark.parametrize(
    "mix",
    [(50, 30, 30), (33, 33, 32), (0.5, 0.3, 0.2), (0, 0, 0), (100, 100, 100)],
)
def test_shares_that_do_not_make_100(mix):
    """A sum outside 99 to 101 is refused in one sentence that names it (tolerance of euptf, an R package)."""
    with pytest.raises(InputProblem, match="must make 100") as problem:
        soil.texture_class(*mix)
    assert f"{sum(mix):g}" in str(problem.value)


@pytest.mark.parametrize("bad", [-0.5, 100.5, float("nan"), float("inf"), 1e300])
@pytest.mark.parametrize("place", [0, 1, 2])
def test_share_out_of_range_is_named(bad, place):
    """A share below 0, above 100 or no number at all is refused and named."""
    mix = [40.0, 40.0, 20.0]
    mix[place] = bad
    with pytest.raises(InputProblem, match=f"share of {('sand', 'silt', 'clay')[place]} is"):
        soil.texture_class(*mix)


@pytest.mark.parametrize("bad", ["6,2", "40", None, True, [40, "x"]])
def test_text_is_no_share(bad):
    """Text, nothing and yes-or-no are refused with a hint how to type a number."""
    with pytest.raises(InputProblem, match=r"6\.2"):
        soil.texture_class(bad, 40, 20)


@pytest.mark.parametrize("total", [99.0, 99.5, 100.4, 101.0])
def test_a_sum_near_100_is_brought_to_it(total):
    """Shares that make 99 to 101 are brought to 100: the class is that of the mix, whatever its sum (by definition)."""
    mix = np.array([40.0, 40.0, 20.0]) * total / 100
    answer = soil.soil_texture(*mix)
    assert answer.texture == "loam"
    assert (answer.sand_pct, answer.silt_pct, answer.clay_pct) == pytest.approx((40, 40, 20))
    assert ("texture.to_100" in {step.key for step in answer.steps}) is (abs(total - 100) > 0.01)


def test_small_misses_of_a_limit_do_not_count():
    """At 0.1 + 0.2 and the like the class is that of the limit itself: 0.01 of slack."""
    sand, silt = 70.1 - 0.1, 0.1 + 0.2 + 29.7
    assert soil.texture_class(sand, silt, 100 - sand - silt) == soil.texture_class(70, 30, 0)
    assert soil.texture_class(45.000001, 15, 39.999999) == soil.texture_class(45, 15, 40) == "clay"


@given(st.floats(0, 100), st.floats(0, 1))
def test_every_mix_has_a_class(clay, share):
    """Any mix at all has one of the twelve names, alone and in an array."""
    sand = (100 - clay) * share
    silt = 100 - clay - sand
    name = soil.texture_class(sand, silt, clay)
    assert name in CLASSES
    assert soil.texture_classes([sand, 20], [silt, 20], [clay, 60]).tolist() == [name, "clay"]


def test_array_names_the_row_that_is_off():
    """In an array the sentence names the sum that does not fit."""
    with pytest.raises(InputProblem, match="add up to 120"):
        soil.texture_classes([40, 60], [40, 40], [20, 20])
    assert soil.texture_classes([[40, 90]], [[40, 5]], [[20, 5]]).shape == (1, 2)
    assert soil.texture_classes([], [], []).shape == (0,)


@pytest.mark.parametrize(
    ("mix", "doubt", "over", "near"),
    # The lines are those of the Soil Survey Manual 2017: which of them lie within reach was read off by hand.
    [
        ((40, 40, 20), 0, 0, set()),
        ((40, 40, 20), 2, 0, set()),
        ((40, 40, 26), 2, 0, None),
        ((33, 33, 34), 2, 0, set()),
        ((33, 38, 29), 3, 0, {"loam"}),
        ((10, 46, 44), 2, 0, set()),
        ((10, 46, 44), 5, 0, {"silty clay loam"}),
        ((10, 46, 44), 1, 6, {"silty clay loam"}),
        ((30, 27, 43), 1, 6, {"clay loam"}),
    ],
)
def test_neighbours_within_the_doubt(mix, doubt, over, near):
    """A class is a neighbour when the doubt reaches over its line, and only then; a jar's extra reaches down only."""
    if near is None:
        with pytest.raises(InputProblem):
            soil.soil_texture(*mix, doubt_pct=doubt)
        return
    answer = soil.soil_texture(*mix, doubt_pct=doubt, clay_over_pct=over)
    assert set(answer.neighbours) == near
    assert answer.texture not in answer.neighbours


def test_too_much_clay_is_looked_for_below_only():
    """Clay that may be over-read leaves lower clay open, never higher: 24 of clay reaches no line above it."""
    answer = soil.soil_texture(35, 40, 25, doubt_pct=1, clay_over_pct=20)
    assert "clay loam" not in answer.neighbours
    assert max(corner[2] for corner in answer.corners) == pytest.approx(26)
    assert min(corner[2] for corner in answer.corners) == pytest.approx(4)


@given(st.floats(0, 100), st.floats(0, 1), st.floats(0.1, 20), st.floats(0, 20))
def test_corners_are_mixes_and_hold_the_measured_one(clay, share, doubt, over):
    """Each corner of the doubt makes 100 with no share below 0, and the measured mix lies among them."""
    mix = ((100 - clay) * share, (100 - clay) * (1 - share), clay)
    corners = np.array(Doubt.checked(doubt, over).corners(mix))
    assert np.allclose(corners.sum(axis=1), 100)
    assert corners.min() > -1e-5
    assert (corners.min(axis=0) <= np.array(mix) + 1e-5).all()
    assert (corners.max(axis=0) >= np.array(mix) - 1e-5).all()


@pytest.mark.parametrize(("name", "bad"), [("doubt_pct", -1), ("clay_over_pct", 30), ("doubt_pct", float("nan"))])
def test_doubt_out_of_range(name, bad):
    """A doubt below 0, above 20 or no number is refused by name."""
    with pytest.raises(InputProblem, match=f"{name} is"):
        soil.soil_texture(40, 40, 20, **{name: bad})


@pytest.mark.parametrize("name", CLASSES)
def test_each_class_has_words(name):
    """Each of the twelve classes has a name and short words for the triangle."""
    assert str(soil.texture_name(name)) == name
    assert Voice().say(f"texture.short.{name.replace(' ', '_')}").replace("\n", " ") == name


def test_a_name_that_is_none():
    """Another name is refused with those that are known."""
    with pytest.raises(InputProblem, match=r"silty loam.*silt loam"):
        soil.texture_name("silty loam")


def test_working_shows_rule_and_source():
    """The working shows the rule of the class and cites the manual."""
    answer = soil.soil_texture(30, 40, 30)
    assert answer.steps[-1].expression == "27 <= clay < 40 and 20 < sand <= 45"
    assert answer.sources == ("soil_survey_manual_2017",)
