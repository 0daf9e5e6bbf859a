"""Freeze seasons and freeze dates of a daily record.

A season is called by the calendar year of its spring.  In the north its spring
half runs from 1 January to 31 July and its fall half from 1 August to
31 December; in the south both lie six months on.  Inside this module a day is a
whole number: days since 1 January of the season's year, 29 February counted as
28 February, so that every year has 365.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any, Literal

import numpy as np
import numpy.typing as npt
import pandas as pd

from gardenlib.problems import InputProblem

Half = Literal["spring", "fall"]
Basis = Literal["all_years", "freeze_years"]
Days = npt.NDArray[np.datetime64]
Whole = npt.NDArray[np.int64]

MAX_MISSING = 10
MIN_SEASONS = 20
# A threshold in whole Fahrenheit and a record in tenths of a degree Celsius differ by less than this.
FREEZE_TOLERANCE_C = 0.06
# NCEI gives no date where fewer seasons than this freeze (Normals Calculation Methodology 2020).
NCEI_LEAST_SHARE = 0.1

_NEVER_YET = np.iinfo(np.int64).min
_MONTH_STARTS = np.array([0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334])
_EPS = 1e-9


def six_months_on(latitude: float) -> int:
    """Tell by how many months the seasons of a latitude are shifted: 0 north and on the equator, 6 south."""
    if not -90 <= latitude <= 90:
        raise InputProblem("climate.latitude", latitude=latitude)
    return 6 if latitude < 0 else 0


def day_in_season(latitude: float, year: int, month_day: tuple[int, int]) -> date:
    """Give the day with this month and day in the season whose spring falls into a year."""
    return date(year + int(bool(six_months_on(latitude)) and month_day[0] < 7), *month_day)


def halves_of(days: Days, latitude: float) -> tuple[Whole, npt.NDArray[np.bool_]]:
    """Give each day's season and whether it lies in the spring half."""
    months = days.astype("datetime64[M]").astype(np.int64) - six_months_on(latitude)
    return months // 12 + 1970, months % 12 < 7


def half_bounds(latitude: float, half: Half) -> tuple[int, int]:
    """Give the first and the last day of a half as day numbers of its season."""
    first = _MONTH_STARTS[six_months_on(latitude)]
    if half == "spring":
        return int(first), int(first) + (215 if first else 212) - 1
    return (396, 545) if first else (212, 364)


def day_numbers(days: Days, season: Whole) -> Whole:
    """Count days from 1 January of the season's year, every year having 365."""
    month = days.astype("datetime64[M]")
    months = month.astype(np.int64)
    of_month = (days - month.astype("datetime64[D]")).astype(np.int64)
    leap_day = (months % 12 == 1) & (of_month == 28)
    return np.asarray((months // 12 + 1970 - season) * 365 + _MONTH_STARTS[months % 12] + of_month - leap_day)


def date_of(day_number: float, year: int) -> date:
    """Give the nearest calendar date of a day number in the season of a year."""
    return dates_of(day_number, year).astype(object).item()  # type: ignore[no-any-return]


def dates_of(day_numbers: npt.ArrayLike, year: int) -> Days:
    """Give the nearest calendar date of each day number in the season of a year."""
    years, day = np.divmod(np.floor(np.asarray(day_numbers) + 0.5).astype(np.int64), 365)
    month = np.searchsorted(_MONTH_STARTS, day, side="right") - 1
    begins = ((year + years - 1970) * 12 + month).astype("datetime64[M]").astype("datetime64[D]")
    return np.asarray(begins + (day - _MONTH_STARTS[month]))


def freeze_seasons(daily: pd.DataFrame, threshold_c: float, *, latitude: float) -> pd.DataFrame:
    """Find the last freeze of each spring and the first of each fall in a daily record.

    Parameters
    ----------
    daily : DataFrame
        Daily values with a DatetimeIndex without doubles and a column ``tmin_c``, degrees Celsius; days
        that are absent count as missing.
    threshold_c : float
        A night freezes at or below this temperature, degrees Celsius, within 0.06 of a degree.
    latitude : float
        Degrees, south negative; the equator counts as north.

    Returns
    -------
    DataFrame
        One row a season: ``last_spring`` and ``first_fall`` (dates, NaT without a freeze), ``usable_spring`` and
        ``usable_fall`` (at most 10 nights missing in the half), ``freeze_free_days`` (days strictly between
        the two dates; NaN unless both halves are usable and froze).

    Raises
    ------
    InputProblem
        When the latitude is not between -90 and 90.

    Notes
    -----
    Freezing is "at or below", as NCEI counts it (Normals Calculation Methodology 2020).  The tolerance gives back
    the whole degrees Fahrenheit that a record kept in tenths of a degree Celsius has lost: 28 F is stored as -2.2 C.

    Examples
    --------
    >>> days = pd.date_range("2001-01-01", "2001-12-31", name="date")
    >>> daily = pd.DataFrame({"tmin_c": 10.0}, index=days)
    >>> daily.loc[["2001-04-20", "2001-10-03"], "tmin_c"] = -1.0
    >>> season = freeze_seasons(daily, 0.0, latitude=45.0).loc[2001]
    >>> f"{season['last_spring']:%d %B}, {season['first_fall']:%d %B}, {season['freeze_free_days']:.0f} days"
    '20 April, 03 October, 165 days'
    """
    days = daily.index.to_numpy().astype("datetime64[D]")
    low = daily["tmin_c"].to_numpy(dtype=float)
    season, spring = halves_of(days, latitude)
    start = int(season.min()) if len(season) else 0
    count = int(season.max()) - start + 1 if len(season) else 0
    slot, known, number = season - start, ~np.isnan(low), days.astype(np.int64)
    frozen = known & (low <= threshold_c + FREEZE_TOLERANCE_C)

    last = np.full(count, _NEVER_YET)
    np.maximum.at(last, slot[frozen & spring], number[frozen & spring])
    first = np.full(count, -_NEVER_YET - 1)
    np.minimum.at(first, slot[frozen & ~spring], number[frozen & ~spring])
    first[first == -_NEVER_YET - 1] = _NEVER_YET

    opening = (np.arange(start, start + count) - 1970) * 12 + six_months_on(latitude)
    turn, end = (_first_of_month(opening + months) for months in (7, 12))
    length_spring, length_fall = turn - _first_of_month(opening), end - turn
    missing_spring = length_spring - np.bincount(slot[known & spring], minlength=count)
    missing_fall = length_fall - np.bincount(slot[known & ~spring], minlength=count)
    usable_spring, usable_fall = missing_spring <= MAX_MISSING, missing_fall <= MAX_MISSING

    both = usable_spring & usable_fall & (last != _NEVER_YET) & (first != _NEVER_YET)
    return pd.DataFrame(
        {
            "last_spring": last.astype("datetime64[D]").astype("datetime64[s]"),
            "first_fall": first.astype("datetime64[D]").astype("datetime64[s]"),
            "usable_spring": usable_spring,
            "usable_fall": usable_fall,
            "freeze_free_days": np.where(both, np.where(both, first, 0) - np.where(both, last, 0) - 1.0, np.nan),
        },
        index=pd.RangeIndex(start, start + count, name="season"),
    )


def _first_of_month(months: Whole) -> Whole:
    return months.astype("datetime64[M]").astype("datetime64[D]").astype(np.int64)


def usable_days(seasons: pd.DataFrame, half: Half) -> tuple[npt.NDArray[np.int64], int]:
    """Give the sorted day numbers of the freezes in a half's usable seasons, and how many are usable."""
    column = "last_spring" if half == "spring" else "first_fall"
    usable = seasons[seasons[f"usable_{half}"]]
    froze = usable[usable[column].notna()]
    days = froze[column].to_numpy().astype("datetime64[D]")
    return np.sort(day_numbers(days, froze.index.to_numpy(dtype=np.int64))), len(usable)


def risk_day(days: Whole, n_usable: int, risk: float, half: Half, basis: Basis = "all_years") -> float | None:
    """Give the day number by which a freeze still, or already, comes with this risk; None when there is no such day.

    Parameters
    ----------
    days : array of int
        Sorted day numbers of the seasons with a freeze.
    n_usable : int
        Seasons counted, frozen or not.
    risk : float
        Between 0 and 1.
    half : {"spring", "fall"}
        In spring the risk is that of a freeze on or after the day, in fall on or before it.
    basis : {"all_years", "freeze_years"}
        Whether seasons without a freeze count as never freezing or are left out.

    Returns
    -------
    float or None
        The day number.

    Notes
    -----
    numpy's default quantile over all seasons, those without a freeze standing at the far end.  Where the rule
    would fall between a date and "never", it takes the date for a risk up to the share of freezing seasons and
    gives none above it: a date is never made up from "never".
    """
    frozen = len(days)
    counted = n_usable if basis == "all_years" else frozen
    if frozen == 0 or (basis == "freeze_years" and frozen < NCEI_LEAST_SHARE * n_usable):
        return None
    # Both halves ordered from the freeze nearest to summer outwards.
    ordered = days[::-1] if half == "spring" else days
    place = (counted - 1) * risk
    if place <= frozen - 1:
        return float(np.interp(place, np.arange(frozen), ordered))
    return float(ordered[-1]) if risk <= frozen / counted + _EPS else None


def checked_risk(risk: float) -> float:
    """Return a risk between 0 and 1, or refuse it."""
    if risk > 1:
        raise InputProblem("fraction_over_one", name="risk", value=f"{risk:g}", as_fraction=f"{risk / 100:g}")
    if not 0 < risk < 1:
        raise InputProblem("climate.risk", risk=f"{risk:g}")
    return risk


def freeze_dates(
    seasons: pd.DataFrame, risks: Sequence[float] = (0.1, 0.5, 0.9), *, year: int, basis: Basis = "all_years"
) -> pd.DataFrame:
    """Give the freeze dates that past seasons let expect at given risks.

    Parameters
    ----------
    seasons : DataFrame
        From `freeze_seasons`.
    risks : sequence of float
        Share of springs with a freeze on or after the date, or of falls with one on or before it; between 0 and 1.
    year : int
        The season for which the dates are written, called by the year of its spring.
    basis : {"all_years", "freeze_years"}
        ``all_years``: seasons without a freeze count as never freezing, so that a risk above the share of freezing
        seasons has no date.  ``freeze_years``: only seasons with a freeze, as NCEI publishes, and no date where
        fewer than 1 season in 10 freezes.

    Returns
    -------
    DataFrame
        Index ``risk``; ``last_spring`` and ``first_fall`` (dates, NaT when there is none or fewer than 20 seasons
        of that half are usable) and the counts ``n_freeze_spring``, ``n_freeze_fall``, ``n_usable_spring``,
        ``n_usable_fall``.

    Raises
    ------
    InputProblem
        When a risk is not between 0 and 1.

    Notes
    -----
    Days of a non-leap year, numpy's default quantile, shown to the nearest day.  NCEI assembles its tables by
    bootstrap instead (Normals Calculation Methodology 2020); the two differ by up to about 5 days.

    Examples
    --------
    >>> years = pd.RangeIndex(2001, 2041)
    >>> seasons = pd.DataFrame({"last_spring": pd.to_datetime([f"{y}-04-{10 + y % 20}" for y in years]),
    ...     "first_fall": pd.NaT, "usable_spring": True, "usable_fall": True}, index=years)
    >>> freeze_dates(seasons, [0.5], year=2027)["last_spring"].dt.strftime("%d %B").tolist()
    ['20 April']
    """
    table: dict[str, Any] = {"risk": [checked_risk(float(risk)) for risk in risks]}
    counts: dict[str, int] = {}
    for half, column in (("spring", "last_spring"), ("fall", "first_fall")):
        days, n_usable = usable_days(seasons, half)  # type: ignore[arg-type]
        enough = n_usable >= MIN_SEASONS
        found = [risk_day(days, n_usable, r, half, basis) if enough else None for r in table["risk"]]  # type: ignore[arg-type]
        table[column] = np.array([d if d is None else date_of(d, year) for d in found], dtype="datetime64[s]")
        counts |= {f"n_freeze_{half}": len(days), f"n_usable_{half}": n_usable}
    order = ["n_freeze_spring", "n_freeze_fall", "n_usable_spring", "n_usable_fall"]
    return pd.DataFrame(table | {name: counts[name] for name in order}).set_index("risk")
