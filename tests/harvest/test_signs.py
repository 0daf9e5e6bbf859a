"""Signs and weeks of harvest: what is refused, what is told, and what must hold."""

from datetime import date, timedelta
from types import SimpleNamespace

import numpy as np
import pandas as pd
import pytest

from gardenlib import InputProblem, tables
from gardenlib.harvest import harvest_signs, planted_how, weeks_ready
from gardenlib.words import Voice

APRIL = date(2027, 4, 10)


def station(*, years=30, noise_c=4.0, yearly_c=0.0):
    """Make the record of an invented place; whole years are warmer or colder by about `yearly_c`."""
    days = pd.date_range(f"{2021 - years}-01-01", "2020-12-31", name="date", unit="s")
    random = np.random.default_rng(3)
    low = 8.0 - 12.0 * np.cos(2 * np.pi * (days.day_of_year - 15) / 365) + random.normal(0, noise_c, len(days))
    low = low + random.normal(0, yearly_c, years)[days.year - days.year.min()]
    daily = pd.DataFrame({"tmin_c": low, "tmax_c": low + 11}, index=days)
    return SimpleNamespace(name="Invented", latitude=40.0, first_year=2021 - years, last_year=2020, daily=daily)


def say(found):
    """Speak all that an answer took for granted."""
    return " ".join(Voice().say(said) for said in found.assumptions)


# ---- signs -------------------------------------------------------------------------------------


def test_a_memory_sign_is_told_as_unchecked():
    """The tomato's sign stands in no source that was read, and that is said."""
    found = harvest_signs("tomato")
    assert not found.checked
    assert "unchecked" in say(found)


def test_no_trial_of_a_second_cut_is_said():
    """Where no source names a second cut that is said; where one does, that no trial weighed it."""
    assert "no trial of a second cut" in say(harvest_signs("carrot"))
    assert "no trial tells" in say(harvest_signs("cabbage_early"))


def test_a_crop_without_a_sign_is_told():
    """Nothing is made up for basil."""
    found = harvest_signs("basil")
    assert found.signs == ()
    assert found.size is None
    assert "no sign" in say(found)


def test_every_row_names_a_crop_of_ours_and_a_whole_size():
    """A row's crops are in the table of crops, and a size has both ends, in order, and a unit."""
    known = set(tables.crops().index)
    for row in tables.table("harvest_signs").to_dict("records"):
        assert set(row["crops"].split("|")) <= known
        numbers = [row["low"], row["high"]]
        if pd.notna(row["low"]):
            assert 0 < numbers[0] <= numbers[1]
            assert row["unit"] in {"in", "heads"}
        else:
            assert pd.isna(row["high"])


def test_an_unknown_crop_is_refused():
    """A misspelled crop gets a sentence, not a traceback."""
    with pytest.raises(InputProblem):
        harvest_signs("cabage")


# ---- weeks -------------------------------------------------------------------------------------


def test_early_middle_late_are_in_order():
    """Over past seasons the early day is not after the middle one, nor that after the late one."""
    found = weeks_ready("cabbage_main", APRIL, station=station())
    assert found.by == "warmth"
    assert APRIL < found.early <= found.middle <= found.late
    assert found.spread_days == (found.late - found.early).days
    assert found.seasons == 30


def test_seasons_all_alike_leave_no_spread():
    """Where each past season is the same (closed form), early, middle and late are one day."""
    found = weeks_ready("pea", APRIL, station=station(noise_c=0.0))
    assert found.spread_days == 0
    assert found.early == found.middle


def test_a_later_planting_is_not_ready_sooner():
    """What is planted later is ready later or on the same day, in every season."""
    here = station()
    days = [weeks_ready("bean_bush", APRIL + timedelta(n), station=here).middle for n in (30, 44, 58)]
    assert days == sorted(days)


def test_too_late_has_no_late_day_and_counts_the_seasons():
    """A planting that does not ripen in a tenth of the seasons or more has no late day; the first freeze is told."""
    found = weeks_ready("bean_bush", date(2027, 9, 12), station=station())
    assert found.not_ripe * 10 >= found.seasons
    assert found.late is None
    assert found.spread_days is None
    assert found.frost_on is not None


def test_a_tenth_that_did_not_ripen_leaves_no_late_day():
    """Whatever the day of planting, there is a late day just when fewer than a tenth of the seasons failed."""
    here, some = station(yearly_c=2.0), []
    for n in range(45):
        found = weeks_ready("bean_bush", date(2027, 8, 1) + timedelta(n), station=here)
        assert (found.late is None) == (found.not_ripe * 10 >= found.seasons)
        some.append(found.not_ripe)
    assert 0 in some
    assert 3 in some


def test_without_a_record_the_books_days_count():
    """Without a record the days are the published ones from the planting day, and there is no middle season."""
    found = weeks_ready("cabbage_main", APRIL)
    days = tables.crop("cabbage_main").days_from_transplant.typical
    assert found.by == "days"
    assert (found.early, found.late) == (APRIL + timedelta(days.low), APRIL + timedelta(days.high))
    assert found.middle is None
    assert "books' own" in say(found)


def test_a_crop_without_a_base_is_counted_in_days():
    """A tomato has no base temperature in the table, so even with a record its days are the books'."""
    assert weeks_ready("tomato", date(2027, 5, 20), station=station()).by == "days"


def test_a_crop_without_days_is_refused():
    """Garlic has no published days here, and that is one sentence."""
    with pytest.raises(InputProblem, match="garlic"):
        planted_how("garlic")
    with pytest.raises(InputProblem, match="garlic"):
        weeks_ready("garlic", APRIL)


def test_days_whose_start_is_not_stated_are_told():
    """Summer squash has days that do not say from where they count; that is told."""
    assert "squash" in say(weeks_ready("squash_summer", date(2027, 5, 20)))
