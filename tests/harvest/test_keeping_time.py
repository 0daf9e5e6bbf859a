"""Keeping: one source at a time, never beyond its figures, and memory never gives the all-clear."""

import math

import pytest

from gardenlib import tables
from gardenlib.harvest import days_left, readable_days, storage_life, storage_lives, store_checks
from gardenlib.harvest.keeping_rows import series_of
from gardenlib.problems import InputProblem
from gardenlib.units import Range, f_to_c
from gardenlib.words import Voice


@pytest.mark.parametrize("temp_c", [-40.0, -1.0, 20.5, 40.0])
def test_nothing_is_told_beyond_the_figures(temp_c):
    """Outside the published temperatures the sentence names them."""
    with pytest.raises(InputProblem, match=r"32 to 68 °F") as problem:
        storage_life("cabbage_main", temp_c)
    assert "0 to 20 °C" in problem.value.in_voice(Voice(units="metric"))


@pytest.mark.parametrize("temp_c", [math.nan, math.inf, "6,2", None, True, 400.0])
def test_no_number_no_life(temp_c):
    """What is no temperature of a store is refused in one sentence."""
    for ask in (storage_life, storage_lives, store_checks):
        with pytest.raises(InputProblem):
            ask("cabbage_main", temp_c)


def test_unknown_names_are_refused():
    """An unknown crop, form or source is named with what there is; basil has no figure at all."""
    with pytest.raises(InputProblem, match="cabbage"):
        storage_life("cabage_main", 4.0)
    with pytest.raises(InputProblem, match="dpird_brassica_2017"):
        storage_life("cabbage_main", 4.0, source="grandmother")
    with pytest.raises(InputProblem, match="topped, immature"):
        storage_life("carrot", 4.0, form="grated", source="davis_carrot")
    with pytest.raises(InputProblem, match="Nobody has published"):
        storage_life("basil", 10.0)


def test_whole_fahrenheit_meets_tenths_of_celsius():
    """40 F is 4.44 C; potatoes are printed from 4.4 C (40 F), and 55 F is 12.78 C, tomatoes to 12.8 C."""
    assert storage_life("potato", f_to_c(40.0)).form == "late"
    assert storage_life("tomato", f_to_c(55.0)).days.high == 35


def test_life_never_leaves_its_two_printed_figures():
    """Between two printed temperatures the life lies between their lives, for every crop and source."""
    for crop in tables.crops().index:
        for series in series_of(crop):
            for cold, warm in zip(series.points, series.points[1:], strict=False):
                days = storage_life(crop, (cold.temp_c + warm.temp_c) / 2, form=series.form, source=series.source).days
                assert min(cold.low_days, warm.low_days) <= days.low <= max(cold.low_days, warm.low_days)
                assert days.low <= days.high


def test_cold_shortens_what_cold_hurts():
    """Sweet potatoes live longest at 17 C by their source, and colder not at all so long."""
    cold, best = (storage_life("sweet_potato", temp, source="ahr_storage").days for temp in (6.0, 17.0))
    assert cold.high < best.low / 3
    with pytest.raises(InputProblem):
        storage_life("sweet_potato", 18.0, source="ahr_storage")


def test_early_cabbage_is_told_apart():
    """Where sources print the kind alone, their span stands beside the figures of cabbage at large."""
    told = [said.values["span"] for said in storage_life("cabbage_early", 0.0).assumptions if "kind_apart" in said.key]
    assert told == [Range(3.0, 6.0, "weeks")]
    assert not any("kind_apart" in said.key for said in storage_life("cabbage_main", 0.0).assumptions)


def test_sources_stand_side_by_side():
    """At 32 F five sources speak of cabbage, each for itself; at 68 F one does."""
    assert len({life.source for life in storage_lives("cabbage_main", 0.0)}) == 5
    assert [life.source for life in storage_lives("cabbage_main", 20.0)] == ["dpird_brassica_2017"]


def test_good_is_not_safe():
    """Every answer says that it is not about safety."""
    assert "keep.good_not_safe" in [said.key for said in storage_life("kale", 3.0).assumptions]


@pytest.mark.parametrize("days", [-1.0, math.nan, "a week"])
def test_days_in_another_place_must_be_days(days):
    """Days before today are a number of 0 or more."""
    with pytest.raises(InputProblem):
        days_left("cabbage_main", 4.0, [(20.0, days)])


def test_memory_warns_but_never_clears():
    """No figure from memory says that frost, chill or gas do no harm."""
    seen = set()
    for crop in tables.crops().index:
        for temp_f in (20.0, 31.5, 33.0, 60.0):
            found = store_checks(crop, f_to_c(temp_f))
            for limit in (found.freezes, found.chills, found.gas):
                assert limit.verdict != "no" or limit.status == "published"
                seen.add((limit.verdict, limit.status))
    assert seen >= {("yes", "memory"), ("unknown", "memory"), ("no", "published"), ("unknown", "none")}


def test_damp_and_dry():
    """Onions, garlic and winter squash want dry air, the others damp; basil has no figure."""
    found = {crop: store_checks(crop, 10.0).humidity for crop in tables.crops().index}
    assert {crop for crop, air in found.items() if air == "dry"} == {
        "onion_sets",
        "onion_transplants",
        "garlic",
        "squash_winter",
    }
    assert [crop for crop, air in found.items() if not air] == ["basil"]


@pytest.mark.parametrize(
    ("days", "read"),
    [
        ((0.2, 5), (1, 5, "days")),
        ((7, 28), (1, 4, "weeks")),
        ((152, 304), (5, 10, "months")),
        ((28, 112), (4, 16, "weeks")),
    ],
)
def test_days_as_they_are_read(days, read):
    """Short lives are read in days, long ones in weeks or months, never as nothing."""
    assert readable_days(Range(*days, "days")) == Range(*read)
