"""What to do after a look at the plants."""

from datetime import date

import pytest
from scipy.stats import binom

from gardenlib.pests import plants_to_see_one, scouting_decision
from gardenlib.problems import InputProblem

WORM, CABBAGE = "imported_cabbageworm", "cabbage_main"


@pytest.mark.parametrize(
    ("checked", "hit", "in_bed", "advice"),
    [
        (12, 0, 12, "look_again"),
        (12, 1, 12, "pick"),
        (8, 0, 12, "look_at_all"),
        (8, 1, 12, "pick"),
        (49, 0, None, "look_again"),
    ],
)
def test_a_small_bed_is_picked_or_looked_at_again(checked, hit, in_bed, advice):
    """In a bed of fewer than 50 plants one hit plant is picked today, and unseen plants are looked at first."""
    assert scouting_decision(WORM, CABBAGE, "growing", checked, hit, in_bed).advice == advice


def test_a_small_bed_asks_no_threshold():
    """No published limit stands in a small bed's working, and a crop without one gets the same advice."""
    assert scouting_decision(WORM, "kale", "growing", 10, 1, 10).programmes == ()


def test_next_look_is_in_three_or_four_days():
    """Twice a week (common practice, no source)."""
    found = scouting_decision(WORM, CABBAGE, "young", 5, 0, looked_on=date(2027, 5, 30))
    assert found.look_again == (date(2027, 6, 2), date(2027, 6, 3))


@pytest.mark.parametrize(("hit", "advice"), [(0, "under"), (4, "between"), (30, "over")])
def test_a_big_plot_is_set_beside_the_programmes(hit, advice):
    """None of 50 is under all limits, 30 of 50 over all, and 4 of 50 leaves it open."""
    assert scouting_decision(WORM, CABBAGE, "heading", 100 if hit == 0 else 50, hit, 400).advice == advice


def test_where_programmes_differ_both_are_shown():
    """Heading cabbage has limits of 5 and of 10 plants in 100, and each stays with its source."""
    limits = {p.plants_hit_pct for p in scouting_decision(WORM, CABBAGE, "heading", 50, 3, 400).programmes}
    assert limits == {5, 10}


def test_all_plants_leave_nothing_open():
    """When every plant was looked at the share is known."""
    found = scouting_decision(WORM, CABBAGE, "heading", 60, 3, 60)
    assert (found.hit_pct.low, found.hit_pct.high) == pytest.approx((5.0, 5.0))


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ((WORM, CABBAGE, "young", 10, 11), "11 plants hit of 10"),
        ((WORM, CABBAGE, "young", 20, 1, 10), "looked at 20 plants, but the bed holds 10"),
        ((WORM, CABBAGE, "young", 0, 0), "0 is no count"),
        ((WORM, CABBAGE, "young", "6,2", 0), "6,2 is no count"),
        ((WORM, CABBAGE, "young", 3.5, 0), "3.5 is no count"),
        ((WORM, CABBAGE, "young", float("nan"), 0), "nan is no count"),
        ((WORM, CABBAGE, "flowering", 10, 1), "flowering is not a stage"),
        (("dragon", CABBAGE, "young", 10, 1), "no pest called dragon"),
        ((WORM, "kale", "young", 50, 1, 400), "Nobody has published a limit"),
        ((WORM, "brussels_sprouts", "heading", 50, 1, 400), "Nobody has published a limit"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(given, words):
    """Counts that cannot be, unknown names, and crops without a published limit each get one sentence."""
    with pytest.raises(InputProblem, match=words):
        scouting_decision(*given)


@pytest.mark.parametrize("share", [0.01, 0.02, 0.05, 0.1, 0.3, 0.5, 0.95, 1.0])
def test_plants_to_see_one_are_the_fewest(share):
    """That many plants show one in 19 of 20 walks, and one plant less does not (scipy's binomial distribution)."""
    n = plants_to_see_one(share)
    assert binom.sf(0, n, share) >= 0.95 - 1e-12
    assert n == 1 or binom.sf(0, n - 1, share) < 0.95


@pytest.mark.parametrize("given", [(0.0,), (-0.1,), (1.2,), (float("nan"),), (0.1, 1.0), (0.1, 0.0)])
def test_a_share_that_no_walk_can_show_is_refused(given):
    """No plant hit, shares outside 0 to 1 and a sureness of 1 get one sentence."""
    with pytest.raises(InputProblem):
        plants_to_see_one(*given)
