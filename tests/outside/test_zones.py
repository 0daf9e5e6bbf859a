"""Hardiness zones against the published bounds of the half zones."""

import pytest

from gardenlib import InputProblem
from gardenlib.site import hardiness_zone
from gardenlib.units import f_to_c


# Bounds: half zones of 5 F from -60 F (1a) to 70 F (13b), definition of Daly et al. (2012), J. Appl. Meteorol.
# Climatol.
# 51:242, bounds as tabulated in public; that the lower bound belongs to the zone is our own convention.
@pytest.mark.parametrize(
    ("low_f", "zone"),
    [
        (-60, "1a"),
        (-10.01, "5b"),
        (-10, "6a"),
        (-5, "6b"),
        (-0.1, "6b"),
        (0, "7a"),
        (4.99, "7a"),
        (5, "7b"),
        (10.77, "8a"),
        (65, "13b"),
        (69.9, "13b"),
    ],
)
def test_half_zones(low_f, zone):
    """A mean yearly low falls into the half zone with these bounds."""
    assert hardiness_zone(f_to_c(low_f)) == zone


def test_every_bound_belongs_to_the_zone_above_it():
    """All 26 lower bounds, given in Celsius, open their own half zone: 1a, 1b to 13b."""
    names = [f"{number}{letter}" for number in range(1, 14) for letter in "ab"]
    assert [hardiness_zone(f_to_c(float(low))) for low in range(-60, 70, 5)] == names


@pytest.mark.parametrize("low_f", [-60.1, 70.0, float("nan")])
def test_no_zone_off_the_scale(low_f):
    """Outside -60 to 70 F there is no zone, and that is said."""
    with pytest.raises(InputProblem, match="There is no zone"):
        hardiness_zone(f_to_c(low_f))
