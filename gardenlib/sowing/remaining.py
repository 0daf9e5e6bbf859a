"""Of two sowings so many days apart: how many days remain between their harvests."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, Literal

import numpy as np

from gardenlib.problems import InputProblem
from gardenlib.sowing.even_days import spread_over_seasons, whole_days
from gardenlib.sowing.heat_to_ripe import growing_year, ripening
from gardenlib.sowing.limits import as_crop
from gardenlib.sowing.past_heat import NOT_RIPE
from gardenlib.units import Quantity, Range
from gardenlib.working import Answer, Notes

if TYPE_CHECKING:
    from gardenlib.site import FreezeDates, Station, Warmth
    from gardenlib.tables import Crop


SAME_DAYS = 0.5


@dataclass(frozen=True, kw_only=True)
class RemainingGap(Answer):
    """How far apart two sowings ripen.

    Parameters
    ----------
    crop : str
        Crop id.
    days : Range
        Days between the two harvests in 8 of 10 past seasons, or from the least to the most with under 20.
    middle_days : float
        The median over the seasons.
    days_apart : int
        Days between the two sowings.
    seasons : int
        Past seasons behind it.
    """

    crop: str
    days: Range
    middle_days: float
    days_apart: int
    seasons: int

    @property
    def change(self) -> Literal["closer", "same", "further"]:
        """Whether the harvests lie closer together than the sowings, to half a day."""
        if abs(self.middle_days - self.days_apart) <= SAME_DAYS:
            return "same"
        return "closer" if self.middle_days < self.days_apart else "further"


def remaining_gap(
    crop: str | Crop,
    station: Station,
    sow: date,
    days_apart: int,
    *,
    latitude: float | None = None,
    warmth: Warmth | None = None,
    freezes: FreezeDates | None = None,
) -> RemainingGap:
    """Tell how many days of the interval between two sowings remain at harvest.

    Parameters
    ----------
    crop, station, latitude, warmth, freezes
        As in `even_harvest`.
    sow : date
        Day of the earlier sowing.
    days_apart : int
        Days to the later sowing, 1 to 180.

    Returns
    -------
    RemainingGap
        The days that remain, over the past seasons; only seasons in which both were ripe count.

    Raises
    ------
    InputProblem
        As in `even_harvest`, and when in half of the seasons or more the later sowing was not ripe.

    Notes
    -----
    See `even_harvest`. Bachmann (National Center for Appropriate Technology) publishes about 7 days for peas sown 14
    days apart in early spring.

    Examples
    --------
    >>> from gardenlib.carried import carried
    >>> from gardenlib.site import read_station
    >>> invented = carried("data_demo") / "stations" / "invented_pellowby_daily.csv"
    >>> found = remaining_gap("pea", read_station(invented, latitude=40.1), date(2027, 3, 23), 14)
    >>> found.middle_days < 14
    True
    """
    whole_days(days_apart)
    plant, notes = as_crop(crop), Notes()
    past = ripening(plant, station, sow, latitude=latitude, warmth=warmth, freezes=freezes, notes=notes)
    later = sow + timedelta(days=days_apart)
    same_year = growing_year(later, past.latitude) == past.year
    first, second = (past.ripe[:, past.day(day)] for day in (sow, later if same_year else sow))
    both = (second < NOT_RIPE) & same_year
    if both.sum() * 2 <= len(both):
        raise InputProblem("even.too_late", crop=plant.name, day=later)
    gaps = (second - first)[both]
    low, high = (float(value) for value in spread_over_seasons(gaps))
    middle = float(np.median(gaps))
    notes.step(
        "even.gap",
        "median over seasons of second_harvest - first_harvest",
        {"first_sowing": sow, "second_sowing": later, "seasons": len(gaps)},
        Quantity(middle, "days"),
        "common_practice",
    )
    return RemainingGap(
        crop=plant.id,
        days=Range(low, high, "days"),
        middle_days=middle,
        days_apart=days_apart,
        seasons=len(gaps),
        **notes.parts(),
    )
