"""Fall crops: what holds for every crop, and what is refused."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_places import place

from gardenlib import InputProblem, sowing
from gardenlib.site import FreezeDates
from gardenlib.tables import Published, crop, crop_from_packet, crops
from gardenlib.units import Range

FREEZE = date(2027, 10, 15)
COUNTED = [
    row.crop
    for row in sowing.still_possible(list(crops().index), FREEZE, date(2027, 1, 1)).table.itertuples()
    if row.started != "seed"
]
CROPS = st.sampled_from(COUNTED)
RULES = st.sampled_from(["safe", "latest"])
FREEZES = st.dates(date(2026, 8, 1), date(2029, 12, 31))
SLOWER = st.one_of(st.none(), st.integers(0, 60))


def _with_days(name, days):
    span = Range(days, days, "days")
    taken = Published(full=span, typical=span, status="published", sources=("seed_packet",))
    return replace(crop(name), days_from_transplant=taken, days_from_seed=taken)


@given(CROPS, FREEZES, RULES, st.sampled_from(["own", "bought"]), st.tuples(st.integers(1, 365), st.integers(1, 365)))
def test_a_longer_crop_never_has_a_later_last_sowing(name, freeze, rule, started, days):
    """The more days a crop takes, the sooner it must be sown."""
    short, long = sorted(days)
    first = sowing.latest_sowing(_with_days(name, long), freeze, rule, started=started).date
    assert first <= sowing.latest_sowing(_with_days(name, short), freeze, rule, started=started).date


@given(CROPS, FREEZES, RULES, SLOWER)
def test_no_harvest_comes_before_its_sowing(name, freeze, rule, slower):
    """Sowing, setting out, first and last picking come in this order."""
    found = sowing.latest_sowing(name, freeze, rule, started="own", short_days_days=slower)
    assert found.date <= found.set_out < found.first_harvest <= found.last_harvest


@given(CROPS, FREEZES, st.sampled_from(["own", "bought"]), SLOWER)
def test_safe_is_never_later_than_latest(name, freeze, started, slower):
    """The safe day never comes after the gamble's."""
    safe, latest = (
        sowing.latest_sowing(name, freeze, rule, started=started, short_days_days=slower) for rule in ("safe", "latest")
    )
    assert safe.date <= latest.date


@given(CROPS, FREEZES)
def test_safe_picking_is_over_before_the_freeze(name, freeze):
    """By the safe rule the last picking is in by the freeze, of a tender crop 14 days before."""
    found = sowing.latest_sowing(name, freeze, "safe")
    tender = crop(name).hardiness in ("tender", "very tender")
    assert found.last_harvest == freeze - timedelta(days=14 if tender else 0)


@given(
    st.sampled_from(list(crops().index)),
    st.sampled_from([(-1, 13), (3, 12), (9, 10), (15, 9), (20, 3)]),
    st.sampled_from([40.0, -38.0]),
)
def test_fall_windows_end_by_the_safe_day(name, climate, latitude):
    """A fall window is in order, ends by the safe day, and its seedlings are sown by the safe day for own plants."""
    freezes = place(*climate, latitude=latitude)
    found = sowing.sowing_dates(name, freezes, year=2027, season="fall")
    if found.set_out is None:
        return
    freeze = freezes.date("fall", 32, 0.5, year=2027)
    safe = sowing.latest_sowing(name, freeze, "safe", started="bought").set_out
    assert found.set_out[0] <= found.set_out[1] <= safe
    if found.sow_indoors is not None:
        own = sowing.latest_sowing(name, freeze, "safe", started="own")
        assert found.sow_indoors[0] <= found.sow_indoors[1] <= own.date


def test_days_from_plants_and_from_seed_are_never_mixed():
    """Plants count from setting out and seed from sowing, each with its own days."""
    plants = crop("chinese_cabbage")
    for started, days in (("bought", plants.days_from_transplant), ("seed", plants.days_from_seed)):
        found = sowing.latest_sowing(plants, FREEZE, "safe", started=started)
        assert (found.first_harvest - found.date).days == days.typical.high + 14


def test_too_short_a_season_says_by_how_much():
    """Where the window opens after the safe day the answer says so instead of a date."""
    cold = FreezeDates.typed((6, 10), (8, 25), source="invented", latitude=62.0)
    found = sowing.sowing_dates("tomato", cold, year=2027, season="fall")
    assert found.set_out is None
    assert found.short_by_days > 0
    assert "too short" in str(found.reason)


def test_what_is_still_possible_today():
    """A day after the safe day a crop is a gamble, a day after the last day it is over."""
    safe = sowing.latest_sowing("bean_bush", FREEZE, "safe").date
    latest = sowing.latest_sowing("bean_bush", FREEZE, "latest").date
    days = [safe, safe + timedelta(days=1), latest, latest + timedelta(days=1)]
    states = [sowing.still_possible(["bean_bush"], FREEZE, day).table["state"].tolist() for day in days]
    assert states == [["safe"], ["gamble"], ["gamble"], ["over"]]


def test_garlic_is_left_out_with_its_reason():
    """Garlic is planted in fall for the next summer, so it is not counted back (common practice, no source)."""
    [(left, why)] = sowing.still_possible(["garlic", "kale"], FREEZE, date(2027, 7, 1)).left_out
    assert left == "garlic"
    assert "counted back" in str(why)


def test_tender_crop_before_the_last_freeze_is_left_out():
    """A tomato that would have to go out before spring's last freeze is no fall crop; hardy crops stay."""
    found = sowing.still_possible(["tomato", "kale"], FREEZE, date(2027, 2, 1), last_spring=date(2027, 5, 10))
    assert set(found.table["crop"]) == {"kale"}
    assert found.left_out[0][0] == "tomato"


def test_after_the_freeze_the_next_fall_counts():
    """The day after the first freeze the count runs to the next year's; in the south the season's spring is before."""
    north = FreezeDates.typed((4, 15), (10, 15), source="invented", latitude=40.0)
    south = FreezeDates.typed((9, 15), (5, 10), source="invented", latitude=-38.0)
    assert [sowing.next_fall(north, date(2027, 10, d)) for d in (15, 16)] == [2027, 2028]
    assert [sowing.next_fall(south, date(2027, 5, d)) for d in (10, 11)] == [2026, 2027]


def _packet(days):
    row = {"crop": "own_kind", "name": "an own kind", "family": "Brassicaceae", "hardiness": "hardy"}
    return crop_from_packet({**row, "method": "direct", "days_from_seed_low": days, "source": "packet"})


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: sowing.latest_sowing("kale", FREEZE, "surest"), "no rule named surest"),
        (lambda: sowing.latest_sowing("kale", FREEZE, "safe", started="found"), "no way to start"),
        (lambda: sowing.latest_sowing("kale", None, "safe"), "never freezes here in fall"),
        (lambda: sowing.still_possible(["kale"], None, date(2027, 7, 1)), "never freezes here in fall"),
        (lambda: sowing.latest_sowing(_packet("7000"), FREEZE, "safe"), "only be from 10 to 365"),
        (lambda: sowing.latest_sowing("kale", FREEZE, "safe", short_days_days=-3), "-3 days"),
        (lambda: sowing.still_possible(["kale"], FREEZE, FREEZE, short_days_days=90), "90 days"),
        (lambda: sowing.latest_sowing("tomato", FREEZE, "safe", started="seed"), "days from seed"),
        (lambda: sowing.latest_sowing("garlic", FREEZE, "safe"), "not picked in the fall"),
        (lambda: sowing.next_fall(place(20, 3), date(2027, 7, 1)), "Fewer than 5 of 10 falls"),
    ],
)
def test_what_cannot_be_counted_is_one_sentence(call, words):
    """Bad input and places without frost get a plain sentence that says what to do."""
    with pytest.raises(InputProblem, match=words) as caught:
        call()
    assert "\n" not in str(caught.value)
