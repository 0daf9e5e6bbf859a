"""The sampling plan against its published page, and the units of a lime rate against NIST."""

import pytest

from gardenlib.soil import lab_rate_kg_m2, sampling_plan
from gardenlib.units import in_system

# NIST Special Publication 811 (2008), appendix B.8, factors as printed there.
POUND_KG = 0.45359237
SQUARE_FOOT_M2 = 9.290304e-2
ACRE_M2 = 4.046873e3  # based on the US survey foot: 2 parts in a million more
SHORT_TON_KG = 9.071847e2
HECTARE_M2 = 1.0e4


def test_places_and_depth_are_the_published_ones():
    """At least 12 places, 6 to 8 inches deep, 1 to 2 cups (Clemson University, Collecting samples)."""
    plan = sampling_plan(24.0)
    inches = [in_system(end, plan.depth.unit, "us") for end in (plan.depth.low, plan.depth.high)]
    assert plan.places == 12
    assert [(round(value, 9), unit) for value, unit in inches] == [(6, "in"), (8, "in")]
    assert (plan.amount.low, plan.amount.high, plan.amount.unit) == (1, 2, "cups")
    assert "clemson_samples" in plan.sources


def test_bucket_and_drying_are_the_published_ones():
    """Clean plastic, mixed thoroughly; on newspaper overnight, no heat (Clemson University, Collecting samples)."""
    bucket, drying = (str(rule) for rule in sampling_plan(24.0).rules[:2])
    assert "clean plastic" in bucket
    assert "newspaper overnight" in drying
    assert "No heat" in drying


def test_when_is_the_published_time():
    """3 to 6 months before planting (Ohio State University; North Carolina), 3 after liming (RHS, Lime and liming)."""
    plan = sampling_plan(24.0)
    assert (plan.before_planting.low, plan.before_planting.high, plan.before_planting.unit) == (3, 6, "months")
    assert (plan.after_lime.low, plan.after_lime.unit) == (3, "months")


@pytest.mark.parametrize(
    ("unit", "kg_m2", "tolerance"),
    [
        ("lb_100_sq_ft", POUND_KG / (100 * SQUARE_FOOT_M2), 1e-9),
        ("lb_1000_sq_ft", POUND_KG / (1000 * SQUARE_FOOT_M2), 1e-9),
        ("lb_ac", POUND_KG / ACRE_M2, 5e-6),  # the survey foot and the rounding of the printed acre
        ("short_t_ac", SHORT_TON_KG / ACRE_M2, 5e-6),
        ("t_ha", 1000 / HECTARE_M2, 1e-12),
        ("g_m2", 0.001, 1e-12),
        ("kg_m2", 1.0, 1e-12),
    ],
)
def test_units_of_a_rate_by_nist(unit, kg_m2, tolerance):
    """One of each unit on a sheet, in kilograms per square metre (NIST SP 811, appendix B.8)."""
    assert lab_rate_kg_m2(1, unit) == pytest.approx(kg_m2, rel=tolerance)


def test_a_ton_an_acre_is_46_pounds_on_1000_square_feet():
    """North Carolina (Circular 1, Hardy, Tucker and Stokes 2014) rounds it to 46 lb per 1,000 square feet."""
    pounds = lab_rate_kg_m2(1, "short_t_ac") / lab_rate_kg_m2(1, "lb_1000_sq_ft")
    assert pounds == pytest.approx(46, abs=0.5)
