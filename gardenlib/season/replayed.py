"""A season's plan run against every past season of a record."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.season.past_weather import PastWeather
from gardenlib.season.planned import PlannedPlanting, plan_dates
from gardenlib.season.standing import NEVER, Whole, counted, heat_ready, rain_fed
from gardenlib.site import FreezeDates
from gardenlib.site.freeze import FREEZE_TOLERANCE_C, MAX_MISSING, day_numbers
from gardenlib.site.past_seasons import YEAR_DAYS
from gardenlib.sowing.bolting import FIRST_WEEKS

if TYPE_CHECKING:
    from gardenlib.plot import Plot
    from gardenlib.site import Station, Warmth
    from gardenlib.tables import Crop

__all__ = ["replay", "replay_planned"]

Array = npt.NDArray[np.float64]


def replay(
    plot: Plot,
    station: Station | None,
    *,
    year: int | None = None,
    latitude: float | None = None,
    warmth: Warmth | None = None,
    freezes: FreezeDates | None = None,
    night_offset_c: float | None = None,
    crops: Mapping[str, Crop] | None = None,
    region: str | None = None,
    garden_opens: date | None = None,
    garden_closes: date | None = None,
) -> pd.DataFrame:
    """Run a plot's plan against every past season of a station's record.

    Parameters
    ----------
    plot : Plot
        The plot file, read.
    station : Station or None
        A daily record; official dates alone cannot be replayed.
    year : int, optional
        Calendar year of the season that is planned; by default the one after the record's last.
    latitude : float, optional
        Degrees, south negative; the station's own when not given.
    warmth : Warmth, optional
        Typical year of the station; worked out from it when not given.
    freezes : FreezeDates, optional
        Freeze dates of the plot; worked out from the station when not given.
    night_offset_c : float, optional
        How much warmer the plot's nights are than the station's, degrees Celsius; by default as the plot file says.
    crops : mapping of str to Crop, optional
        Crops that the class added, by id.
    region : str, optional
        Key of the source whose weeks count.
    garden_opens, garden_closes : date, optional
        Nothing is planted before the one or ready after the other.

    Returns
    -------
    DataFrame
        One row a planting and past season: ``planting``, ``crop``, ``year``, ``planted_on``, ``ready_early`` and
        ``ready_late`` (days of the first picking; NaT where it did not come), ``frost_on`` (the night that ends it),
        ``cold_nights``, ``heat_days``, ``cold_days`` and ``may_bolt``, ``dry_days``, ``rain_mm``, ``pests_seen``
        (kinds), ``ready_in_time``, ``worked``, ``kg_low`` and ``kg_high``. What is not known is NaN, NaT or NA.

    Raises
    ------
    InputProblem
        When there is no daily record, no whole season in it, no latitude, no planting, or an unknown crop.

    Notes
    -----
    A planting `worked` in a season when no night while it stood was cold enough to hurt it and even its latest first
    picking came before the growing year ended: our own definition. Heat, cold spells, dry days and pests stand
    beside it and do not count. Sources: limits of cold and heat and the days to harvest as in `sowing`; water as in
    Allen et al. 1998 (FAO-56); pests as in `pests.forecast`.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> from gardenlib.plot import Planting, Plot
    >>> days = pd.date_range("2000-01-01", "2024-12-31")
    >>> low = -9 * np.cos((days.day_of_year - 15) / 58.1) + 8
    >>> daily = pd.DataFrame({"tmin_c": low, "tmax_c": low + 11}, index=days)
    >>> place = SimpleNamespace(name="Invented", latitude=45.0, first_year=2000, last_year=2024, daily=daily)
    >>> table = replay(Plot(plantings=(Planting(id="a", crop="radish"),)), place)
    >>> len(table), bool(table["worked"].all())
    (25, True)
    """
    offset = night_offset_c if night_offset_c is not None else (plot.site.night_offset_c or 0.0)
    weather = PastWeather.of(station, latitude=latitude, warmth=warmth, offset_c=offset)
    assert station is not None  # noqa: S101  (refused above)
    if freezes is None:
        freezes = FreezeDates.from_station(station, latitude=weather.latitude, night_offset_c=offset)
    year = station.last_year + 1 if year is None else year
    given: dict[str, Any] = {"crops": crops, "region": region}
    given |= {"garden_opens": garden_opens, "garden_closes": garden_closes}
    return replay_planned(plan_dates(plot, freezes, year=year, warmth=weather.warmth, **given), weather, year=year)


def replay_planned(planned: Sequence[PlannedPlanting], weather: PastWeather, *, year: int) -> pd.DataFrame:
    """Run planned plantings against past seasons that are laid out already.

    Parameters
    ----------
    planned : sequence of PlannedPlanting
        The plan.
    weather : PastWeather
        The past seasons.
    year : int
        Calendar year of the season that is planned.

    Returns
    -------
    DataFrame
        As `replay` gives it.

    Raises
    ------
    InputProblem
        When nothing is planned.

    Notes
    -----
    See `replay`.

    Examples
    --------
    >>> replay_planned((), None, year=2027)
    Traceback (most recent call last):
    gardenlib.problems.InputProblem: No planting is in the plan yet. Choose what you grow first.
    """
    if not planned:
        raise InputProblem("season.no_plantings")
    start = _starts(planned, weather, year)
    known = np.array([one.replayed for one in planned]) & (start >= 0) & (start < YEAR_DAYS)
    start = np.where(known, start, 0)
    early, late = _ready(planned, weather, start, known)
    first = start + np.array([max(one.emerge_days, 1) for one in planned])
    last = np.minimum(late, YEAR_DAYS - 1)
    cold, frost = _cold(planned, weather, first, last)
    in_time = (late < NEVER) & (late < frost)
    worked = (cold == 0) & (late < NEVER)
    water = _water(planned, weather, first, last)
    bolting = _bolting(planned, weather, start)
    kg = np.array([(np.nan, np.nan) if one.kg is None else (one.kg.low, one.kg.high) for one in planned])
    needed = np.array([one.cold_days or np.nan for one in planned])[:, None]
    n, seasons = late.shape
    days = weather.dates
    unsure = ~np.repeat(known, seasons)

    def column(values: npt.NDArray[Any]) -> Array:
        flat = np.asarray(values, dtype=float).ravel()
        flat[unsure] = np.nan
        return flat

    def dated(places: Whole) -> npt.NDArray[np.datetime64]:
        found = days[np.arange(seasons)[None, :], np.minimum(places, YEAR_DAYS - 1)]
        return np.where((places >= NEVER) | ~known[:, None], np.datetime64("NaT", "D"), found).ravel().astype("M8[s]")

    def verdict(values: npt.NDArray[np.bool_], unclear: npt.NDArray[np.bool_] = unsure) -> Any:
        return pd.array(np.where(unclear, None, values.ravel()), dtype="boolean")

    return pd.DataFrame(
        {
            "planting": np.repeat([one.id for one in planned], seasons),
            "crop": np.repeat([one.crop.id for one in planned], seasons),
            "year": np.tile(weather.past.years, n),
            "planted_on": dated(np.broadcast_to(start[:, None], late.shape)),
            "ready_early": dated(early),
            "ready_late": dated(late),
            "frost_on": dated(frost),
            "cold_nights": column(cold),
            "heat_days": column(_heat(planned, weather, first, last)),
            "cold_days": column(bolting),
            "may_bolt": verdict(bolting >= needed, unsure | np.isnan(bolting).ravel()),
            "dry_days": column(water[0]),
            "rain_mm": column(water[1]),
            "pests_seen": column(_pests(planned, weather, first, last)),
            "ready_in_time": verdict(in_time),
            "worked": verdict(worked),
            "kg_low": column(worked * kg[:, :1]),
            "kg_high": column(worked * kg[:, 1:]),
        }
    )


def _starts(planned: Sequence[PlannedPlanting], weather: PastWeather, year: int) -> Whole:
    """Give the day of the growing year on which each is planted; -1 without a date."""
    dated = [one.planted_on or date(year, 1, 1) for one in planned]
    found = day_numbers(np.array(dated, dtype="datetime64[D]"), np.array([year])) - weather.past.first_day
    return np.where([one.planted_on is not None for one in planned], found, -1)


def _ready(
    planned: Sequence[PlannedPlanting], weather: PastWeather, start: Whole, known: npt.NDArray[np.bool_]
) -> tuple[Whole, Whole]:
    """Give the earliest and the latest day of the first picking: by warmth where a base is published, else by days."""
    ends = np.full((2, len(planned), weather.seasons), NEVER, dtype=np.int64)
    bases = {}
    for place, one in enumerate(planned):
        if not known[place] or one.days is None:
            continue
        if one.base is not None and one.heat_sum is not None:
            bases.setdefault(one.base, []).append(place)
        else:
            counts = np.floor(np.array([one.days.low, one.days.high]) + 0.5).astype(int)
            ends[:, place] = np.minimum(start[place] + counts, NEVER)[:, None]
    for base, places in bases.items():
        sums = weather.heat_sums(base)
        for end, row in zip(("low", "high"), ends, strict=True):
            total = np.array([getattr(planned[place].heat_sum, end) for place in places])
            row[places] = heat_ready(sums, start[places], total)
    return ends[0], ends[1]


def _cold(planned: Sequence[PlannedPlanting], weather: PastWeather, first: Whole, last: Whole) -> tuple[Whole, Whole]:
    """Count the nights that hurt, young plants in the spring half and grown ones after; and find the first of those."""
    half, nights = weather.spring_days, weather.nights_c
    spring = np.arange(YEAR_DAYS) < half
    cover = np.array([one.cover_c for one in planned])
    young = np.array([one.young_c for one in planned]) - cover
    grown = np.array([one.grown_c for one in planned]) - cover

    def at_or_below(limit: float) -> npt.NDArray[np.bool_]:
        return nights <= limit + FREEZE_TOLERANCE_C

    cold = counted(lambda limit: at_or_below(limit) & spring, young, first, last)
    cold += counted(lambda limit: at_or_below(limit) & ~spring, grown, first, last)
    frost = np.empty(last.shape, dtype=np.int64)
    for limit in np.unique(grown):
        here = np.flatnonzero(grown == limit)
        days = np.where(at_or_below(float(limit)) & ~spring, np.arange(YEAR_DAYS), NEVER)
        coming = np.minimum.accumulate(days[:, ::-1], axis=1)[:, ::-1]
        frost[here] = coming[:, np.minimum(np.maximum(first[here], half), YEAR_DAYS - 1)].T
    return cold, frost


def _heat(planned: Sequence[PlannedPlanting], weather: PastWeather, first: Whole, last: Whole) -> Array:
    limits = np.array([np.nan if one.heat_c is None else one.heat_c for one in planned])
    days = counted(lambda limit: weather.mean_c > limit + 1e-6, np.nan_to_num(limits, nan=99.0), first, last)
    return np.where(np.isnan(limits)[:, None], np.nan, days)


def _bolting(planned: Sequence[PlannedPlanting], weather: PastWeather, start: Whole) -> Array:
    """Count the cold days of the first weeks."""
    below = np.array([np.nan if one.cold_below_c is None else one.cold_below_c for one in planned])
    last = np.broadcast_to(
        np.minimum(start + 7 * FIRST_WEEKS - 1, YEAR_DAYS - 1)[:, None], (len(start), weather.seasons)
    )
    days = counted(lambda limit: weather.mean_c < limit - 1e-6, np.nan_to_num(below, nan=-99.0), start, last)
    return np.where(np.isnan(below)[:, None], np.nan, days)


def _water(planned: Sequence[PlannedPlanting], weather: PastWeather, first: Whole, last: Whole) -> tuple[Array, Array]:
    """Give the dry days (none where somebody waters) and the rain; unknown where more than ten days lack rain."""
    measured = ~np.isnan(weather.past.rain_mm)
    rain = np.where(measured, weather.past.rain_mm, 0.0)
    sums = np.zeros((2, weather.seasons, YEAR_DAYS + 1))
    np.cumsum(np.stack([rain, ~measured]), axis=2, out=sums[:, :, 1:])
    begin = np.minimum(first, YEAR_DAYS)
    end = np.maximum(np.minimum(last + 1, YEAR_DAYS), begin[:, None])
    fallen, missing = (one[np.arange(weather.seasons)[None, :], end] - one[:, begin].T for one in sums)
    unknown = missing > MAX_MISSING
    dry = np.zeros(last.shape)
    alone = [place for place, one in enumerate(planned) if not one.watered]
    thirsty = [place for place in alone if planned[place].thirst is not None]
    dry[alone] = np.nan
    if thirsty:
        thirsts = [one for place in thirsty if (one := planned[place].thirst) is not None]
        dry[thirsty] = rain_fed(thirsts, weather.et_mm, rain, first[thirsty], last[thirsty]).dry_days
        dry[alone] = np.where(unknown[alone], np.nan, dry[alone])
    return dry, np.where(unknown, np.nan, fallen)


def _pests(planned: Sequence[PlannedPlanting], weather: PastWeather, first: Whole, last: Whole) -> Whole:
    """Count the kinds of pests with a published event while the crop stood."""
    out = np.zeros(last.shape, dtype=np.int64)
    for place, one in enumerate(planned):
        for events in weather.pest_days(one.crop).values():
            low, high = (np.array(days) for days in zip(*events, strict=True))
            out[place] += np.any((low <= last[place]) & (low < NEVER) & (high >= first[place]), axis=0)
    return out
