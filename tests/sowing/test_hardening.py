"""Hardening off, day by day."""

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardenlib import InputProblem, sowing
from gardenlib.sowing.windows import SET_OUT, paths_of
from gardenlib.tables import crop, crops

OUT = date(2027, 5, 10)
SET_OUT_CROPS = [c for c in crops().index if SET_OUT in paths_of(crop(c)) and crop(c).method != "sets"]


@given(st.sampled_from(SET_OUT_CROPS), st.dates(date(2000, 1, 1), date(2099, 12, 31)), st.integers(3, 14))
def test_a_plan_ends_on_the_day_of_setting_out_and_only_grows(crop_id, set_out, days):
    """A plan has a row a day up to the day of setting out; hours and light never fall and nights never go back in."""
    table = sowing.hardening_plan(crop_id, set_out, days=days).table
    assert [day.date() for day in table["day"]] == [set_out - timedelta(days=n) for n in range(days, -1, -1)]
    assert table["hours_outside"].is_monotonic_increasing
    assert table["hours_outside"].iloc[[0, -1]].tolist() == [1, 24]
    assert table["light"].map(["shade", "part_sun", "full_sun"].index).is_monotonic_increasing
    assert table["night"].tolist() == sorted(table["night"])
    assert ((table["night"] == "outside") == (table["hours_outside"] == 24)).all()


def test_the_contradiction_between_sources_is_told():
    """Every plan says that sources differ on the length, with both ranges."""
    told = next(s for s in sowing.hardening_plan("kale", OUT).assumptions if s.key == "hardening.sources_differ")
    assert "7 to 14 days" in str(told)
    assert "3 to 6" in str(told)


@pytest.mark.parametrize(("crop_id", "warned"), [("cauliflower", True), ("broccoli", True), ("tomato", False)])
def test_heads_that_stay_small_are_warned_of(crop_id, warned):
    """Broccoli and cauliflower are never to stop growing (University of Maryland Extension, 2023)."""
    keys = {said.key for said in sowing.hardening_plan(crop_id, OUT).assumptions}
    assert ("hardening.never_stop" in keys) == warned


@pytest.mark.parametrize("crop_id", ["carrot", "onion_sets", "garlic", "radish"])
def test_what_is_not_set_out_is_not_hardened_off(crop_id):
    """A crop that is sown in the bed, or planted as sets or cloves, has no plan."""
    with pytest.raises(InputProblem, match="not set out"):
        sowing.hardening_plan(crop_id, OUT)


@pytest.mark.parametrize(
    ("set_out", "days", "said"),
    [
        ("May 10", 10, "May 10"),
        (datetime(2027, 5, 10, tzinfo=UTC), 10, "date"),
        (None, 10, "None"),
        (OUT, 2, "2 days"),
        (OUT, 15, "3 to 14"),
        (OUT, 7.5, "7.5"),
        (OUT, "ten", "ten"),
        (OUT, True, "True"),
    ],
)
def test_days_that_cannot_be_planned_are_refused(set_out, days, said):
    """A day or a length that cannot be used is named in one sentence."""
    with pytest.raises(InputProblem) as problem:
        sowing.hardening_plan("tomato", set_out, days=days)
    assert said in str(problem.value)
