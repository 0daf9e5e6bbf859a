"""Storage against published tables: lives, frost, chill, home fridge, vapor pressure, and loss of white cabbage.

The handbook's months count 30.4 days each.
"""

import pytest

from gardenlib.harvest import (
    breathing,
    cabbage_loss_pct,
    days_left,
    storage_life,
    store_checks,
    vapor_deficit_pa,
    vapor_pressure_kpa,
    wilting,
)
from gardenlib.harvest.keeping_rows import series_of
from gardenlib.harvest.keeping_time import days_between
from gardenlib.problems import InputProblem
from gardenlib.units import f_to_c

WEEK, MONTH = 7.0, 30.4
# (crop, form, source): degrees Celsius, shortest, longest, in the unit that is printed.
PRINTED = {
    # Western Australia (DPIRD 2017), Postharvest handling of Brassica vegetables.
    ("cabbage_main", "", "dpird_brassica_2017"): [(0, 4, 16, WEEK), (4, 2, 6, WEEK), (20, 1, 1, WEEK)],
    ("chinese_cabbage", "", "dpird_brassica_2017"): [(0, 4, 6, WEEK), (4, 2, 3, WEEK), (20, 2, 4, 1)],
    ("cauliflower", "", "dpird_brassica_2017"): [(0, 3, 3, WEEK), (4, 2, 2, WEEK), (20, 2, 3, 1)],
    ("brussels_sprouts", "", "dpird_brassica_2017"): [(0, 2, 3, WEEK), (4, 1, 1, WEEK), (20, 2, 3, 1)],
    # UC Davis Produce Facts: broccoli, carrots.
    ("broccoli", "", "davis_broccoli"): [(0, 21, 28, 1), (5, 14, 14, 1), (10, 5, 5, 1)],
    ("carrot", "topped", "davis_carrot"): [(0, 7, 9, MONTH), (3, 3, 5, MONTH), (5, 3, 5, MONTH)],
    ("carrot", "immature", "davis_carrot"): [(0, 4, 6, WEEK), (5, 2, 3, WEEK)],
    # Applied Horticultural Research: best conditions, and at 5 C.
    ("cabbage_main", "", "ahr_storage"): [(0, 8, 8, WEEK), (5, 2, 3, WEEK)],
    ("kale", "", "ahr_storage"): [(0, 3, 3, WEEK), (5, 7, 10, 1)],
    ("sweet_potato", "", "ahr_storage"): [(17, 2, 2, MONTH), (5, 7, 10, 1)],
    ("cucumber", "", "ahr_storage"): [(7.5, 2, 4, WEEK), (5, 2, 3, WEEK)],
    # USDA Agriculture Handbook 66, draft of 2002.
    ("cabbage_main", "", "handbook66_2002"): [(0, 3, 6, MONTH)],
    ("carrot", "topped", "handbook66_2002"): [(0, 7, 9, MONTH)],
    ("bean_bush", "", "handbook66_2002"): [(5, 8, 12, 1), (7.5, 8, 12, 1)],
    ("garlic", "", "handbook66_2002"): [(-1, 9, 9, MONTH), (0, 9, 9, MONTH)],
    # Storage guidelines after UC Davis; New England guide, table 16; Iowa State.
    ("cabbage_early", "", "davis_storage"): [(0, 3, 6, WEEK)],
    ("cabbage_storage", "", "davis_storage"): [(0, 5, 6, MONTH)],
    ("potato", "late", "davis_storage"): [(4.4, 5, 10, MONTH), (7.8, 5, 10, MONTH)],
    ("tomato", "red", "davis_storage"): [(7.8, 1, 3, WEEK), (10, 1, 3, WEEK)],
    ("cabbage_main", "", "newengland_table16"): [(0, 3, 6, WEEK)],
    ("lettuce_leaf", "", "newengland_table16"): [(0, 1, 1, WEEK), (2.2, 1, 1, WEEK)],
    ("cabbage_storage", "", "iowa_cole_2019"): [(0, 3, 4, MONTH)],
    ("sweet_potato", "", "iowa_storage_2017"): [(12.8, 4, 6, MONTH), (15.6, 4, 6, MONTH)],
    # Handbook 66 of 1954, by a copy; Western Australia (DPIRD 2016), table 2.
    ("squash_winter", "", "handbook66_1954_copy"): [(10, 24, 26, WEEK), (12.8, 24, 26, WEEK)],
    ("beet", "topped", "dpird_storage_2016"): [(0, 4, 20, WEEK)],
}


@pytest.mark.parametrize("which", PRINTED, ids=" ".join)
def test_lives_at_printed_temperatures_are_the_printed_ones(which):
    """At a temperature that a source prints the life is the one it prints."""
    crop, form, source = which
    for temp_c, low, high, per in PRINTED[which]:
        days = storage_life(crop, temp_c, form=form, source=source).days
        assert (days.low, days.high) == pytest.approx((low * per, high * per), abs=0.01)


def test_the_default_source_prints_the_most_temperatures():
    """Cabbage: three temperatures from 0 to 20 C by Western Australia; broccoli: three by UC Davis."""
    life = storage_life("cabbage_main", 10.0)
    assert (life.source, life.published.temp_c.low, life.published.temp_c.high) == ("dpird_brassica_2017", 0, 20)
    assert storage_life("broccoli", 5.0).source == "davis_broccoli"
    assert all(
        series_of(crop)[0].temperatures == max(s.temperatures for s in series_of(crop)) for crop in ("kale", "leek")
    )


def test_broccoli_between_printed_temperatures():
    """Middles of UC Davis: 24.5 days at 0 C, 14 at 5 C, 5 at 10 C: 14.9 days at 40 F, in a straight line of logs."""
    assert float(days_between(f_to_c(40.0), [0, 5], [24.5, 14])) == pytest.approx(14.9, abs=0.02)
    middles = [sum((life.low, life.high)) / 2 for life in (storage_life("broccoli", t).days for t in (0, 5, 10))]
    # Q10 of the two steps: 3.06 and 7.84, so one Q10 would not do.
    assert (middles[0] / middles[1]) ** 2 == pytest.approx(3.06, abs=0.02)
    assert (middles[1] / middles[2]) ** 2 == pytest.approx(7.84, abs=0.02)


def test_a_fridge_costs_more_than_half():
    """Shares of the life at 0 C: cabbage at 4 C 0.40 (DPIRD), at 5 C 0.25 to 0.375 (AHR); carrot 0.5 (UC Davis)."""

    def middle(crop, temp_c, source, form=""):
        days = storage_life(crop, temp_c, source=source, form=form).days
        return (days.low + days.high) / 2

    dpird, davis = "dpird_brassica_2017", "davis_carrot"
    assert middle("cabbage_main", 4, dpird) / middle("cabbage_main", 0, dpird) == pytest.approx(0.40, abs=1e-6)
    assert middle("carrot", 4, davis, "topped") / middle("carrot", 0, davis, "topped") == pytest.approx(0.5, abs=1e-6)
    warm, cold = (storage_life("cabbage_main", t, source="ahr_storage").days for t in (5, 0))
    assert (warm.low / cold.low, warm.high / cold.high) == pytest.approx((0.25, 0.375), abs=1e-6)


def test_shares_of_life_add_up():
    """At the end of life the sum of days / life(temperature) is 1: half a life at 20 C leaves half of that at 4 C."""
    left = days_left("cabbage_main", 4.0, [(20.0, 3.5)])
    assert (left.low, left.high) == pytest.approx((7.0, 21.0), abs=1e-6)
    left = days_left("cabbage_main", 0.0, [(20.0, 1.75), (4.0, 7.0)])
    # By hand: shortest 28 (1 - 1.75 / 7 - 7 / 14) = 7; longest 112 (1 - 1.75 / 7 - 7 / 42) = 65.33.
    assert (left.low, left.high) == pytest.approx((7.0, 65.333), abs=0.001)
    assert days_left("cabbage_main", 4.0, [(20.0, 8.0)]).high == 0


def test_frost_and_chill():
    """Cabbage freezes at 30.4 F (UC Davis); 40 F hurts cucumber (50) and tomato (55), not potato (38; NC State)."""
    assert store_checks("cabbage_main", f_to_c(31.0)).freezes.verdict == "no"
    assert store_checks("cabbage_main", f_to_c(30.0)).freezes.verdict == "yes"
    verdicts = {crop: store_checks(crop, f_to_c(40.0)).chills.verdict for crop in ("cucumber", "tomato", "potato")}
    assert verdicts == {"cucumber": "yes", "tomato": "yes", "potato": "no"}
    assert store_checks("cabbage_main", f_to_c(40.0)).chills.verdict != "yes"


def test_home_fridge_windows():
    """USDA home storage data: cabbage 1 to 2 weeks, broccoli 3 to 5 days, carrots 2 to 3 weeks, kale 3 to 5 days."""
    days = {crop: store_checks(crop, 4.0).fridge_days for crop in ("cabbage_main", "broccoli", "carrot", "kale")}
    assert {crop: (span.low, span.high) for crop, span in days.items()} == {
        "cabbage_main": (7, 14),
        "broccoli": (3, 5),
        "carrot": (14, 21),
        "kale": (3, 5),
    }


@pytest.mark.parametrize(("temp_c", "kpa"), [(15, 1.705), (24.5, 3.075)])
def test_vapor_pressure_as_printed(temp_c, kpa):
    """FAO-56 equation 11, values printed by the documentation of NCL."""
    assert float(vapor_pressure_kpa(temp_c)) == pytest.approx(kpa, abs=0.001)


def test_vapor_pressure_at_store_temperatures():
    """FAO-56 equation 11 worked by hand from 0 to 30 C; FAO-56 annex 2, table 2.3 prints 0.611 to 4.243 for it."""
    temps = [0, 0.5, 4, 5, 8, 10, 20, 25, 30]
    worked = [0.6108, 0.6334, 0.8133, 0.8723, 1.0728, 1.228, 2.3383, 3.1678, 4.2431]
    assert vapor_pressure_kpa(temps).tolist() == pytest.approx(worked, abs=0.0002)


def test_deficit_and_warm_room():
    """A cellar of 4 C and 90 % has a deficit of 81 Pa; brought to 20 C the same air reads 31 %."""
    assert float(vapor_deficit_pa(4, 90)) == pytest.approx(81, abs=0.5)
    assert wilting(4.0, 90.0, room_c=20.0).warmed_humidity_pct == pytest.approx(31, abs=0.5)


def test_loss_of_white_cabbage():
    """Acta Horticulturae 157: 0.0696 x 30 + 0.0314 x 90 - 1.74 = 3.174 %; 4 C, 92 %, 60 days: 65.1 Pa, 4.67 %."""
    assert cabbage_loss_pct(30, 90) == pytest.approx(3.174, abs=0.001)
    found = wilting(4.0, 92.0, 60)
    assert found.deficit_pa == pytest.approx(65.1, abs=0.1)
    assert found.cabbage_loss_pct == pytest.approx(4.67, abs=0.02)


@pytest.mark.parametrize(("pa", "days"), [(200, 75), (13.9, 75), (88.1, 75), (50, 59), (50, 91), (200, 30)])
def test_loss_is_refused_outside_the_trial(pa, days):
    """The trial ran at 14 to 88 Pa for 60 to 90 days."""
    with pytest.raises(InputProblem, match="The trial ran"):
        cabbage_loss_pct(pa, days)


def test_breath_of_broccoli_agrees_with_the_handbook():
    """UC Davis prints mL; at 0 C they are the 21 mg of Handbook 66 (2002), at 1.964 mg a mL."""
    co2 = breathing(0.0).co2_ml_kg_hour
    assert (co2.low + co2.high) / 2 * 1.964 == pytest.approx(21, abs=0.5)
    # 673 kcal a mole of sugar (Handbook 66) are 61.2 kcal for each mg: the printed 122 for each mL within 2 %.
    heat = breathing(0.0).heat_kcal_tonne_day
    assert heat.low / co2.low == pytest.approx(61.2 * 1.964, rel=0.02)
