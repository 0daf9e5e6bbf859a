"""A season's plan run against every past season of a record."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt
import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.season import replay_columns as columns
from gardenlib.season.past_weather import PastWeather
from gardenlib.season.plan_row import PlannedPlanting
from gardenlib.season.planned import plan_dates
from gardenlib.season.standing import NEVER, Whole
from gardenlib.site import FreezeDates
from gardenlib.site.past_seasons import YEAR_DAYS

if TYPE_CHECKING:
    from gardenlib.plot import Plot
    from gardenlib.site import Station, Warmth
    from gardenlib.tables import Crop

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
    start = columns.starts(planned, weather, year)
    known = np.array([one.replayed for one in planned]) & (start >= 0) & (start < YEAR_DAYS)
    start = np.where(known, start, 0)
    early, late = columns.ready_days(planned, weather, start, known)
    first = start + np.array([one.emerge_days + 1 for one in planned])
    last = np.minimum(late, YEAR_DAYS - 1)
    cold, frost = columns.cold_nights(planned, weather, first, last)
    in_time = (late < NEVER) & (late < frost)
    worked = (cold == 0) & (late < NEVER)
    water = columns.dry_days(planned, weather, first, last)
    bolting = columns.cold_days(planned, weather, start)
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
        return pd.arrays.BooleanArray(values.ravel(), unclear)

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
            "heat_days": column(columns.heat_days(planned, weather, first, last)),
            "cold_days": column(bolting),
            "may_bolt": verdict(bolting >= needed, unsure | np.isnan(bolting).ravel()),
            "dry_days": column(water[0]),
            "rain_mm": column(water[1]),
            "pests_seen": column(columns.pests_seen(planned, weather, first, last)),
            "ready_in_time": verdict(in_time),
            "worked": verdict(worked),
            "kg_low": column(worked * kg[:, :1]),
            "kg_high": column(worked * kg[:, 1:]),
        }
    )
