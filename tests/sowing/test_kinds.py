"""Which kind: one family side by side, by days, space and what the season allows."""

from datetime import date, timedelta

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_places import place, warmth

from gardenlib import InputProblem, sowing
from gardenlib.site import FreezeDates
from gardenlib.tables import crop, crops

HERE = FreezeDates.typed((4, 15), (10, 15), source="invented", latitude=40.0)
CABBAGES = ("cabbage_early", "cabbage_main", "cabbage_storage", "cabbage_mini")


def _compare(crops_=CABBAGES, **asked):
    return sowing.compare_kinds(crops_, HERE, year=2027, **asked)


def test_kinds_share_family_and_first_name():
    """The kinds of a vegetable are its own family's with the same first name, the asked one first."""
    assert sowing.kinds_of("cabbage_storage")[0] == "cabbage_storage"
    assert set(sowing.kinds_of("cabbage_storage")) == set(CABBAGES)
    assert set(sowing.kinds_of("sweet_corn")) == {"sweet_corn"}


@pytest.mark.parametrize("crop_id", list(crops().index))
def test_kinds_are_at_most_six_of_one_family(crop_id):
    """Whatever crop is asked for, at most six crops of its family stand beside it, and they can be compared."""
    kinds = sowing.kinds_of(crop_id)
    assert 1 <= len(kinds) <= 6
    assert {crops().loc[kind, "family"] for kind in kinds} == {crops().loc[crop_id, "family"]}
    assert _compare(kinds).table["crop"].tolist() == list(kinds)


@pytest.mark.parametrize("crop_id", list(crops().index))
def test_days_are_told_as_the_source_counts_them(crop_id):
    """Days named as from plants or from seed are those very days of the crop, and no others."""
    row = _compare([crop_id]).table.iloc[0]
    own = {
        "plants": crop(crop_id).days_from_transplant,
        "seed": crop(crop_id).days_from_seed,
        "not_stated": crop(crop_id).days_basis_not_stated,
        None: None,
    }[row["counted_from"]]
    if own is None:
        assert pd.isna(row["days_low"])
    else:
        assert (row["days_low"], row["days_high"]) == (own.typical.low, own.typical.high)


def test_a_packet_from_plants_takes_the_place_of_the_range():
    """Days from plants of the packet stand alone, marked as the packet's, for the first kind only."""
    table = _compare(packet_days="62", packet_from="plants").table
    assert table.loc[0, ["days_low", "days_high", "counted_from"]].tolist() == [62, 62, "plants"]
    assert not table.loc[0, "unchecked"]
    assert table.loc[1, "days_low"] != 62


def test_a_packet_from_seed_loses_the_weeks_indoors():
    """Of 100 days from seed 5 to 7 weeks (published for cabbage, Idaho CIS 1209) pass indoors: 51 to 65 are left."""
    found = _compare(packet_days=100, packet_from="seed")
    assert found.table.loc[0, ["days_low", "days_high"]].tolist() == [100 - 49, 100 - 35]
    assert "kinds.check_slow" in [said.key for said in found.assumptions]
    assert "kinds.after_indoors" in [step.key for step in found.steps]


def test_a_longer_packet_leaves_no_window_where_room_is_short():
    """In a spring that heat ends, a packet longer than the room is short by just the difference."""
    cold, warm = place(6, 12), warmth(6, 12)
    first = sowing.compare_kinds(["cabbage_main"], cold, year=2027, warmth=warm, packet_days=40).table.iloc[0]
    room = int(first["room_days"])
    fits = sowing.compare_kinds(["cabbage_main"], cold, year=2027, warmth=warm, packet_days=room).table.iloc[0]
    over = sowing.compare_kinds(["cabbage_main"], cold, year=2027, warmth=warm, packet_days=room + 9).table.iloc[0]
    assert (first["ends_by"], fits["fits"], over["fits"]) == ("heat", True, False)
    assert over["room_days"] == room
    assert over["reason"].values["n"] == 9


def test_the_garden_s_closing_day_may_end_the_season():
    """Where the garden closes first, the room runs to that day."""
    row = _compare(["cabbage_main"], garden_closes=date(2027, 7, 1)).table.iloc[0]
    assert row["ends_by"] == "closing"
    assert row["room_days"] == (date(2027, 7, 1) - row["opens"].date()).days


def test_a_kind_whose_last_day_is_past_no_longer_fits():
    """The day after the last day to plant a kind no longer fits, on that day it still does."""
    last = _compare(["cabbage_main"]).table.loc[0, "closes"].date()
    assert _compare(["cabbage_main"], today=last).table.loc[0, "fits"]
    late = _compare(["cabbage_main"], today=last + timedelta(days=1)).table.iloc[0]
    assert not late["fits"]
    assert late["reason"].key == "kinds.passed"


@given(st.integers(15, 200), st.integers(15, 200), st.sampled_from([(3, 12), (6, 12), (9, 10), (15, 9)]))
def test_a_longer_kind_never_has_a_later_last_day(one, other, climate):
    """More days on the packet never give a later last day to plant."""
    low, high = sorted((one, other))
    ends = []
    for days in (low, high):
        found = sowing.compare_kinds(
            ["cabbage_main"], place(*climate), year=2027, warmth=warmth(*climate), packet_days=days
        )
        ends.append(found.table.loc[0, "closes"])
    if ends[1] is not pd.NaT:
        assert ends[0] >= ends[1]


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"packet_days": 7000}, ["7000", "15", "365"]),
        ({"packet_days": "7,000"}, ["7,000", "whole number"]),
        ({"packet_days": "sixty"}, ["sixty", "whole number"]),
        ({"packet_days": 62.5}, ["62.5", "whole number"]),
        ({"packet_days": float("nan")}, ["nan", "whole number"]),
        ({"packet_days": True}, ["True", "whole number"]),
        ({"packet_days": -70}, ["-70"]),
        ({"packet_days": 70, "packet_from": "transplant"}, ["transplant", "seed or plants"]),
        ({"packet_days": 40, "packet_from": "seed"}, ["40", "5 to 7 weeks"]),
        ({"crops_": []}, ["0 kinds"]),
        ({"crops_": ["kale", "kale"]}, ["kale", "twice"]),
        ({"crops_": ["kale", "tomato"]}, ["tomato", "family"]),
        ({"crops_": ["radish"], "packet_days": 30, "packet_from": "plants"}, ["radish", "from seed"]),
        ({"crops_": ["cabage_main"]}, ["cabage_main", "cabbage_main"]),
    ],
)
def test_what_cannot_be_used_is_refused_in_one_sentence(asked, said):
    """A packet or list that cannot be used is named, with what to give in its place."""
    with pytest.raises(InputProblem) as problem:
        _compare(**asked)
    assert all(part in str(problem.value) for part in said)
    assert "\n" not in str(problem.value)
