"""The hardiness zone: which plants live through winter, and nothing about when to sow."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.site.freeze import MAX_MISSING, six_months_on
from gardenlib.units import c_to_f
from gardenlib.words import Said
from gardenlib.working import Answer, Quantity, Range, Step

if TYPE_CHECKING:
    from gardenlib.site.station import Station

LOWEST_F, HIGHEST_F, HALF_ZONE_F = -60, 70, 5
FEW_WINTERS = 10


def hardiness_zone(mean_extreme_min_c: float) -> str:
    """Name the hardiness zone of a mean yearly lowest temperature.

    Parameters
    ----------
    mean_extreme_min_c : float
        Mean of the lowest temperature of each year, degrees Celsius.

    Returns
    -------
    str
        One of 26 half zones of 5 degrees Fahrenheit, ``1a`` (-60 to -55 F) to ``13b`` (65 to 70 F).

    Raises
    ------
    InputProblem
        Below -60 F or from 70 F on, where there is no zone.

    Notes
    -----
    Definition: Daly et al. (2012), J. Appl. Meteorol. Climatol. 51:242.  Which zone owns an exact bound is not
    published;
    here the lower bound belongs to the zone.

    Examples
    --------
    >>> hardiness_zone(-20.0)
    '6b'
    """
    # Nine decimals take back what the conversion from whole Fahrenheit to Celsius and back has moved.
    low_f = round(c_to_f(float(mean_extreme_min_c)), 9)
    if not LOWEST_F <= low_f < HIGHEST_F:
        raise InputProblem("climate.zone_range", low=Quantity(float(mean_extreme_min_c), "degC"))
    step = int((low_f - LOWEST_F) // HALF_ZONE_F)
    return f"{step // 2 + 1}{'ab'[step % 2]}"


@dataclass(frozen=True, kw_only=True)
class Zone(Answer):
    """The hardiness zone of a record.

    Parameters
    ----------
    zone : str or None
        The half zone, or None when the record gives none.
    mean_extreme_min_c : float or None
        Mean lowest temperature of the winters counted, degrees Celsius.
    years : int
        Winters counted.
    reason : Said or None
        Why there is no zone, or why it is only a rough one.
    """

    zone: str | None
    mean_extreme_min_c: float | None
    years: int
    reason: Said | None = None


def zone_from_station(station: Station, *, latitude: float | None = None) -> Zone:
    """Work out the hardiness zone from a station's daily record.

    Parameters
    ----------
    station : Station
        A daily record.
    latitude : float, optional
        Degrees, south negative; the station's own when not given.

    Returns
    -------
    Zone
        The zone, or the reason why there is none.

    Raises
    ------
    InputProblem
        When no latitude is known.

    Notes
    -----
    A winter is kept whole: 1 July to 30 June in the north, the calendar year in the south.  It counts when its cold
    half (October to March, in the south April to September) misses at most 10 nights.  Zone maps also use calendar
    years; where that would give another half zone the answer says so.  Definition: Daly et al. (2012), J. Appl.
    Meteorol. Climatol. 51:242.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> nights = pd.date_range("2001-01-01", "2005-12-31")
    >>> daily = pd.DataFrame({"tmin_c": 10.0}, index=nights)
    >>> daily.loc[nights.strftime("%m-%d") == "01-20", "tmin_c"] = -20.0
    >>> answer = zone_from_station(SimpleNamespace(name="Invented", latitude=45.0, daily=daily))
    >>> answer.zone, answer.years, str(answer.reason)
    ('6b', 4, 'This is a rough zone. It rests on 4 winters only.')
    """
    latitude = station.latitude if latitude is None else latitude
    if latitude is None:
        raise InputProblem("climate.latitude_needed", name=station.name)
    north = six_months_on(latitude) == 0
    tmin_c = station.daily["tmin_c"]
    winters = _yearly_lows(tmin_c, north=north, from_july=north)
    assumptions = [Said("climate.zone.rule_north" if north else "climate.zone.rule_south"), Said("climate.zone.record")]
    if winters.empty:
        return Zone(
            zone=None,
            mean_extreme_min_c=None,
            years=0,
            reason=Said("climate.zone.no_winter"),
            assumptions=tuple(assumptions),
            sources=("daly_2012",),
        )
    mean_c = float(winters.mean())
    zone, reason = _named(mean_c, len(winters))
    other = _yearly_lows(tmin_c, north=north, from_july=not north)
    other_zone = None if other.empty else _named(float(other.mean()), len(other))[0]
    if zone and other_zone and other_zone != zone:
        assumptions.append(Said("climate.zone.other_year", {"zone": other_zone}))
    steps = (
        Step(
            "climate.zone_lows",
            "lowest of each winter",
            {"winters": len(winters)},
            Range(float(winters.min()), float(winters.max()), "degC"),
            "daly_2012",
        ),
        Step(
            "climate.zone_mean",
            "sum of the lowest ÷ winters",
            {"winters": len(winters)},
            Quantity(mean_c, "degC"),
            "daly_2012",
        ),
        Step("climate.zone_name", "zone holding the mean", {"mean": Quantity(mean_c, "degC")}, zone, "daly_2012"),
    )
    return Zone(
        zone=zone,
        mean_extreme_min_c=mean_c,
        years=len(winters),
        reason=reason,
        steps=steps,
        assumptions=tuple(assumptions),
        sources=("daly_2012",),
    )


def _named(mean_c: float, winters: int) -> tuple[str | None, Said | None]:
    try:
        zone = hardiness_zone(mean_c)
    except InputProblem:
        return None, Said("climate.zone.off_scale", {"low": Quantity(mean_c, "degC")})
    return zone, Said("climate.zone.rough", {"n": winters}) if winters < FEW_WINTERS else None


def _yearly_lows(tmin_c: pd.Series, *, north: bool, from_july: bool) -> pd.Series:
    """Give the lowest temperature of each year whose cold half misses at most 10 nights."""
    if tmin_c.empty:
        return tmin_c
    first, last = tmin_c.index[0].year, tmin_c.index[-1].year
    opening, end = (f"{first - 1}-07-01", f"{last + 1}-06-30") if from_july else (f"{first}-01-01", f"{last}-12-31")
    nights = tmin_c.reindex(pd.date_range(opening, end))
    days = pd.DatetimeIndex(nights.index)
    year = days.year.to_numpy() - (days.month.to_numpy() < 7 if from_july else 0)
    cold = (days.month >= 10) | (days.month <= 3) if north else (days.month >= 4) & (days.month <= 9)
    missing = pd.Series(cold & nights.isna().to_numpy(), index=year).groupby(level=0).sum()
    return nights.set_axis(year).groupby(level=0).min()[missing <= MAX_MISSING]
