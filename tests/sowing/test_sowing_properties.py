"""What holds for every crop at every place."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_places import place, warmth

from gardenlib import sowing
from gardenlib.site import FreezeDates
from gardenlib.tables import crop, crops

CROPS = st.sampled_from(list(crops().index))
TENDER = st.sampled_from([c for c in crops().index if crops().loc[c, "hardiness"].endswith("tender")])
RISKS = st.sampled_from([0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.7, 0.9])
CLIMATES = st.sampled_from([(-1, 13), (3, 12), (6, 12), (9, 10), (8, 4), (12, 5), (15, 9), (20, 3)])
LATITUDES = st.sampled_from([40.0, -38.0])
YEARS = st.sampled_from([2027, 2028])


@st.composite
def typed(draw):
    """Draw freeze dates as a class types them: some risks known and some not."""
    first, *rest = (draw(st.integers(0, 25)) for _ in range(3))
    days = [date(2027, 3, 15) + timedelta(days=first + sum(rest[:n])) for n in range(3)]
    known = draw(st.sampled_from([(False, False), (True, False), (True, True)]))
    return FreezeDates.typed(
        (days[1].month, days[1].day),
        (10, 15),
        source="invented",
        latitude=40.0,
        last_spring_10=(days[2].month, days[2].day) if known[0] else None,
        last_spring_90=(days[0].month, days[0].day) if known[1] else None,
    )


PLACES = st.one_of(typed(), st.builds(lambda c, lat: place(*c, latitude=lat), CLIMATES, LATITUDES))


@given(CROPS, PLACES, RISKS, RISKS, YEARS)
def test_a_lower_risk_never_gives_an_earlier_first_day(crop_id, freezes, one, other, year):
    """Taking less risk never lets a crop out earlier, set out or sown."""
    low, high = sorted((one, other))
    careful = sowing.sowing_dates(crop_id, freezes, year=year, risk=low)
    bold = sowing.sowing_dates(crop_id, freezes, year=year, risk=high)
    for name in ("set_out", "direct_sow"):
        first, second = getattr(careful, name), getattr(bold, name)
        if first is not None and second is not None:
            assert first[0] >= second[0]


@given(TENDER, PLACES, RISKS, YEARS)
def test_no_tender_crop_starts_before_its_own_freeze_date(crop_id, freezes, risk, year):
    """A tender crop's first day outdoors never lies before the date of 36 F at the chosen risk, nor of 32 F."""
    found = sowing.sowing_dates(crop_id, freezes, year=year, risk=risk)
    for threshold_f in (36, 32):
        if freezes.knows("spring", threshold_f, risk):
            own = freezes.date("spring", threshold_f, risk, year=year)
            for window in (found.set_out, found.direct_sow):
                assert own is None or window is None or window[0] >= own


@given(CROPS, st.tuples(CLIMATES, LATITUDES), st.sampled_from(["spring", "cool"]), RISKS, st.integers(0, 300))
def test_every_window_is_in_order_and_inside_the_garden_s_days(crop_id, where, season, risk, day):
    """First days never come after last ones, and what is planted lies between the garden's opening and closing."""
    climate, latitude = where
    opens = date(2027, 1 if latitude > 0 else 7, 1) + timedelta(days=day)
    closes = opens + timedelta(days=200)
    found = sowing.sowing_dates(
        crop_id,
        place(*climate, latitude=latitude),
        year=2027,
        risk=risk,
        season=season,
        warmth=warmth(*climate, latitude=latitude),
        garden_opens=opens,
        garden_closes=closes,
    )
    for name in ("sow_indoors", "harden_off", "set_out", "direct_sow", "harvest", "harvest_from_seed", "published"):
        window = getattr(found, name)
        assert window is None or window[0] <= window[1]
    for window in (found.set_out, found.direct_sow):
        assert window is None or window[0] >= opens
    if found.harvest is not None:
        assert found.harvest[0] <= closes
    planted = found.set_out or found.direct_sow
    assert (planted is None) == (found.reason is not None)
    assert found.short_by_days is None or (found.short_by_days > 0 and planted is None)


@pytest.mark.parametrize("crop_id", list(crops().index))
def test_the_south_mirrors_the_north(crop_id):
    """The same typed dates six months on give the same windows, 183 days later."""
    north = FreezeDates.typed((4, 15), (10, 15), source="invented", latitude=40.0, last_spring_10=(4, 29))
    south = FreezeDates.typed((10, 15), (4, 15), source="invented", latitude=-40.0, last_spring_10=(10, 29))
    here, there = (sowing.sowing_dates(crop_id, place, year=2027) for place in (north, south))
    for name in ("sow_indoors", "set_out", "direct_sow", "harvest", "published"):
        first, second = getattr(here, name), getattr(there, name)
        assert (first is None) == (second is None)
        if first is not None and second is not None:
            assert [(b - a).days for a, b in zip(first, second, strict=True)] == [183, 183]


def test_a_last_freeze_on_the_leap_day_is_no_trouble():
    """A last freeze typed as 29 February works in leap years and others."""
    here = FreezeDates.typed((2, 29), (11, 20), source="invented", latitude=33.0)
    for year in (2027, 2028):
        found = sowing.sowing_dates("tomato", here, year=year)
        assert date(year, 2, 28) <= found.set_out[0] <= date(year, 3, 1)


@pytest.mark.parametrize("crop_id", list(crops().index))
def test_every_answer_shows_its_working_and_sources(crop_id):
    """Each answer speaks: steps and assumptions have words, and each source key is in the table of sources."""
    from gardenlib.tables import source
    from gardenlib.words import Voice

    for season in ("spring", "cool"):
        found = sowing.sowing_dates(
            crop_id, place(15, 9), year=2027, season=season, warmth=warmth(15, 9), garden_opens=date(2027, 1, 10)
        )
        voice = Voice()
        for step in found.steps:
            assert voice.say(f"step.{step.key}")
            assert source(step.source)
            assert voice.value(step.result)
            assert all(voice.value(value) for value in step.inputs.values() if value is not None)
        assert all(voice.say(said) for said in found.assumptions)
        assert found.reason is None or voice.say(found.reason)
        assert all(source(key) for key in found.sources)
        assert found.sources
    assert crop(crop_id).id == found.crop


@pytest.mark.parametrize("season", ["spring", "fall", "cool"])
@given(CROPS, CLIMATES, LATITUDES, st.booleans())
def test_the_window_is_the_latest_and_the_earliest_of_its_working(season, name, climate, latitude, bounded):
    """Each window opens on the latest of the days its working names, and closes on the earliest."""
    north = latitude > 0
    garden = {
        "garden_opens": date(2027, 4 if north else 10, 10),
        "garden_closes": date(2027 + (not north), 3 + 6 * north, 20),
    }
    found = sowing.sowing_dates(
        name,
        place(*climate, latitude=latitude),
        year=2027,
        season=season,
        warmth=warmth(*climate, latitude=latitude),
        **(garden if bounded else {}),
    )
    for step in found.steps:
        if step.key in {"sowing.set_out_opens", "sowing.direct_sow_opens"}:
            assert step.result == max(step.inputs.values())
        if step.key in {"sowing.set_out_closes", "sowing.direct_sow_closes"}:
            assert step.result == min(step.inputs.values())
