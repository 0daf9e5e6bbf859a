"""Covers: which ground, which day, until when, and words that cannot be used."""

import itertools
import math
from dataclasses import replace
from datetime import date

import pytest

from gardenlib import tables
from gardenlib.pests import cover_dates, mesh_keeps_out
from gardenlib.pests.covers import ground_of
from gardenlib.problems import InputProblem

OUT, PICKED = date(2027, 4, 23), date(2027, 6, 22)


@pytest.mark.parametrize(("ground", "advice"), [("rotated", "cover"), ("same", "not_here"), ("not_known", "ask_first")])
def test_only_rotated_ground_is_covered(ground, advice):
    """A day to cover is given on rotated ground alone; else the answer says why (Montreal: pests hatch beneath)."""
    found = cover_dates("cabbage_main", OUT, ground=ground, first_harvest=PICKED)
    assert found.advice == advice
    assert (found.on, found.until) == ((OUT, PICKED) if advice == "cover" else (None, None))
    assert ("before.hatch" in [said.key for said in found.assumptions]) is (advice != "cover")


@pytest.mark.parametrize("crop", ["cucumber", "squash_summer", "squash_winter"])
def test_cucurbits_are_uncovered_at_the_first_flower(crop):
    """Cucurbits need insects: off at the first flower, with no day made up for it (Montreal)."""
    found = cover_dates(crop, OUT, ground="rotated", first_harvest=PICKED)
    assert (found.off, found.why, found.until) == ("first_flower", "insects", None)


@pytest.mark.parametrize("crop", ["cabbage_main", "kale", "collards", "pak_choi"])
def test_leaf_and_head_brassicas_stay_covered(crop):
    """Leaf and head brassicas stay covered to harvest (Montreal), and the row is marked as published."""
    assert cover_dates(crop, OUT, ground="rotated").off == "harvest"
    assert tables.table("covers_off").set_index("crop").loc[crop, "status"] == "published"


def test_every_crop_is_listed():
    """Each crop of the crop table has a row, so that none falls to the rule for the class's own."""
    assert set(tables.table("covers_off")["crop"]) == set(tables.crops().index)


def test_a_crop_of_the_class_s_own_is_uncovered_at_its_flower():
    """A crop nobody has listed comes off at the first flower, and that is said."""
    found = cover_dates(replace(tables.crop("kale"), id="okra", name="okra"), OUT, ground="rotated")
    assert (found.off, found.why) == ("first_flower", "not_listed")
    assert "before.not_listed" in [said.key for said in found.assumptions]


@pytest.mark.parametrize(
    ("past", "ground"),
    [
        ([["Brassicaceae"], []], "same"),
        ([[" brassicaceae "]], "same"),
        ([["Fabaceae"], ["Brassicaceae"]], "rotated"),
        ([[]], "rotated"),
        ([], "not_known"),
    ],
)
def test_ground_is_read_from_last_year(past, ground):
    """Only last year's families count for what pupated there; no record is no answer."""
    assert ground_of("Brassicaceae", past) == ground


def test_a_family_hears_of_its_own_pests():
    """Carrots hear of the carrot fly and not of the white butterfly; what goes for any crop is always there."""
    found = {kept.pest for kept in mesh_keeps_out(1.0, family="Apiaceae").pests}
    assert found == {"thrips", "aphid", "whitefly", "leafminer", "carrot_fly"}


def test_finer_nets_keep_out_no_less():
    """What a net keeps out, a finer one keeps out too."""
    kept = [{one.pest for one in mesh_keeps_out(hole).kept_out} for hole in (7, 4, 1.35, 1, 0.8, 0.6, 0.4, 0.3, 0.1)]
    assert all(wide <= fine for wide, fine in itertools.pairwise(kept))
    assert len(kept[-1]) == 9
    assert kept[0] == set()


@pytest.mark.parametrize("hole", [math.nan, math.inf, -1, 0, 40, 1e9, "0,8", None, True])
def test_a_hole_that_cannot_be_is_refused(hole):
    """A hole outside 0.01 to 25 mm, or no number, gets one sentence that names it and the mend."""
    with pytest.raises(InputProblem, match="no hole of an insect net") as problem:
        mesh_keeps_out(hole)
    assert str(hole) in str(problem.value)
    assert "millimeters" in str(problem.value)


def test_days_and_ground_that_cannot_be_are_refused():
    """A harvest before the crop is out, an unknown ground or crop each get a sentence."""
    with pytest.raises(InputProblem, match="cannot be harvested on April 1"):
        cover_dates("kale", OUT, ground="rotated", first_harvest=date(2027, 4, 1))
    with pytest.raises(InputProblem, match="wet"):
        cover_dates("kale", OUT, ground="wet")
    with pytest.raises(InputProblem, match="kail"):
        cover_dates("kail", OUT, ground="rotated")
