"""Pots: geometry, lists and what is refused."""

import math

import pytest

from gardenlib import InputProblem, beds


def test_a_straight_pot_is_a_cylinder():
    """Equal widths above and below: a cylinder."""
    assert beds.cone_litres(0.3, 0.3, 0.2) == pytest.approx(math.pi * 0.15**2 * 0.2 * 1000)


def test_upside_down_holds_the_same():
    """Top and bottom may be swapped."""
    assert beds.cone_litres(0.3, 0.2, 0.2) == pytest.approx(beds.cone_litres(0.2, 0.3, 0.2))


def test_the_verdict_follows_the_range():
    """Below the range small, within it tight, at its top enough."""

    def verdict(gallons):
        return beds.pot_for("broccoli", gallons * 3.785411784).rows[0].verdict

    assert [verdict(x) for x in (3.9, 4, 5, 6)] == ["small", "tight", "tight", "enough"]


@pytest.mark.parametrize("litres", [0, -3, float("nan"), 1e6, "5 gal"])
def test_hostile_pots_are_refused(litres):
    """One sentence for what no pot holds."""
    with pytest.raises(InputProblem):
        beds.pot_for("broccoli", litres)


def test_unknown_sizes_and_crops_are_refused():
    """A size that no list has, a thing that is no pot, a crop without a row."""
    for ask in (
        lambda: beds.pot_volume(4),
        lambda: beds.pot_volume(5, "bath"),
        lambda: beds.pot_for("sweet_corn", 50),
        lambda: beds.cone_litres(0, 0.2, 0.2),
    ):
        with pytest.raises(InputProblem):
            ask()
