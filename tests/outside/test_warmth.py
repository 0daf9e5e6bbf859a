"""The typical year from monthly values: what a mean-preserving curve must do."""

import numpy as np
import pytest

from gardenlib.site import Warmth

# Monthly mean highs and lows in C, invented; a cold-winter shape.
MONTHS = [
    (1, -1.0, -11.0),
    (2, 1.5, -9.5),
    (3, 8.0, -4.0),
    (4, 15.5, 1.5),
    (5, 21.0, 7.5),
    (6, 26.0, 13.0),
    (7, 28.5, 15.5),
    (8, 27.5, 14.5),
    (9, 23.0, 10.0),
    (10, 16.5, 3.5),
    (11, 8.5, -2.0),
    (12, 1.5, -8.0),
]
DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]  # the calendar


def test_monthly_means_are_kept():
    """The aim of Rymes and Myers (2001), Solar Energy 71:225 (from memory): the daily curve keeps each monthly mean."""
    warmth = Warmth.from_monthly(MONTHS, latitude=45.0, source="invented")
    ends = np.cumsum(DAYS)
    for (_, high, low), end, days in zip(MONTHS, ends, DAYS, strict=True):
        assert warmth.tmax_c[end - days : end].mean() == pytest.approx(high, abs=1e-6)
        assert warmth.tmin_c[end - days : end].mean() == pytest.approx(low, abs=1e-6)


def test_a_sine_year_comes_back():
    """Monthly means of a pure sine year (closed form) give back that year within 0.15 C."""
    day = np.arange(365) + 0.5
    year = 12 - 10 * np.cos(2 * np.pi * (day - 20) / 365)
    starts = np.concatenate([[0], np.cumsum(DAYS)[:-1]])

    def integral(t):
        return 12 * t - 10 * 365 / (2 * np.pi) * np.sin(2 * np.pi * (t - 20) / 365)

    means = [(integral(s + d) - integral(s)) / d for s, d in zip(starts, DAYS, strict=True)]
    warmth = Warmth.from_monthly(((m, t + 5, t - 5) for m, t in enumerate(means, 1)), latitude=45.0, source="invented")
    np.testing.assert_allclose(warmth.mean_c, year, atol=0.15)
