"""The cool season of places where heat, not frost, sets the time to grow."""

from datetime import date, timedelta

from invented_places import place, warmth

from gardenlib import sowing
from gardenlib.tables import crop_from_packet

HOT, HOT_YEAR = place(15, 10, noise_c=2.5), warmth(15, 10, range_c=15.0)
TEMPERATE, TEMPERATE_YEAR = place(6, 12), warmth(6, 12)


def _cool(crop, here=HOT, year=HOT_YEAR, **asked):
    return sowing.sowing_dates(crop, here, year=2027, season="cool", warmth=year, **asked)


def test_it_runs_from_the_end_of_the_heat_to_the_next():
    """Cabbage is set out from the day the month is cool enough, and is ready before it is too warm again."""
    limit_c = (75 - 32) / 1.8
    found = _cool("cabbage_main")
    assert found.set_out[0] == HOT_YEAR.first_below(limit_c, year=2027)
    assert found.heat_date == HOT_YEAR.first_above(limit_c, year=2028)
    assert found.set_out[1] + timedelta(days=70) <= found.heat_date
    assert found.set_out[1].year == 2028
    assert found.published is None


def test_a_tender_crop_is_ready_before_the_first_harmful_night():
    """Pole bean sown after the heat is picked before the first night at 36 F at a risk of 1 in 10."""
    found = _cool("bean_pole")
    first = HOT.date("fall", 36, 0.1, year=2027)
    # 60 days from seed: the median of the lowest figures of Florida, Georgia and Oklahoma (50, 65, 60).
    assert found.direct_sow[1] == first - timedelta(days=60)
    assert found.cold_limit == first


def test_a_tender_crop_that_cannot_ripen_in_fall_waits_for_the_last_harmful_night():
    """A crop that needs more days than fall leaves is set out after the last night at 36 F."""
    own = crop_from_packet(
        {
            "crop": "own",
            "name": "own crop",
            "family": "Poaceae",
            "hardiness": "tender",
            "method": "transplant",
            "days_from_transplant_low": "75",
            "growth_max_mean_f": "80",
            "source": "invented packet",
        }
    )
    found = _cool(own)
    last = HOT.date("spring", 36, 0.1, year=2028)
    assert (found.set_out[0], found.cold_limit) == (last, last)
    (opens,) = [step for step in found.steps if step.key == "sowing.set_out_opens"]
    assert opens.result == max(opens.inputs.values()) == last
    assert (HOT.date("fall", 36, 0.1, year=2027) - HOT_YEAR.first_below((80 - 32) / 1.8, year=2027)).days < 75


def test_a_month_too_cold_to_grow_ends_the_season_of_tomato():
    """Tomato needs a mean of 65 F (Knott's Handbook 1997), which fall here does not keep for 70 days."""
    found = _cool("tomato")
    assert (found.set_out, found.reason.key) == (None, "sowing.short_of_cold")
    fall_days = HOT_YEAR.first_below((65 - 32) / 1.8, year=2027) - HOT_YEAR.first_below((80 - 32) / 1.8, year=2027)
    assert found.short_by_days >= 70 - fall_days.days > 0


def test_cold_that_stops_growth_ends_it():
    """Where winter is too cold to grow, plants are ready before the month's mean falls below the crop's least."""
    found = _cool("lettuce_leaf", TEMPERATE, TEMPERATE_YEAR)
    too_cold = TEMPERATE_YEAR.first_below((45 - 32) / 1.8, year=2027)
    # 40 days from seed: the median of the lowest figures of Missouri, Tennessee State and Colorado (35, 40, 60).
    assert found.direct_sow[1] == too_cold - timedelta(days=40)


def test_without_a_hot_time_there_is_no_cool_season():
    """Where no month is too warm the answer points to the spring season; where all are, it says so."""
    assert _cool("tomato", TEMPERATE, TEMPERATE_YEAR).reason.key == "sowing.not_heat_limited"
    steamy = warmth(22, 2, range_c=8.0)
    assert _cool("cabbage_main", place(22, 2, noise_c=1.0), steamy).reason.key == "sowing.too_warm_all_year"
    assert _cool("basil").reason.key == "sowing.heat_no_figure"


def test_the_garden_s_days_bind_here_too():
    """The garden's opening and closing cut the cool season, and days missing are told."""
    opens, closes = date(2027, 11, 1), date(2028, 2, 1)
    found = _cool("cabbage_main", garden_opens=opens, garden_closes=closes)
    assert found.set_out == (opens, closes - timedelta(days=70))
    # Not even the quickest kind, 60 days from transplants (Tennessee State ANR-3), fits 50 days.
    short = _cool("cabbage_main", garden_opens=opens, garden_closes=date(2027, 12, 21))
    assert (short.set_out, short.short_by_days) == (None, 10)
    assert short.reason.key == "sowing.short_of_closing"


def test_the_south_calls_it_by_the_year_in_which_its_growing_year_begins():
    """In the south the heat of the growing year 2027 ends in 2028."""
    found = sowing.sowing_dates(
        "cabbage_main",
        place(15, 10, latitude=-30.0, noise_c=2.5),
        year=2027,
        season="cool",
        warmth=warmth(15, 10, latitude=-30.0, range_c=15.0),
    )
    assert date(2028, 3, 1) < found.set_out[0] < date(2028, 6, 1)
