"""The air of a store: limits of the trial and of the numbers."""

import math

import pytest

from gardenlib.harvest import breathing, vapor_deficit_pa, wilting
from gardenlib.problems import InputProblem


def test_no_loss_is_told_beyond_the_trial():
    """Too dry, too warm or too short: no loss, and the page says why; at 4 C and 92 % for 60 days there is one."""
    for temp_c, humidity, days in ((4.0, 60.0, 75), (12.0, 95.0, 75), (4.0, 92.0, 30)):
        found = wilting(temp_c, humidity, days)
        assert found.cabbage_loss_pct is None
        assert "air.not_tried" in [said.key for said in found.assumptions]
    assert wilting(4.0, 92.0, 60).cabbage_loss_pct is not None


def test_full_air_takes_up_nothing():
    """At 100 % the air can hold no more; brought into a colder place it reads 100, never more."""
    assert wilting(4.0, 100.0).deficit_pa == 0
    assert wilting(20.0, 90.0, room_c=0.0).warmed_humidity_pct == 100


@pytest.mark.parametrize(
    ("temp_c", "humidity", "days"),
    [(-40, 90, 60), (4, 400, 60), (4, -1, 60), (math.nan, 90, 60), (4, math.nan, 60), (4, 90, -1), ("6,2", 90, 60)],
)
def test_what_cannot_be_is_refused(temp_c, humidity, days):
    """Each is refused in one sentence."""
    with pytest.raises(InputProblem):
        wilting(temp_c, humidity, days)


@pytest.mark.parametrize("temp_c", [3.0, -5.0, math.nan, "cold"])
def test_breath_is_told_at_printed_temperatures_only(temp_c):
    """Nothing is made up between the printed temperatures."""
    with pytest.raises(InputProblem, match="0, 5, 10, 15, 20"):
        breathing(temp_c)


@pytest.mark.parametrize(("temp_c", "humidity"), [(20, 120), (20, -1), (20, math.nan), (-300, 50), (math.inf, 50)])
def test_air_that_cannot_be_has_no_deficit(temp_c, humidity):
    """Humidity off the scale and temperatures that no air has are refused, never reckoned with."""
    with pytest.raises(InputProblem, match="must be"):
        vapor_deficit_pa([4, temp_c], [90, humidity])
