"""Seeds to raise against scipy.stats, computed examples (marked so) and the published seed tables."""

import math

import numpy as np
import pytest
from scipy.stats import binom, binomtest

from gardenlib import sowing, tables

OUNCE_G = 28.349523125  # exact: NIST Special Publication 811 (2008), appendix B.8


@pytest.mark.parametrize(
    ("plants", "germination", "confidence", "expected"),
    # Computed by hand of the reference table's author with the binomial sum, not published; checked below by scipy.
    [
        (1, 0.75, 0.9, 2),
        (1, 0.75, 0.95, 3),
        (1, 0.55, 0.9, 3),
        (1, 0.55, 0.99, 6),
        (6, 0.55, 0.9, 15),
        (12, 0.75, 0.9, 19),
        (12, 0.75, 0.99, 22),
        (20, 0.75, 0.9, 31),
        (20, 0.75, 0.95, 32),
        (20, 0.75, 0.99, 35),
        (20, 0.6, 0.9, 40),
        (24, 0.8, 0.99, 37),
        (50, 0.55, 0.95, 106),
        (72, 0.8, 0.95, 98),
        (100, 0.75, 0.9, 142),
        (100, 0.75, 0.95, 145),
        (12, 0.9, 0.9, 15),
        (12, 0.9, 0.99, 17),
    ],
)
def test_seeds_to_sow_computed_examples(plants, germination, confidence, expected):
    """The smallest number of seeds that is enough, by the binomial sum (computed examples) and by scipy.stats."""
    assert sowing.seeds_to_sow(plants, germination, confidence) == expected
    assert binom.sf(plants - 1, expected, germination) >= confidence > binom.sf(plants - 1, expected - 1, germination)


@pytest.mark.parametrize("plants", [1, 3, 40, 700, 5000])
@pytest.mark.parametrize("germination", [0.03, 0.41, 0.77, 0.999])
@pytest.mark.parametrize("confidence", [0.31, 0.9, 0.999])
def test_seeds_to_sow_is_scipy_s_smallest(plants, germination, confidence):
    """From one plant to thousands: enough by scipy.stats.binom, and one seed fewer is not."""
    n = sowing.seeds_to_sow(plants, germination, confidence)
    assert binom.sf(plants - 1, n, germination) >= confidence - 1e-9
    assert n == plants or binom.sf(plants - 1, n - 1, germination) < confidence


@pytest.mark.parametrize(
    ("sown", "germination", "plants"), [(27, 0.75, 20), (30, 0.2, 4), (3000, 0.6, 1800), (5, 0.5, 6)]
)
def test_chance_of_enough_is_scipy_s(sown, germination, plants):
    """The chance of enough plants is the upper tail of scipy.stats.binom."""
    expected = binom.sf(plants - 1, sown, germination)
    assert sowing.chance_of_enough(plants, germination, sown) == pytest.approx(expected, abs=1e-10)


def test_dividing_is_enough_64_times_in_100():
    """Twenty plants at 75 %: 27 seeds give them in 64 of 100 sowings (computed example; scipy.stats)."""
    assert sowing.simple_sowing(20, 0.75) == 27
    tried = sowing.shortfall(20, 0.75, 27, trials=10_000)
    assert 1 - tried.short_fraction == pytest.approx(binom.sf(19, 27, 0.75), abs=1e-12)
    assert 1 - tried.short_fraction == pytest.approx(0.64, abs=0.005)
    # Four standard errors of 10,000 tries.
    assert tried.short / 10_000 == pytest.approx(tried.short_fraction, abs=4 * math.sqrt(0.64 * 0.36 / 10_000))


@pytest.mark.parametrize("tested", [1, 10, 50, 400])
@pytest.mark.parametrize("share", [0, 0.1, 0.7, 1])
def test_range_of_a_towel_test_is_clopper_and_pearson_s(tested, share):
    """The range that a test leaves open is scipy's exact interval (Clopper and Pearson 1934) at 90 %."""
    sprouted = round(tested * share)
    expected = binomtest(sprouted, tested).proportion_ci(0.9, method="exact")
    assert sowing.germination_range(sprouted, tested) == pytest.approx((expected.low, expected.high), abs=1e-9)


@pytest.mark.parametrize(("per_cell", "expected"), [(1, 0.25), (2, 0.0625)])
def test_empty_cells(per_cell, expected):
    """At 75 %, 1 cell in 4 stays empty with one seed, 1 in 16 with two (computed: (1 - p)^s)."""
    plan = sowing.seed_plan("cabbage_main", 20, germination_fraction=0.75, seeds_per_cell=per_cell)
    assert plan.empty_fraction == pytest.approx(expected, abs=1e-12)
    chance = binom.sf(19, plan.cells, 1 - expected)
    assert chance >= 0.9 > binom.sf(19, plan.cells - 1, 1 - expected)


@pytest.mark.parametrize(
    ("crop", "pct"),
    # 7 CFR 201.31 as of 14 December 1994 (59 FR 64491): germination standards for vegetable seeds.
    [
        ("cabbage_main", 75),
        ("brussels_sprouts", 70),
        ("carrot", 55),
        ("collards", 80),
        ("swiss_chard", 65),
        ("beet", 65),
        ("lettuce_leaf", 80),
        ("spinach", 60),
        ("onion_green", 70),
        ("leek", 60),
        ("pea", 80),
        ("bean_bush", 70),
        ("sweet_corn", 75),
        ("pepper", 55),
        ("eggplant", 60),
        ("cucumber", 80),
        ("turnip", 80),
        ("radish", 75),
    ],
)
def test_standard_is_that_of_1994(crop, pct):
    """Each crop's germination standard is the one printed in the regulation as of 1994."""
    assert sowing.seed_plan(crop, 5).standard_fraction == pytest.approx(pct / 100)


@pytest.mark.parametrize(
    ("crop", "test", "below"),
    # 7 CFR 201.31 as of 1994, computed cases: at the standard seed meets it, below it does not.
    [
        ("cabbage_main", 0.75, False),
        ("cabbage_main", 0.74, True),
        ("brussels_sprouts", 0.72, False),
        ("carrot", 0.56, False),
        ("collards", 0.78, True),
        ("swiss_chard", 0.65, False),
    ],
)
def test_below_standard(crop, test, below):
    """Seed at the standard of 1994 meets it; seed below it is said to be below."""
    assert sowing.seed_plan(crop, 5, germination_fraction=test).below_standard is below


@pytest.mark.parametrize(
    ("crop", "per_gram", "per_ounce"),
    # 7 CFR 201.46 table 1 (2015 edition), approximate seeds per gram; the ounces are computed from it.
    [
        ("carrot", 825, 23388),
        ("lettuce_leaf", 890, 25231),
        ("tomato", 405, 11482),
        ("pea", 3, 85),
        ("onion_green", 340, 9639),
        ("turnip", 535, 15167),
        ("cabbage_main", 315, 8930),
    ],
)
def test_seeds_in_a_gram(crop, per_gram, per_ounce):
    """Seeds per gram are those of the regulation; the seeds in an ounce follow."""
    found = tables.table("seed_weight").set_index("crop").loc[crop, "seeds_per_g"]
    assert found == per_gram
    assert found * OUNCE_G == pytest.approx(per_ounce, abs=1)


def test_weight_of_a_hundred_cabbage_seeds():
    """At 315 seeds a gram, 100 cabbage seeds weigh 0.317 g (computed from 7 CFR 201.46); 0.25 oz holds 2233."""
    plan = sowing.seed_plan("cabbage_main", 100, germination_fraction=1.0)
    assert plan.seeds == 100
    assert plan.weight_g == pytest.approx(0.317, abs=0.001)
    assert np.ceil(0.25 * OUNCE_G * 315) == 2233
