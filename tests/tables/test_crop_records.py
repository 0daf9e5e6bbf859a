"""The crops: ids, names, ranges and how sure they are."""

from statistics import median

import pytest

from gardenlib import InputProblem, tables
from gardenlib.words import Voice


def test_there_are_thirtynine_crops_and_each_has_a_name():
    """Every crop of the table can be looked up and has a name in words."""
    ids = list(tables.crops().index)
    assert len(ids) == len(set(ids)) == 39
    voice = Voice()
    assert all(voice.value(tables.crop(crop_id).name) for crop_id in ids)


@pytest.mark.parametrize(
    ("typed", "near"), [("cabage", "cabbage_main"), ("Brocoli", "broccoli"), ("sweet corn", "sweet_corn")]
)
def test_an_unknown_crop_gets_three_near_ones(typed, near):
    """A misspelt crop is refused with the three nearest ids."""
    with pytest.raises(InputProblem) as problem:
        tables.crop(typed)
    names = str(problem.value).rstrip(".").split(" are ")[1].split(", ")
    assert len(names) == 3
    assert near in names


@pytest.mark.parametrize("crop_id", list(tables.crops().index))
def test_ranges_run_from_low_to_high_and_hold_the_typical_one(crop_id):
    """The typical range lies inside the full one, and each names its sources."""
    crop = tables.crop(crop_id)
    for name in ("weeks_indoor", "transplant_wk", "direct_sow_wk", "days_from_transplant", "days_from_seed"):
        found = getattr(crop, name)
        if found is not None:
            assert found.full.low <= found.typical.low <= found.typical.high <= found.full.high
            assert all(tables.source(key) for key in found.sources)


def test_the_typical_range_is_the_median_of_the_sources():
    """The typical range of cabbage weeks is the median of the lowest and of the highest figures of its five sources."""
    found = tables.crop("cabbage_main").transplant_wk
    # Illinois, Purdue, Idaho in weeks; Virginia and Utah in days.
    assert found.typical.low == pytest.approx(median([-6, -3, -5, -40 / 7, -60 / 7]))
    assert found.typical.high == median([-4, -2, -2, 0, 0])
    assert len(found.sources) == 5


def test_a_range_from_memory_alone_says_so():
    """A range without any source that was read is marked memory."""
    assert tables.crop("kohlrabi").weeks_indoor.status == "memory"
    assert tables.crop("cabbage_mini").days_from_transplant.status == "memory"
    assert tables.crop("broccoli").days_from_transplant.status == "published"


def test_figures_that_do_not_count_stay_in_sight():
    """One state's days of broccoli from seed are kept for the spread but do not count."""
    frame = tables.table("crop_timing_by_source").query("crop == 'broccoli' and field == 'days_from_seed'")
    assert dict(zip(frame["source"], frame["counted"], strict=True)) == {"florida_sp103": "yes", "maryland_ge007": "no"}
