"""Filling a raised bed: volume, bags, and what is refused."""

import math

import pytest

from gardenlib.problems import InputProblem
from gardenlib.soil import bags_for, bed_mix
from gardenlib.units import M_PER_FOOT, Quantity
from gardenlib.words import Voice

CU_FT = M_PER_FOOT**3


def test_bed_of_eight_by_four_feet():
    """8 by 4 by 1 foot are 32 cubic feet, or 1.185 cubic yards: by hand, 32 / 27."""
    mix = bed_mix(8 * M_PER_FOOT, 4 * M_PER_FOOT, M_PER_FOOT, bag_litres=1000 * CU_FT)
    assert mix.volume_m3 / CU_FT == pytest.approx(32)
    assert mix.volume_m3 / (27 * CU_FT) == pytest.approx(1.185, abs=0.0005)
    assert mix.bags == 32


def test_parts_make_the_whole():
    """The most compost goes with the least topsoil, and both ends fill the bed."""
    mix = bed_mix(3, 1.2, 0.25)
    assert mix.compost_m3.high + mix.soil_m3.low == pytest.approx(mix.volume_m3)
    assert mix.compost_m3.low + mix.soil_m3.high == pytest.approx(mix.volume_m3)


def test_settling_is_said_to_be_unchecked():
    """The extra for settling is from memory: more than the volume, and the answer says unchecked."""
    mix = bed_mix(3, 1.2, 0.25)
    assert mix.volume_m3 < mix.with_settling_m3.low < mix.with_settling_m3.high
    assert any("Unchecked" in Voice().say(said) for said in mix.assumptions)


def test_bought_mix_is_not_limed_untested():
    """The answer always says so."""
    assert any("Do not lime" in Voice().say(said) for said in bed_mix(3, 1.2, 0.25).assumptions)


@pytest.mark.parametrize(("volume", "bag", "bags"), [(0, 50, 0), (0.05, 50, 1), (0.1000001, 50, 3), (1, 28.3, 36)])
def test_bags_are_whole(volume, bag, bags):
    """A bag that is begun counts: by hand, litres through bag, rounded up."""
    assert bags_for(volume, bag) == bags


@pytest.mark.parametrize(
    "sides", [(0, 1, 0.3), (2, -1, 0.3), (2, 1, 12), (2, 1, 0), (math.nan, 1, 0.3), (2, "1,2", 0.3), (1e9, 1, 0.3)]
)
def test_beds_that_cannot_be(sides):
    """A side that is none, endless, a depth in the wrong unit, or words are refused in one sentence."""
    with pytest.raises(InputProblem, match="_m"):
        bed_mix(*sides)


@pytest.mark.parametrize("bag", [0, -5, 1e6, math.inf, "2 cu ft", None])
def test_bags_that_cannot_be(bag):
    """A bag holds something."""
    with pytest.raises(InputProblem, match="bag_litres"):
        bags_for(1, bag)


@pytest.mark.parametrize(
    ("value", "unit", "words"), [(0.0122, "kg_m2", "0.012 kg per m²"), (0.0283, "m3", "0.03 m³"), (1.3, "m3", "1.3 m³")]
)
def test_small_amounts_do_not_read_as_none(value, unit, words):
    """A rate for a square metre and a bag in cubic metres keep their digits; 2.5 lb in 1,000 sq ft are 12.2 g in 1."""
    assert Voice(units="metric").quantity(Quantity(value, unit)) == words
