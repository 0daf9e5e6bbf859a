"""A bed in lines, against counting by hand and counting out all small beds."""

from itertools import pairwise

import numpy as np
import pytest
from counted_out import most_plants

from gardenlib import beds, tables
from gardenlib.beds.line_order import closer
from gardenlib.problems import InputProblem

IN = 0.0254
CROPS = ["tomato", "cabbage_main", "carrot", "pea", "lettuce_leaf"]


def bed(length_in, width_in, wanted, tall=(), daily=(), **how):
    """Set out crops given as (crop, plants, spacing in inches)."""
    plantings = [(crop, plants, None, crop in tall, crop in daily) for crop, plants, _ in wanted]
    spacing = {crop: apart * IN for crop, _, apart in wanted}
    how = {"latitude": 44.0, "bearing_deg": 90, **how}
    return beds.lines(length_in * IN, width_in * IN, plantings, spacing_m=spacing, **how)


def inches(found):
    """Give the distances of the lines in inches."""
    return [round(line.from_edge_m / IN) for line in found.lines]


def test_four_by_eight_feet_at_18_inches():
    """Squares hold 10 in a bed of 4 by 8 feet at 18 inches (by hand: 5 along, 2 across)."""
    found = bed(96, 48, [("cabbage_main", 12, 18)])
    assert inches(found) == [9, 27]
    assert found.placed == 10
    assert [(item.crop, item.left, item.fits) for item in found.left_over] == [("cabbage_main", 2, 10)]


def test_neighbours_lie_the_mean_of_their_spacings_apart():
    """18 and 2 inches make 10; the first plant half a spacing from the edge (by hand)."""
    found = bed(100, 20, [("cabbage_main", 5, 18), ("carrot", 50, 2)])
    assert inches(found) in ([9, 19], [1, 11])
    assert sorted(round(line.parts[0].first_m / IN) for line in found.lines) == [1, 9]


@pytest.mark.parametrize(("spacing", "apart"), [(12, 11), (6, 6), (18, 16), (15, 14), (3, 3), (2, 2), (24, 21)])
def test_moved_lines_come_closer_but_never_crowd(spacing, apart):
    """sqrt(s^2 - floor(s/2)^2), rounded up: 12 in gives 10.39, so 11 (by hand)."""
    assert closer(spacing) == apart
    assert apart**2 + (spacing // 2) ** 2 >= spacing**2


def test_moving_lines_saves_a_line():
    """Five lines at 12 inches need 60 inches side by side; moved ones need 12 + 4 * 11 = 56 (by hand)."""
    found = bed(120, 56, [("cabbage_main", 48, 12)])
    assert inches(found) == [6, 17, 28, 39, 50]
    assert found.placed == 10 + 9 + 10 + 9 + 10


@pytest.mark.parametrize(
    ("latitude", "bearing", "first"),
    [(44, 90, "pea"), (44, 270, "carrot"), (-35, 90, "carrot"), (-35, 270, "pea"), (44, 135, "pea"), (44, 45, "pea")],
)
def test_tall_crops_stand_away_from_the_sun(latitude, bearing, first):
    """Facing east the left hand is north: in the north tall crops come first, in the south last (plain compass)."""
    wanted = [("carrot", 30, 4), ("pea", 30, 4)]
    found = bed(120, 20, wanted, tall={"pea"}, latitude=latitude, bearing_deg=bearing)
    assert found.lines[0].parts[0].crop == first
    assert found.shading == 0


@pytest.mark.parametrize(("latitude", "bearing"), [(44, 0), (44, 180), (10, 90), (-5, 90)])
def test_where_no_side_is_shaded_it_is_said(latitude, bearing):
    """A north-south bed and a bed between the tropics have no side for tall crops."""
    found = bed(120, 20, [("carrot", 30, 4)], latitude=latitude, bearing_deg=bearing)
    assert any(said.key.startswith("lines.no_side") for said in found.assumptions)


def test_what_is_picked_daily_comes_within_reach():
    """Of six lines the daily one lies within 12 inches of an edge; of one edge where only one is reached."""
    wanted = [("carrot", 80, 6), ("tomato", 10, 12), ("lettuce_leaf", 20, 6)]
    for way in ("both", "one"):
        found = bed(120, 60, wanted, daily={"lettuce_leaf"}, reach_m=12 * IN, reach_from=way)
        line = next(line for line in found.lines if line.parts[0].crop == "lettuce_leaf")
        assert line.in_reach
        at = line.from_edge_m / IN
        assert at <= 12 or (way == "both" and 60 - at <= 12)


def _out_of_reach(found, crop):
    """Count the lines of a crop that no arm reaches."""
    return sum(not line.in_reach for line in found.lines for part in line.parts if part.crop == crop)


@pytest.mark.parametrize(("bearing", "tall"), [(0, ()), (90, {"cabbage_main"}), (270, {"cabbage_main"})])
def test_a_wide_bed_reached_from_both_sides(bearing, tall):
    """Eight feet across, arm 24 in: the far edge is used too, half a spacing from it, and all lettuce is reached.

    By hand: three lines of 8 in lie within 24 in of an edge (4, 12, 20), three of the other (92, 84, 76): five are
    reached. Where tall cabbage has an edge for itself, only one line of lettuce (22) is reached beside it, so four are.
    """
    wanted = [("cabbage_main", 5, 18), ("lettuce_leaf", 60, 8), ("carrot", 24, 4)]
    found = bed(96, 96, wanted, tall, {"lettuce_leaf"}, reach_m=24 * IN, bearing_deg=bearing)
    assert (found.placed, found.shading) == (89, 0)
    assert _out_of_reach(found, "lettuce_leaf") == (1 if tall else 0)
    last = found.lines[-1]
    assert (found.width_m - last.from_edge_m) / last.parts[0].spacing_m == pytest.approx(0.5)


def test_a_wide_bed_reached_from_one_side():
    """Eight feet across, reached from the measured edge: three lines of lettuce lie at 4, 12 and 20 in (by hand)."""
    wanted = [("cabbage_main", 5, 18), ("lettuce_leaf", 36, 8), ("carrot", 24, 4)]
    found = bed(96, 96, wanted, daily={"lettuce_leaf"}, reach_m=24 * IN, reach_from="one", bearing_deg=0)
    assert found.placed == 65
    assert _out_of_reach(found, "lettuce_leaf") == 0
    assert max(line.from_edge_m / IN for line in found.lines if line.parts[0].crop == "lettuce_leaf") <= 24


def test_the_far_edge_costs_no_plant_and_moves_no_kept_line():
    """As many plants stand with a daily crop as without one, and a kept line lies where it lay."""
    wanted = [("cabbage_main", 12, 18), ("lettuce_leaf", 60, 8), ("carrot", 24, 4)]
    how = {"reach_m": 24 * IN, "kept": [("carrot", 48 * IN)]}
    plain = bed(96, 96, wanted, **how)
    found = bed(96, 96, wanted, daily={"lettuce_leaf"}, **how)
    assert found.placed >= plain.placed
    assert [round(line.from_edge_m / IN) for line in found.lines if line.kept] == [48]
    assert _out_of_reach(found, "lettuce_leaf") <= _out_of_reach(plain, "lettuce_leaf")


def test_a_kept_line_stays_out_of_reach():
    """What is kept in the middle of a wide bed is not moved to the edge, though it is picked daily."""
    found = bed(96, 96, [("lettuce_leaf", 12, 8)], daily={"lettuce_leaf"}, kept=[("lettuce_leaf", 48 * IN)])
    assert [(at, line.kept, line.in_reach) for at, line in zip(inches(found), found.lines, strict=True)] == [
        (48, True, False)
    ]


def test_a_pair_drawn_apart_is_not_shown_as_close():
    """Moved lines of 24 in lie 21 in apart; drawn apart by the 2 in that are free, they are no example of it (by hand).

    In 51 in: 12 and 33, then 47 for the carrots, which end at 49. An arm of 16 in reaches 35 from the far edge.
    """
    wanted = [("tomato", 7, 24), ("carrot", 24, 4)]
    found = bed(96, 51, wanted, {"tomato"}, {"tomato"}, reach_m=16 * IN)
    assert inches(found) == [12, 35, 49]
    assert all(line.in_reach for line in found.lines)
    assert not any(step.key == "lines.moved" for step in found.steps)


def test_a_kept_line_stays():
    """A kept line lies where it lay, whatever else is wanted."""
    found = bed(120, 48, [("carrot", 60, 4), ("tomato", 6, 18)], kept=[("carrot", 24 * IN)])
    line = next(line for line in found.lines if line.kept)
    assert round(line.from_edge_m / IN) == 24
    assert line.parts[0].crop == "carrot"
    assert found.placed == 66


def test_two_crops_share_a_line_end_to_end():
    """A single line takes 3 cabbages and 6 carrots: 18 * 3 + 6 * 4 = 78 (by hand)."""
    found = bed(78, 18, [("cabbage_main", 3, 18), ("carrot", 6, 4)])
    assert found.placed == 9
    assert [round(part.first_m / IN) for part in found.lines[0].parts] == [9, 9 + 36 + 11]


def test_no_crop_is_left_out_wholly():
    """One line is all there is, but each of three crops gets a place."""
    found = bed(60, 18, [("cabbage_main", 9, 18), ("lettuce_leaf", 9, 8), ("carrot", 30, 4)])
    assert set(found.counts) == {"cabbage_main", "lettuce_leaf", "carrot"}


def test_near_the_most_that_can_be_counted_out():
    """In 40 small beds no crop fewer, at least 7 of 10 plants of the most possible, and nearly all on average."""
    shares = []
    for number in range(40):
        dice = np.random.default_rng(number)
        wanted = [(crop, int(dice.integers(1, 7)), 2 * int(dice.integers(2, 10))) for crop in CROPS[:3]]
        length, width = 2 * int(dice.integers(15, 40)), 2 * int(dice.integers(8, 20))
        crops, plants = most_plants(length, width, tuple((n, s) for _, n, s in wanted))
        found = bed(length, width, wanted, bearing_deg=0)
        assert len(found.counts) >= crops
        shares.append(found.placed / plants)
    assert min(shares) >= 0.7
    assert np.mean(shares) >= 0.97


def test_the_same_seed_gives_the_same_bed():
    """A search by chance, but twice the same."""
    wanted = [(crop, 40, 3 + place) for place, crop in enumerate(CROPS)]
    assert bed(200, 48, wanted, seed=3) == bed(200, 48, wanted, seed=3)


def test_to_get():
    """Mulch is length by width by depth; 4 drip lines at 30 cm in 1.2 m (by hand)."""
    need = beds.to_get(bed(100, 48, [("tomato", 5, 18), ("pea", 30, 3)]), mulch_depth_m=0.05)
    assert need.mulch_m3 == pytest.approx(2.54 * 1.2192 * 0.05)
    assert need.drip_m == pytest.approx(5 * 2.54)
    assert need.stakes == 5
    assert need.trellis_m == pytest.approx(30 * 3 * IN)
    assert need.seeds["tomato"] >= 5


def test_every_crop_has_its_stature():
    """The table of stature names each crop of the tables once."""
    from gardenlib.tables.loader import rows

    assert {row["crop"] for row in rows("stature")} == set(tables.crops().index)


NAN, INF = float("nan"), float("inf")
GOOD = [("carrot", 10, None, False, False)]


@pytest.mark.parametrize(
    ("args", "key"),
    [
        ({"length_m": NAN}, "fit.length"),
        ({"width_m": -1.0}, "fit.length"),
        ({"length_m": "6,2"}, "fit.length"),
        ({"length_m": 1e9}, "fit.length"),
        ({"latitude": 91}, "lines.degrees"),
        ({"latitude": NAN}, "lines.degrees"),
        ({"bearing_deg": "east"}, "lines.degrees"),
        ({"reach_m": -1}, "fit.length"),
        ({"reach_from": "above"}, "lines.reach_from"),
        ({"unit": "ft"}, "lines.unit"),
        ({"plantings": []}, "lines.none"),
        ({"plantings": ["carrot"]}, "lines.planting"),
        ({"plantings": GOOD * 2}, "lines.twice"),
        ({"plantings": [("carrot", NAN, None, False, False)]}, "lines.count"),
        ({"plantings": [("carrot", "6,2", None, False, False)]}, "lines.count"),
        ({"plantings": [("carrot", 0, None, False, False)]}, "seeds.count"),
        ({"plantings": [("carrot", 600, None, 0, 0), ("pea", 600, None, 0, 0)]}, "lines.too_many"),
        ({"kept": [("pea", 0.5)]}, "lines.kept_unknown"),
        ({"kept": [("carrot", 0.0)]}, "lines.kept_edge"),
        ({"kept": [("carrot", 0.5), ("carrot", 0.51)]}, "lines.kept_close"),
        ({"spacing_m": {"carrot": INF}}, "fit.length"),
    ],
)
def test_what_cannot_be_used_is_one_sentence(args, key):
    """Each hostile input is refused by name."""
    given = {"length_m": 2.0, "width_m": 1.0, "plantings": GOOD, "latitude": 40, **args}
    with pytest.raises(InputProblem) as problem:
        beds.lines(**given)
    assert problem.value.key == f"problem.{key}"


def test_lines_come_in_order():
    """The nearest line is the first."""
    found = bed(120, 60, [(crop, 20, 6) for crop in CROPS])
    assert all(one < other for one, other in pairwise(inches(found)))
