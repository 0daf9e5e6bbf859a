"""Sowings spaced by warmth, so that the harvests are evenly spaced."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING

import numpy as np

from gardenlib.problems import InputProblem
from gardenlib.site.freeze import MIN_SEASONS
from gardenlib.sowing.even_days import even_table, spaced, spread_over_seasons, whole_days
from gardenlib.sowing.heat_to_ripe import Ripening, ripening
from gardenlib.sowing.limits import as_crop
from gardenlib.sowing.past_heat import NOT_RIPE
from gardenlib.units import Quantity, Range
from gardenlib.words import Said
from gardenlib.working import Answer, Notes

if TYPE_CHECKING:
    import pandas as pd

    from gardenlib.site import FreezeDates, Station, Warmth
    from gardenlib.tables import Crop

MOST_HARVESTS = 52


@dataclass(frozen=True, kw_only=True)
class EvenHarvest(Answer):
    """When to sow so that the harvests are evenly spaced.

    Parameters
    ----------
    crop : str
        Crop id.
    event : {"direct_sow", "set_out"}
        What is done on the days to sow: seed sown in place, or plants set out.
    table : DataFrame
        One row a sowing: ``sow``; ``harvest``, ``early`` and ``late`` (the median over the past seasons, the day
        by which 1 in 10 and 9 in 10 were ripe, or from under 20 seasons the first and last); ``gap_days`` since
        the harvest before; and ``equal_sow``, ``equal_harvest``, ``equal_gap_days``, what sowing at equal
        intervals would have given (None after the end of the growing year).
    even : bool or None
        Whether the spread over the years leaves room for the interval; None with fewer than 20 seasons.
    reason : Said or None
        Why not, or why it cannot be told.
    seasons : int
        Past seasons behind it.
    spread_days : float
        Whole days from early to late, the largest of the sowings.
    late : tuple of Said
        How many harvests come after the middle first freeze or the closing, or have no room in the growing year.
    """

    crop: str
    event: str
    table: pd.DataFrame = field(compare=False, repr=False)
    even: bool | None
    reason: Said | None
    seasons: int
    spread_days: float
    late: tuple[Said, ...] = ()

    @property
    def equal_gaps(self) -> Range | None:
        """Fewest and most days between harvests had they been sown at equal intervals; None with one harvest."""
        gaps = self.table["equal_gap_days"].dropna()
        return Range(float(gaps.min()), float(gaps.max()), "days") if len(gaps) else None


def even_harvest(
    crop: str | Crop,
    station: Station,
    first: date,
    harvests: int,
    every_days: int,
    *,
    latitude: float | None = None,
    warmth: Warmth | None = None,
    freezes: FreezeDates | None = None,
    garden_opens: date | None = None,
    garden_closes: date | None = None,
) -> EvenHarvest:
    """Space sowings so that over the past seasons the harvests are evenly spaced.

    Parameters
    ----------
    crop : str or Crop
        A crop with a base temperature, one of `crops_with_base()`.
    station : Station
        A daily record of lows and highs.
    first : date
        Day of the first sowing, of setting out for crops raised as plants.
    harvests : int
        How many harvests, 1 to 52.
    every_days : int
        Days from one harvest to the next, 1 to 180.
    latitude : float, optional
        Degrees, south negative; the station's own when not given.
    warmth : Warmth, optional
        Typical year of the station; worked out from it when not given.
    freezes : FreezeDates, optional
        Freeze dates of the station; worked out from it when not given.
    garden_opens, garden_closes : date, optional
        The first sowing must lie between them; a harvest after the closing is told.

    Returns
    -------
    EvenHarvest
        The sowings and harvests, with fewer rows than asked where the season has no room.

    Raises
    ------
    InputProblem
        When the crop has no base temperature or no days to harvest, a number is out of its range, no season of the
        record is whole, or the first sowing is outside the garden's days or does not ripen before the year ends.

    Notes
    -----
    Degree days by the single sine with the horizontal cutoff: Zalom et al. (1983), UC Leaflet 21373. Bases: Peet
    (North Carolina State University) and the keys in ``tables.table("degree_day_bases")``. The total is our own
    calibration: the degree days of the station's typical year over the middle of the published days, from the middle
    of the published weeks. A season with more than 10 missing days is left out. The rule that the interval must not
    be smaller than the span from 1 to 9 harvests in 10 is our own.

    Examples
    --------
    >>> from gardenlib.carried import carried
    >>> from gardenlib.site import read_station
    >>> invented = carried("data_demo") / "stations" / "invented_pellowby_daily.csv"
    >>> found = even_harvest("pea", read_station(invented, latitude=40.1), date(2027, 3, 23), 3, 14)
    >>> len(found.table), found.even
    (3, True)
    """
    if not isinstance(harvests, int | np.integer) or not 1 <= harvests <= MOST_HARVESTS:
        raise InputProblem("even.harvests", value=harvests, most=MOST_HARVESTS)
    whole_days(every_days)
    if garden_opens is not None and first < garden_opens:
        raise InputProblem("even.before_opening", day=first, opens=garden_opens)
    if garden_closes is not None and first > garden_closes:
        raise InputProblem("even.after_closing", day=first, closes=garden_closes)
    plant, notes = as_crop(crop), Notes()
    past = ripening(plant, station, first, latitude=latitude, warmth=warmth, freezes=freezes, notes=notes)
    middle, begun = np.median(past.ripe, axis=0), past.day(first)
    chosen = spaced(middle, begun, harvests, every_days)
    early, late = spread_over_seasons(past.ripe[:, chosen])
    kept = int((late < NOT_RIPE).sum())
    if not kept:
        raise InputProblem("even.too_late", crop=plant.name, day=first)
    chosen, early, late = chosen[:kept], early[:kept], late[:kept]
    table = even_table(past, middle, chosen, (early, late), every_days)
    notes.step(
        "even.first_harvest",
        "median over seasons of the first day with degree_days >= total",
        {"first_sowing": first, "total": Quantity(past.total_c, "degC_days")},
        past.date(middle[begun]),
        "common_practice",
    )
    rule, interval = "sowing whose median harvest is first_harvest + n * interval", Quantity(every_days, "days")
    notes.step("even.spaced", rule, {"interval": interval}, table["sow"].iloc[-1], "common_practice")
    spread, seasons = float(np.floor((late - early).max() + 0.5)), len(past.ripe)
    found = Quantity(spread, "days")
    notes.step("even.spread", "largest of late - early", {"seasons": seasons}, found, "common_practice")
    even, reason = _judge(seasons, spread, every_days)
    return EvenHarvest(
        crop=plant.id,
        event=past.event,
        table=table,
        even=even,
        reason=reason,
        seasons=seasons,
        spread_days=spread,
        late=_late(past, table, harvests, garden_closes),
        **notes.parts(),
    )


def _judge(seasons: int, spread: float, every_days: int) -> tuple[bool | None, Said | None]:
    if seasons < MIN_SEASONS:
        return None, Said("even.few_seasons", {"n": seasons, "enough": MIN_SEASONS})
    if spread > every_days:
        said = {"spread": Quantity(spread, "days"), "every": Quantity(every_days, "days")}
        return False, Said("even.spread_larger", said)
    return True, None


def _late(past: Ripening, table: pd.DataFrame, harvests: int, closes: date | None) -> tuple[Said, ...]:
    freeze, days = past.first_freeze, table["harvest"]
    cases = (
        ("even.no_room", None, harvests - len(table)),
        ("even.after_freeze", freeze, 0 if freeze is None else int((days > freeze).sum())),
        ("even.after_closing", closes, 0 if closes is None else int((days > closes).sum())),
    )
    return tuple(Said(key, {"n": n, "day": limit}) for key, limit, n in cases if n)
