"""Water for a bed: stages, roots, rain, hose, and what is refused."""

import pytest

from gardenlib import InputProblem, beds


def test_seeds_not_up_have_no_interval():
    """Before seeds are up there is water for a dry top inch and no number of days."""
    need = beds.water_need("carrot", 2, 5, stage="unsprouted")
    assert need.every_days is None
    assert 0 < need.litres < beds.water_need("carrot", 2, 5).litres
    assert beds.water_need("basil", 2, 5, stage="unsprouted").litres == need.litres


def test_new_plants_drink_more_often():
    """Roots as deep as the pot: the soil within reach empties sooner than a settled plant's."""
    new, settled = beds.water_need("broccoli", 2, 5, stage="just_planted"), beds.water_need("broccoli", 2, 5)
    assert new.root_m == 0.1
    assert new.every_days < settled.every_days


def test_sand_and_shallow_beds_come_more_often():
    """Less water within reach, fewer days."""
    loam = beds.water_need("tomato", 2, 5)
    assert beds.water_need("tomato", 2, 5, texture="sand").every_days < loam.every_days
    assert beds.water_need("tomato", 2, 5, bed_depth_m=0.2).every_days < loam.every_days
    assert beds.water_need("tomato", 2, 5, bed_depth_m=2.0).root_m == loam.root_m == 0.7
    assert beds.water_need("tomato", 2, 12, texture="sand", bed_depth_m=0.05).times_a_day > 1


def test_a_crop_ages():
    """The coefficient starts low, is full in the middle and falls; the roots grow down."""
    young, full, old = (beds.water_need("broccoli", 1, 5, days_since=d) for d in (0, 60, 200))
    assert (young.coefficient, full.coefficient, old.coefficient) == (0.7, 1.05, 0.95)
    assert young.root_m == 0.1 < full.root_m == 0.4


def test_rain_is_taken_off_as_far_as_the_soil_holds_it():
    """Much rain: nothing to bring; no more rain counts than the roots' soil can hold."""
    assert beds.water_need("broccoli", 1, 5, rain_mm=500).litres == 0
    lettuce = beds.water_need("lettuce_leaf", 1, 10, rain_mm=500, texture="sand", bed_depth_m=0.1)
    assert lettuce.rain_counted_mm == pytest.approx(lettuce.held_mm)
    assert lettuce.litres > 0


@pytest.mark.parametrize("name", ["area_m2", "et_mm", "rain_mm", "bed_depth_m", "pot_depth_m", "days_since"])
@pytest.mark.parametrize("value", [float("nan"), -1, 1e9, "6,2", True])
def test_hostile_numbers_are_refused(name, value):
    """One sentence for what cannot be."""
    given = {"area_m2": 2, "et_mm": 5, name: value}
    with pytest.raises(InputProblem):
        beds.water_need("broccoli", **given)


@pytest.mark.parametrize(
    ("crop", "how"),
    [("broccoli", {"stage": "grown"}), ("broccoli", {"texture": "mud"}), ("basil", {}), ("brocoli", {})],
)
def test_unknown_words_are_refused(crop, how):
    """Stage, soil, a crop without a row, a misspelt crop."""
    with pytest.raises(InputProblem):
        beds.water_need(crop, 2, 5, **how)


def test_no_bed_has_no_area():
    """A bed of 0 by 4 m has no ground to water."""
    with pytest.raises(InputProblem):
        beds.water_need("broccoli", 0, 5)


def test_cans_and_minutes():
    """90 litres: ten cans of 9; a bucket of 10 litres in 30 seconds gives 20 a minute, so four and a half minutes."""
    by = beds.watering(90, can_litres=9, bucket_litres=10, bucket_seconds=30)
    assert (by.cans, by.hose_minutes, by.litres_minute) == (10, 4.5, 20)


@pytest.mark.parametrize("seconds", [0, -5, float("inf"), float("nan"), "30 s"])
def test_a_hose_that_gives_nothing_is_refused(seconds):
    """A bucket that never fills, or fills at once, gives no minutes."""
    with pytest.raises(InputProblem):
        beds.watering(10, bucket_seconds=seconds)


@pytest.mark.parametrize("how", [{"flow_litres_hour_m": 0}, {"bed_width_m": 400}, {"depth_mm": float("nan")}])
def test_drip_refuses_what_cannot_be(how):
    """No flow, no such bed, no number."""
    with pytest.raises(InputProblem):
        beds.drip_minutes(**{"depth_mm": 25, "bed_width_m": 0.75, "flow_litres_hour_m": 3, **how})


@pytest.mark.parametrize(("crop", "et_mm"), [("broccoli", 7.0), ("spinach", 15.0), ("cabbage_main", 1.0)])
def test_the_working_of_the_easy_part_can_be_done_again(crop, et_mm):
    """The step names all that goes into it; done again as FAO-56 has it (note to table 22) it gives the answer."""
    found = beds.water_need(crop, 3.0, et_mm)
    (step,) = [step for step in found.steps if step.key == "water.ready"]
    held, p, use = step.inputs["held"].value, step.inputs["p"], step.inputs["use"].value
    assert found.ready_mm == step.result.value == pytest.approx(held * min(max(p + 0.04 * (5 - use), 0.1), 0.8))
