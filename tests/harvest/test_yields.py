"""What a planting may yield: one of three amounts, conversions as steps, refusals in one sentence."""

import pytest

from gardenlib import InputProblem, tables
from gardenlib.harvest import expected_yield


@pytest.mark.parametrize("given", [{}, {"plants": 3, "row_m": 2.0}, {"plants": 1, "row_m": 1.0, "area_m2": 1.0}])
def test_one_of_three_amounts(given):
    """None, two or three of plants, row and area are refused."""
    with pytest.raises(InputProblem, match="only one of them"):
        expected_yield("cabbage_main", **given)


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"plants": 0}, "whole number from 1"),
        ({"plants": -3}, "whole number from 1"),
        ({"plants": 2.5}, "whole number from 1"),
        ({"plants": 20_000}, "whole number from 1"),
        ({"plants": float("nan")}, "not a number"),
        ({"plants": "6,2"}, "with a point"),
        ({"plants": True}, "not a number"),
        ({"row_m": 0.0}, "row_m is 0"),
        ({"row_m": float("inf")}, "not a number"),
        ({"area_m2": -1.0}, "area_m2 is -1"),
        ({"area_m2": 1e9}, "area_m2"),
        ({"plants": 3, "in_row_m": 30.0}, "in_row_m is 30"),
    ],
)
def test_amounts_that_cannot_be(given, says):
    """Hostile amounts get one sentence that names them."""
    with pytest.raises(InputProblem, match=says):
        expected_yield("cabbage_main", **given)


def test_unknown_crop_names_the_nearest():
    """An unknown crop is refused with the nearest ids."""
    with pytest.raises(InputProblem, match="cabbage"):
        expected_yield("cabage", plants=1)


def test_a_crop_without_a_figure_is_refused():
    """A crop of the class's own has no published yield; nothing is made up for it."""
    row = {"crop": "okra", "name": "okra", "family": "Malvaceae", "hardiness": "tender", "method": "direct"}
    row |= {"source": "a packet"}
    own = tables.crop_from_packet(row, file="crops.csv", line=2)
    with pytest.raises(InputProblem, match="Nobody has published a yield of okra"):
        expected_yield(own, plants=3)


@pytest.mark.parametrize("crop", tables.crops().index)
def test_every_crop_of_the_table_answers_low_end_first(crop):
    """Each crop has a range, low end first; what is eaten is less than what is picked; each source is known."""
    for given in ({"plants": 5000}, {"row_m": 3.0}, {"area_m2": 2.0}):
        found = expected_yield(crop, **given)
        assert 0 < found.kg.low <= found.kg.high
        if found.edible_kg is not None:
            assert found.edible_kg.high < found.kg.high
            assert found.edible_kg.low <= found.edible_kg.high
        assert all(tables.source(key) for key in found.sources)
        assert any(said.key == "much.first_garden" for said in found.assumptions)


def test_yield_grows_with_the_amount():
    """Ten times the plants give ten times the yield (a check of sense, no source)."""
    one, ten = (expected_yield("pepper", plants=n).kg for n in (1, 10))
    assert (ten.low, ten.high) == pytest.approx((10 * one.low, 10 * one.high))


def test_figures_from_memory_are_marked():
    """Mini cabbage has figures from memory alone, and that is said; cabbage has published ones."""
    told = expected_yield("cabbage_mini", plants=3)
    assert not told.is_sure
    assert any(said.key == "much.unchecked" for said in told.assumptions)
    assert expected_yield("cabbage_main", plants=3).is_sure


def test_a_row_figure_becomes_plants_by_the_distance():
    """Kale is printed for a row alone; at 1 ft apart, 100 plants take 100 ft: 100 to 150 lb (computed by hand)."""
    found = expected_yield("kale", plants=100, in_row_m=0.3048)
    assert (found.kg.low / 0.45359237, found.kg.high / 0.45359237) == pytest.approx((100, 150))
    assert "much.row_of_plants" in [step.key for step in found.steps]
