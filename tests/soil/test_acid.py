"""Lowering pH: the fizz test first, refused where it is pointless, and a range of sources for instructors."""

import math

import pytest

from gardenlib import soil
from gardenlib.problems import InputProblem


@pytest.mark.parametrize(
    ("ph", "fizz", "verdict"),
    [
        (6.5, "", "not_needed"),
        (7.4, "no", "not_needed"),
        (7.5, "", "test_first"),
        (8.2, "no", "ask"),
        (8.2, "yes", "pointless"),
        (7.0, "yes", "pointless"),
    ],
)
def test_advice(ph, fizz, verdict):
    """Free lime makes it pointless (Royal Horticultural Society); below 7.5 vegetables seldom ask for it."""
    advice = soil.acid_advice(ph, fizz)
    assert advice.verdict == verdict
    assert not any("kg" in name for name in vars(advice))


@pytest.mark.parametrize(("ph", "fizz"), [(0, "no"), (70, "no"), (math.nan, "no"), ("7,9", "no"), (7.9, "maybe")])
def test_hostile_values_are_refused(ph, fizz):
    """A pH that is none, or another word than yes and no, is refused."""
    with pytest.raises(InputProblem):
        soil.acid_advice(ph, fizz)


@pytest.mark.parametrize(
    ("how", "told"),
    [
        ({"fizz": "yes"}, "free lime"),
        ({"fizz": ""}, "vinegar test first"),
        ({"target_ph": 7.0}, "lie below"),
        ({"target_ph": 7.5}, "lie below"),
        ({"water_ph": 8.2}, "No published figure"),
        ({"soil": "peat"}, "not known"),
        ({"water_ph": 70}, "Did you mean 7"),
    ],
)
def test_no_amount_without_ground(how, told):
    """Without the test, with free lime, upward, or outside the tables there is no amount."""
    with pytest.raises(InputProblem, match=told):
        soil.sulphur_rate(**{"water_ph": 7.0, "target_ph": 6.5, "soil": "loam", "fizz": "no", **how})


def test_sources_stay_side_by_side():
    """From 7.0 to 6.5 on sand: 180 lb an acre as the difference of two Michigan rows (by hand), 135 g by the RHS."""
    rate = soil.sulphur_rate(water_ph=7.0, target_ph=6.5, soil="sand", fizz="no")
    assert rate.by_source["michigan_sulphur"].high == pytest.approx(180 * 0.45359237 / (43560 * 0.3048**2))
    assert rate.by_source["rhs_acidifying"].high == pytest.approx(0.135)
    assert rate.low_kg_m2 == rate.by_source["michigan_sulphur"].low
    assert rate.high_kg_m2 == rate.by_source["rhs_acidifying"].high


def test_loam_lies_between_sand_and_clay():
    """The RHS prints sand and clay; loam takes both ends."""
    rate = soil.sulphur_rate(water_ph=7.5, target_ph=6.0, soil="loam", fizz="no")
    assert (rate.low_kg_m2, rate.high_kg_m2) == (0.135, 0.27)
