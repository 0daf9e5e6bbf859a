"""Scouting against scipy, published thresholds and examples of the hypergeometric distribution."""

import pytest
from scipy.stats import binomtest, hypergeom

from gardenlib import tables
from gardenlib.pests import chance_to_miss, scouting_decision
from gardenlib.sowing.chance import exact_range


@pytest.mark.parametrize("looked_at", [1, 7, 50, 400])
def test_range_is_scipy_s(looked_at):
    """The exact range of a count is that of scipy.stats.binomtest (Clopper and Pearson 1934), at 90 and 95 %."""
    for hits in {0, 1, looked_at // 2, looked_at}:
        for sure in (0.9, 0.95):
            theirs = binomtest(hits, looked_at).proportion_ci(sure, method="exact")
            assert exact_range(hits, looked_at, sure) == pytest.approx((theirs.low, theirs.high), abs=1e-9)


@pytest.mark.parametrize(("plants", "hit", "looked_at"), [(40, 4, 10), (20, 2, 10), (12, 1, 12), (49, 0, 5)])
def test_chance_to_miss_is_scipy_s(plants, hit, looked_at):
    """The chance to see none of the plants that are hit is that of scipy.stats.hypergeom."""
    assert chance_to_miss(plants, hit, looked_at) == pytest.approx(hypergeom.pmf(0, plants, hit, looked_at), abs=1e-12)


# Percent of plants hit, as printed: Rutgers field guide (young, growing, heading), Alabama ANR-2241 (seedbed, cupping,
# near maturity), Wisconsin MBCN for cabbage (seedling, until cupping, heading), Delaware and DATCP at heading.
PRINTED = {
    ("rutgers_cole", "caterpillars"): (10, 20, 5),
    ("rutgers_cole", "flea_beetle"): (50, 50, 50),
    ("rutgers_cole", "harlequin_bug"): (5, 10, 5),
    ("rutgers_cole", "cabbage_aphid"): (10, 10, 5),
    ("alabama_2241", "caterpillars"): (10, 30, 10),
    ("wisconsin_mbcn_veg204", "caterpillars"): (10, 30, 10),
    ("delaware_wcu", "caterpillars"): (None, None, 5),
    ("datcp_58_14", "caterpillars"): (None, None, 10),
}


@pytest.mark.parametrize("which", PRINTED)
def test_thresholds_are_the_printed_ones(which):
    """Each programme's thresholds for cabbage, stage by stage, are those of the publication named above the list."""
    source, group = which
    table = tables.table("pest_thresholds")
    mine = table[(table["source"] == source) & (table["pest_group"] == group)]
    mine = mine[[("cabbage" in crops.split("|")) for crops in mine["crops"]]].set_index("stage")["plants_hit_pct"]
    assert tuple(mine.get(stage) for stage in ("young", "growing", "heading")) == PRINTED[which]


def test_wisconsin_s_broccoli_stands_more():
    """Wisconsin MBCN: broccoli bears worms on half of its plants until the first flower, cabbage on 30 of 100."""
    found = {
        crop: {
            p.source: p.plants_hit_pct
            for p in scouting_decision("cabbage_looper", crop, "growing", 50, 9, 400).programmes
        }
        for crop in ("cabbage_main", "broccoli")
    }
    assert found["broccoli"]["wisconsin_mbcn_veg204"] == 50
    assert found["cabbage_main"]["wisconsin_mbcn_veg204"] == 30


def test_a_count_of_fifty_plants_is_told_at_95_percent():
    """Of 50 plants 10 hit leave 10 to 34 % open (scipy, Clopper and Pearson 1934, 95 %)."""
    theirs = binomtest(10, 50).proportion_ci(0.95, method="exact")
    found = scouting_decision("cabbage_looper", "cabbage_main", "growing", 50, 10, 400).hit_pct
    assert (found.low, found.high) == pytest.approx((100 * theirs.low, 100 * theirs.high), abs=1e-6)


@pytest.mark.parametrize(("plants", "programmes"), [(49, False), (50, True)])
def test_programmes_begin_at_fifty_plants(plants, programmes):
    """Rutgers looks at 50 plants: a bed of so many has its sample and is set against the thresholds, a smaller not."""
    found = scouting_decision("cabbage_looper", "cabbage_main", "growing", plants, 10, plants)
    assert bool(found.programmes) == programmes
