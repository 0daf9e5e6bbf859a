"""Daylength against an astronomical library and published sunrise tables."""

from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest
from astral import LocationInfo
from astral.sun import sunrise, sunset

from gardenlib.site import daylength_hours


def astral_hours(latitude, day):
    """Give sunset less sunrise at longitude 0.

    West of Greenwich the UTC sunset of a date may come before its sunrise.
    """
    observer = LocationInfo(latitude=latitude, longitude=0.0).observer
    observer.elevation = 0.0  # height lengthens the day
    when = datetime(day.year, day.month, day.day, tzinfo=UTC)
    return (sunset(observer, when) - sunrise(observer, when)).total_seconds() / 3600


# A little over 1 minute at 60 degrees: there the sun's height changes within the day what one noon value leaves out.
@pytest.mark.parametrize(
    ("latitude", "minutes"),
    [(lat, 1.0) for lat in (0, 10, 20, 30, 35, 40, 45, 50, -15, -35, -50)] + [(60, 1.1), (-60, 1.1)],
)
def test_within_a_minute_of_astral(latitude, minutes):
    """Every fourth day of 2025 lies within 1 minute of astral 3.2 up to 50 degrees, 1.1 minutes at 60."""
    days = [date(2025, 1, 1) + timedelta(days=n) for n in range(0, 365, 4)]
    ours = daylength_hours(latitude, np.array(days, dtype="datetime64[D]"))
    theirs = np.array([astral_hours(latitude, day) for day in days])
    assert np.abs(ours - theirs).max() * 60 <= minutes


@pytest.mark.parametrize(
    ("latitude", "day", "hours", "minutes", "tolerance"),
    [
        # L. Byczynski, article on day length in a growers' library: Portland, Maine, the solstices.
        (43.66, date(2025, 6, 21), 15, 26, 1),
        (43.66, date(2025, 12, 21), 8, 55, 1),
        # timeanddate values quoted in astral's own tests: London, sunrise 08:06, sunset 16:01 UTC.  Each is rounded.
        (51.473, date(2015, 1, 1), 7, 55, 1),
        # Luther College, Decorah, Iowa, tables of sunrise and sunset for September; year not stated, hence 4 minutes
        # (the town's latitude is from memory).
        (43.30, date(2009, 9, 1), 13, 9, 4),
        (43.30, date(2009, 9, 15), 12, 29, 4),
        (43.30, date(2009, 9, 25), 12, 0, 4),
        (43.30, date(2009, 9, 30), 11, 45, 4),
    ],
)
def test_published_daylengths(latitude, day, hours, minutes, tolerance):
    """Published daylengths come out within the rounding of their tables."""
    assert daylength_hours(latitude, day) * 60 == pytest.approx(hours * 60 + minutes, abs=tolerance)
