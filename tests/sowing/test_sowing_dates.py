"""The one window: how the published weeks, cold, heat, fall and the garden's own days make it."""

from datetime import date, timedelta

import pytest
from invented_places import place, warmth

from gardenlib import InputProblem, sowing
from gardenlib.site import FreezeDates
from gardenlib.tables import crop_from_packet

TYPED = FreezeDates.typed((4, 15), (10, 15), source="invented", latitude=40.0)
SPREAD = FreezeDates.typed(
    (4, 15),
    (10, 15),
    source="invented",
    latitude=40.0,
    last_spring_10=(4, 29),
    last_spring_90=(4, 1),
    first_fall_10=(10, 1),
    first_fall_90=(10, 29),
)


def _keys(answer):
    return [said.key for said in answer.assumptions]


def _packet(**cells):
    row = {"crop": "own", "name": "own crop", "family": "Poaceae", "source": "invented packet"}
    return crop_from_packet({**row, **cells})


def test_the_later_of_the_two_rules_opens_the_window():
    """Carrot's published weeks open on 25 March; the cold limit less 17 days to come up is later, 29 March."""
    found = sowing.sowing_dates("carrot", SPREAD, year=2027)
    assert found.published == (date(2027, 3, 25), date(2027, 4, 1))
    assert found.cold_limit == date(2027, 4, 15)
    assert found.direct_sow == (date(2027, 3, 29), date(2027, 4, 1))


def test_a_cold_limit_after_the_published_weeks_moves_them():
    """Cauliflower's week before the last freeze is moved to the cold limit at its length, and that is said."""
    found = sowing.sowing_dates("cauliflower", SPREAD, year=2027)
    assert found.published == (date(2027, 3, 25), date(2027, 4, 1))
    assert found.set_out == (date(2027, 4, 15), date(2027, 4, 22))
    assert "sowing.moved" in _keys(found)


def test_a_first_day_alone_leaves_two_weeks():
    """Tomato is published as "on or after"; two weeks to plant in is common practice and says so."""
    found = sowing.sowing_dates("tomato", SPREAD, year=2027)
    assert found.set_out == (date(2027, 4, 29), date(2027, 5, 13))
    assert "sowing.single_day" in _keys(found)
    assert "common_practice" in found.sources


def test_with_the_half_way_date_alone_the_published_weeks_stand():
    """With one typed date the limits at 28 and 36 F are unknown; tender plants get the advice to wait or cover."""
    cabbage = sowing.sowing_dates("cabbage_main", TYPED, year=2027)
    assert cabbage.set_out == cabbage.published
    assert cabbage.cold_limit is None
    assert "sowing.cold_unknown" in _keys(cabbage)
    assert "sowing.wait_or_cover" not in _keys(cabbage)
    tomato = sowing.sowing_dates("tomato", TYPED, year=2027)
    assert tomato.set_out[0] == date(2027, 4, 15)
    assert "sowing.wait_or_cover" in _keys(tomato)


def test_plants_that_are_not_hardened_wait_for_the_last_freeze():
    """Hardy kale waits for 28 F nights to end; not hardened it waits for 32 F and has no hardening-off days."""
    here = place(6, 12)
    hardened = sowing.sowing_dates("kale", here, year=2027)
    tender = sowing.sowing_dates("kale", here, year=2027, hardened=False)
    assert hardened.set_out[0] == here.date("spring", 28, 0.5, year=2027)
    assert tender.set_out[0] == here.date("spring", 32, 0.5, year=2027) > hardened.set_out[0]
    assert tender.harden_off is None
    assert tender.direct_sow == hardened.direct_sow


def test_the_garden_s_opening_comes_first():
    """Nothing starts before the garden opens, and a window that has passed by then is short by days."""
    opens = date(2027, 3, 20)
    found = sowing.sowing_dates("cabbage_main", TYPED, year=2027, garden_opens=opens)
    assert found.set_out == (opens, date(2027, 4, 1))
    late = sowing.sowing_dates("cabbage_main", TYPED, year=2027, garden_opens=date(2027, 4, 11))
    assert (late.set_out, late.sow_indoors, late.harvest) == (None, None, None)
    assert late.short_by_days == 10
    assert late.reason.key == "sowing.short_of_opening"


def test_a_first_day_alone_waits_for_the_garden():
    """A crop that may be set out on or after a date is set out when the garden opens."""
    opens = date(2027, 6, 1)
    found = sowing.sowing_dates("tomato", SPREAD, year=2027, garden_opens=opens)
    assert found.set_out == (opens, opens + timedelta(days=14))


def test_a_fall_freeze_ends_a_tender_season():
    """A short season is told by days: 60 days between the dates are 30 too few for 90 days to harvest."""
    short = FreezeDates.typed((6, 10), (8, 9), source="invented", latitude=60.0)
    own = _packet(
        hardiness="tender",
        method="transplant",
        transplant_wk_low="0",
        transplant_wk_high="1",
        days_from_transplant_low="90",
    )
    found = sowing.sowing_dates(own, short, year=2027, risk=0.5)
    assert (date(2027, 8, 9) - date(2027, 6, 10)).days == 60
    assert (found.set_out, found.short_by_days) == (None, 30)
    assert found.reason.key == "sowing.short_of_freeze"


def test_the_garden_s_closing_ends_a_season():
    """Plants that would ripen after the garden closes are not planted."""
    found = sowing.sowing_dates("tomato", SPREAD, year=2027, garden_closes=date(2027, 7, 1))
    # 70 days (Missouri G6201, Oklahoma HLA-6004) from 29 April end on 8 July.
    assert (found.set_out, found.short_by_days) == (None, 7)


def test_heat_closes_a_spring_window():
    """The window closes on the last day from which the quickest plants are ready before it is too warm."""
    warm = warmth(9, 12, range_c=15.0)
    here = place(9, 12)
    found = sowing.sowing_dates("cabbage_main", here, year=2027, warmth=warm)
    assert found.heat_date == warm.first_above((75 - 32) / 1.8, year=2027)
    # 70 days from transplants: the median of the lowest figures of the five sources.
    assert found.set_out[1] == found.heat_date - timedelta(days=70)
    assert found.set_out[1] < found.published[1]


def test_heat_that_leaves_room_for_quick_kinds_only_says_so():
    """Where the usual kinds would be too late, the quickest published kind is taken and the page says so."""
    found = sowing.sowing_dates("broccoli", place(13, 12), year=2027, warmth=warmth(13, 12))
    # 50 days from transplants: the lowest figure of the five sources; their usual lowest is 60.
    assert found.set_out == (found.cold_limit, found.heat_date - timedelta(days=50))
    assert found.harvest[1] == found.heat_date
    quick = next(said for said in found.assumptions if said.key == "sowing.quick_kind")
    assert 50 <= quick.values["days"].value == (found.heat_date - found.cold_limit).days < 60


def test_heat_that_comes_too_soon_leaves_nothing():
    """Where it is too warm before even the quickest kind is ready there is no window, and the days are told."""
    found = sowing.sowing_dates("broccoli", place(13, 12), year=2027, warmth=warmth(16, 12))
    assert found.set_out is None
    assert found.reason.key == "sowing.short_of_heat"
    last_useful = found.heat_date - timedelta(days=50)
    assert found.short_by_days == (found.cold_limit - last_useful).days > 0


def test_where_it_never_freezes_warmth_opens_the_window():
    """Without a freeze the weeks have nothing to count from: the month's mean opens the window, or nothing does."""
    never = place(22, 2, noise_c=1.0)
    found = sowing.sowing_dates("tomato", never, year=2027, warmth=warmth(22, 2, range_c=8.0))
    assert (found.published, found.cold_limit) == (None, None)
    assert found.set_out[0] == date(2027, 1, 1)
    # Nothing but the heat closes it: 70 days (Missouri G6201, Oklahoma HLA-6004) before the mean passes 80 F.
    assert found.set_out[1] == found.heat_date - timedelta(days=70)
    unknown = sowing.sowing_dates("tomato", never, year=2027)
    assert (unknown.set_out, unknown.reason.key) == (None, "sowing.warm_unknown")


def test_where_every_month_may_freeze_tender_crops_have_no_day():
    """With freezes in every month a tender crop has no window, and the reason is told."""
    found = sowing.sowing_dates("tomato", place(-4, 9), year=2027)
    assert (found.set_out, found.harvest, found.reason.key) == (None, None, "sowing.cold_every_month")


def test_days_from_seed_and_from_plants_are_never_mixed():
    """Kohlrabi's two harvests count from its own basis each; a crop with the other basis alone has no harvest."""
    found = sowing.sowing_dates("kohlrabi", SPREAD, year=2027)
    # From seed 45 to 50 (medians of Missouri, Maryland, Tennessee State, Colorado); from plants 38 to 55, memory.
    assert found.harvest == (found.set_out[0] + timedelta(days=38), found.set_out[1] + timedelta(days=55))
    assert found.harvest_from_seed == (
        found.direct_sow[0] + timedelta(days=45),
        found.direct_sow[1] + timedelta(days=50),
    )
    own = _packet(hardiness="hardy", method="transplant", transplant_wk_low="-2", days_from_seed_low="60")
    lone = sowing.sowing_dates(own, TYPED, year=2027)
    assert lone.set_out is not None
    assert (lone.harvest, "sowing.no_days" in _keys(lone)) == (None, True)


def test_unchecked_and_unstated_days_say_so():
    """Days from memory and days whose basis nobody states come with a sentence."""
    assert "sowing.days_unchecked" in _keys(sowing.sowing_dates("kohlrabi", SPREAD, year=2027))
    assert "sowing.days_basis_not_stated" in _keys(sowing.sowing_dates("squash_summer", SPREAD, year=2027))


def test_bought_plants_are_not_sown_indoors():
    """Bought plants keep their set-out days and have none to sow."""
    own = sowing.sowing_dates("tomato", SPREAD, year=2027)
    bought = sowing.sowing_dates("tomato", SPREAD, year=2027, started="bought")
    assert own.sow_indoors is not None
    assert bought.sow_indoors is None
    assert (bought.set_out, bought.harden_off) == (own.set_out, own.harden_off)


def test_a_region_s_weeks_come_first_and_a_silent_one_is_named():
    """The region's own weeks are used where it has some; else the typical range is, and that is said."""
    own = sowing.sowing_dates("cabbage_main", TYPED, year=2027, region="idaho_cis1209")
    assert own.published == (date(2027, 3, 11), date(2027, 4, 1))
    silent = sowing.sowing_dates("carrot", TYPED, year=2027, region="idaho_cis1209")
    assert "sowing.region_silent" in _keys(silent)
    assert silent.published == sowing.sowing_dates("carrot", TYPED, year=2027).published


def test_the_working_can_be_done_again_by_hand():
    """The steps of setting out and sowing indoors lead, one after the other, to the answer."""
    found = sowing.sowing_dates("broccoli", SPREAD, year=2027)
    steps = {step.key: step for step in found.steps}
    sow = steps["sowing.sow_indoors_first"]
    assert sow.inputs["set_out"] == found.set_out[0]
    assert sow.result == sow.inputs["set_out"] - timedelta(days=sow.inputs["weeks_indoors"].value * 7)
    assert sow.result == found.sow_indoors[0]
    opens = steps["sowing.published_opens"]
    assert opens.result == opens.inputs["last_freeze"] + timedelta(days=opens.inputs["weeks_low"].value * 7)
    assert (
        steps["sowing.set_out_opens"].result == max(steps["sowing.set_out_opens"].inputs.values()) == found.set_out[0]
    )


def test_garlic_is_for_another_season():
    """A crop without spring weeks has no spring window and says why."""
    found = sowing.sowing_dates("garlic", TYPED, year=2027)
    assert (found.set_out, found.direct_sow, found.reason.key) == (None, None, "sowing.not_in_this_season")


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"crop": "tomatoe"}, ["tomatoe", "tomato"]),
        ({"season": "winter"}, ["winter", "spring, cool, fall"]),
        ({"region": "nowhere"}, ["nowhere", "purdue_ho203", "idaho_cis1209"]),
        ({"started": "found"}, ["found", "own", "bought"]),
        ({"risk": 10}, ["risk is 10", "0.1"]),
        ({"risk": 0.0}, ["risk is 0", "0.1"]),
        ({"garden_opens": date(2027, 5, 1), "garden_closes": date(2027, 4, 1)}, ["May 1", "April 1"]),
        ({"season": "cool"}, ["tomato", "monthly"]),
    ],
)
def test_what_cannot_be_used_is_refused_in_a_sentence(asked, said):
    """An unknown crop, season, region, start, risk or order of dates is refused and the way out is named."""
    given = {"crop": "tomato", **asked}
    with pytest.raises(InputProblem) as problem:
        sowing.sowing_dates(given.pop("crop"), TYPED, year=2027, **given)
    assert all(part in str(problem.value) for part in said)


def test_sowing_indoors_runs_from_the_most_weeks_to_the_fewest():
    """Tomato set out from 29 April to 13 May after 5 to 7 weeks indoors is sown from 11 March to 8 April."""
    # 5 to 7: medians of Idaho CIS 1209 (5 to 9), Iowa State (5 to 7) and Virginia (6).
    found = sowing.sowing_dates("tomato", SPREAD, year=2027)
    assert found.sow_indoors == (date(2027, 3, 11), date(2027, 4, 8))


def test_half_weeks_are_rounded_to_the_later_day():
    """Half a day counts up, before the last freeze and after it."""
    assert [sowing.days_of_weeks(weeks) for weeks in (1.5, -4.5, -6, 0)] == [11, -31, -42, 0]


def test_a_cold_limit_on_the_last_published_day_moves_the_window_too():
    """Pepper's days from 26 to 29 April keep their length when the cold limit falls on the 29th."""
    found = sowing.sowing_dates("pepper", SPREAD, year=2027)
    assert found.published == (date(2027, 4, 26), date(2027, 4, 29))
    assert found.set_out == (date(2027, 4, 29), date(2027, 5, 2))


def test_the_strictest_known_date_binds_where_the_own_one_is_unknown():
    """For 1 spring in 20 at 36 F, not known here, the typed 1 in 10 date of 32 F still holds tomato back."""
    found = sowing.sowing_dates("tomato", SPREAD, year=2027, risk=0.05)
    assert found.set_out[0] == date(2027, 4, 29)
    assert "sowing.cold_unknown" in _keys(found)


def test_seed_of_tender_crops_waits_as_long_as_plants():
    """No days to come up are taken off for tender seed, and that is said."""
    found = sowing.sowing_dates("bean_bush", SPREAD, year=2027)
    assert found.direct_sow[0] == found.cold_limit == date(2027, 4, 29)
    assert "sowing.tender_seed_waits" in _keys(found)
