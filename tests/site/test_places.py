"""What is known of one place."""

from types import SimpleNamespace

import numpy as np
import pandas as pd
import pytest

from gardenlib import InputProblem
from gardenlib.site import FreezeDates, place

MONTHS = [(m, 20.0 - 12 * np.cos(m / 2), 8.0 - 12 * np.cos(m / 2)) for m in range(1, 13)]
TYPED = FreezeDates.typed((5, 9), (10, 6), source="leaflet", latitude=45.0)


class Record(SimpleNamespace):
    """A daily record; like a station it is itself alone, whatever stands in it."""

    __eq__, __hash__ = object.__eq__, object.__hash__


def station(years=30):
    """Make a station of invented nights and days."""
    days = pd.date_range("1990-01-01", f"{1989 + years}-12-31", name="date")
    low = 8 - 12 * np.cos(2 * np.pi * (days.day_of_year - 15) / 365) + np.random.default_rng(1).normal(0, 4, len(days))
    daily = pd.DataFrame({"tmin_c": low, "tmax_c": low + 11}, index=days)
    return Record(name="Invented", latitude=45.0, first_year=1990, last_year=1989 + years, daily=daily)


def keys(found):
    """Name what is missing."""
    return [said.key.removeprefix("climate.missing.") for said in found.missing]


def test_nothing_known():
    """Without any source there are no dates and no warmth, and what to do stands there."""
    found = place("Hill", 45.0)
    assert found.freezes is None
    assert found.all_sources == []
    assert keys(found) == ["no_dates", "daily_record", "how_to_get", "warmth"]


def test_the_record_comes_first_and_both_are_shown():
    """With a long record and typed dates the record gives the dates, and both stand side by side."""
    found = place("Hill", 45.0, station=station(), typed=TYPED)
    assert found.freezes.kind == "station"
    assert [source.kind for source in found.all_sources] == ["station", "typed"]
    assert keys(found) == []


def test_a_chosen_source_comes_first():
    """A learner's own typed dates stand in front of the class's record when they are preferred."""
    found = place("Hill", 45.0, station=station(), typed=TYPED, prefer="typed")
    assert found.freezes.kind == "typed"
    assert len(found.all_sources) == 2


def test_a_short_record_gives_way_to_typed_dates():
    """Five years give no dates, so the typed ones do; alone, the record says that it is too short."""
    assert place("Hill", 45.0, station=station(5), typed=TYPED).freezes.kind == "typed"
    alone = place("Hill", 45.0, station=station(5))
    assert alone.freezes.state("spring", 32) == "too_few_years"
    assert keys(alone) == ["too_short"]


def test_the_offset_is_applied_to_the_plot_only():
    """The plot's dates carry the offset, the station's stay as they are."""
    found = place("Hill", 45.0, station=station(), night_offset_c=-2.0, night_offset_reason="low spot")
    plain = found.at_station[0]
    assert (plain.night_offset_c, found.freezes.night_offset_c) == (0.0, -2.0)
    assert found.freezes.date("spring", 32, 0.1, year=2027) > plain.date("spring", 32, 0.1, year=2027)


def test_warmth_from_record_else_from_months():
    """A daily record gives the typical year; without one, or with one that has no whole year, monthly values do."""
    assert place("Hill", 45.0, station=station(), monthly=MONTHS, monthly_source="made up").warmth.years == 30
    for short in (None, station(1)):
        if short is not None:
            short.daily = short.daily.iloc[:100]
        found = place("Hill", 45.0, station=short, monthly=MONTHS, monthly_source="made up")
        assert "made up" in str(found.warmth.comes_from)


def test_latitude_is_checked():
    """A place off the globe is refused."""
    with pytest.raises(InputProblem, match="latitude"):
        place("Hill", 99.0)
