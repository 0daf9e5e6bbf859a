"""All that is known of one place, gathered from values."""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

from gardenlib.problems import InputProblem
from gardenlib.site.freeze import six_months_on
from gardenlib.site.local_dates import FreezeDates
from gardenlib.site.warmth import Warmth
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.site.station import Station


@dataclass(frozen=True, kw_only=True)
class Place:
    """What is known of one place.

    Made by `place`.

    Parameters
    ----------
    name : str
        What the class calls it.
    latitude : float
        Degrees, south negative.
    station : Station or None
        Its daily record.
    night_offset_c : float
        What the plot's nights add to the station's, degrees Celsius.
    night_offset_reason : str
        Why, in the words of who typed it.
    freezes : FreezeDates or None
        The first source that gives dates, for the plot (night offset applied); None without any source.
    at_station : list of FreezeDates
        Every source as it is, without the offset; two or more are shown side by side.
    all_sources : list of FreezeDates
        Every source, for the plot.
    warmth : Warmth or None
        The typical year, from the daily record or else from monthly values.
    missing : tuple of Said
        What is not known, and how to come by it.
    """

    name: str
    latitude: float
    station: Station | None
    night_offset_c: float
    night_offset_reason: str
    freezes: FreezeDates | None
    at_station: list[FreezeDates]
    all_sources: list[FreezeDates]
    warmth: Warmth | None
    missing: tuple[Said, ...]


def place(
    name: str,
    latitude: float,
    *,
    station: Station | None = None,
    normals: str | os.PathLike[str] | None = None,
    typed: FreezeDates | None = None,
    monthly: Iterable[tuple[int, float, float]] | None = None,
    monthly_source: str = "",
    prefer: Literal["station", "normals", "typed"] | None = None,
    night_offset_c: float = 0.0,
    night_offset_reason: str = "",
) -> Place:
    """Gather what is known of a place.

    Parameters
    ----------
    name : str
        What the class calls it.
    latitude : float
        Degrees, south negative.
    station : Station, optional
        A daily record.
    normals : path, optional
        A by-station normals file of NCEI.
    typed : FreezeDates, optional
        From `FreezeDates.typed`.
    monthly : iterable of (int, float, float), optional
        Month, mean high and mean low, degrees Celsius.
    monthly_source : str
        Where the monthly values come from.
    prefer : {"station", "normals", "typed"}, optional
        The kind of source to take first.
    night_offset_c : float
        What the plot's nights add to the station's, degrees Celsius.
    night_offset_reason : str
        Why.

    Returns
    -------
    Place
        With dates from the first source that gives any: the preferred one, then daily record, normals, typed.

    Raises
    ------
    InputProblem
        When a source cannot be used, or the latitude is not between -90 and 90.

    Examples
    --------
    >>> dates = FreezeDates.typed((5, 9), (10, 6), source="county leaflet", latitude=43.6)
    >>> place("Hill", 43.6, typed=dates).freezes.kind
    'typed'
    """
    six_months_on(latitude)
    sources: list[FreezeDates] = []
    if station is not None:
        sources.append(_recorded_dates(station, latitude))
    if normals is not None:
        sources.append(FreezeDates.from_normals(normals, latitude=latitude))
    if typed is not None:
        sources.append(typed)
    sources.sort(key=lambda source: source.kind != prefer)
    for_plot = [source.with_night_offset(night_offset_c) for source in sources] if night_offset_c else list(sources)
    chosen = next((i for i, source in enumerate(for_plot) if _answers(source)), 0)
    warmth = _warmth(station, latitude, monthly, monthly_source)
    return Place(
        name=name,
        latitude=latitude,
        station=station,
        night_offset_c=night_offset_c,
        night_offset_reason=night_offset_reason,
        freezes=for_plot[chosen] if sources else None,
        at_station=sources,
        all_sources=for_plot,
        warmth=warmth,
        missing=_missing(station, sources, for_plot[chosen] if sources else None, warmth),
    )


def _answers(source: FreezeDates) -> bool:
    return any(source.state(half, 32) in ("dates", "never", "every_month") for half in ("spring", "fall"))


# One record serves a whole class: a learner who comes next does not count it again.
@lru_cache(maxsize=4)
def _recorded_dates(station: Station, latitude: float) -> FreezeDates:
    return FreezeDates.from_station(station, latitude=latitude)


@lru_cache(maxsize=4)
def _recorded_warmth(station: Station, latitude: float) -> Warmth:
    return Warmth.from_station(station, latitude)


def _warmth(
    station: Station | None, latitude: float, monthly: Iterable[tuple[int, float, float]] | None, source: str
) -> Warmth | None:
    try:
        if station is not None:
            return _recorded_warmth(station, latitude)
    except InputProblem:  # a record too short for a typical year: the monthly values stand in and say so
        pass
    return None if monthly is None else Warmth.from_monthly(monthly, latitude=latitude, source=source)


def _missing(
    station: Station | None, sources: list[FreezeDates], chosen: FreezeDates | None, warmth: Warmth | None
) -> tuple[Said, ...]:
    missing = []
    if not sources:
        missing.append(Said("climate.missing.no_dates"))
    elif chosen is not None and not _answers(chosen):
        missing.append(Said("climate.missing.too_short"))
    if station is None:
        missing += [Said("climate.missing.daily_record"), Said("climate.missing.how_to_get")]
    if warmth is None:
        missing.append(Said("climate.missing.warmth"))
    return tuple(missing)
