"""How much colder or warmer the plot's nights are than the station's."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import pandas as pd

from gardenlib.problems import InputProblem
from gardenlib.words import Said
from gardenlib.working import Answer, Quantity, Range, Step

if TYPE_CHECKING:
    from gardenlib.site.station import Station

MIN_NIGHTS = 14


@dataclass(frozen=True, kw_only=True)
class NightOffset(Answer):
    """The night offset of a plot against its station.

    Parameters
    ----------
    offset_c : float
        Median of plot less station, degrees Celsius; below zero where the plot is colder.
    spread_c : Range
        Between these lie 8 of 10 nights' differences.
    nights : int
        Nights that both have.
    """

    offset_c: float
    spread_c: Range
    nights: int


def night_offset(plot_daily: pd.DataFrame, station: Station) -> NightOffset:
    """Estimate a plot's night offset from a thermometer log kept beside the station's record.

    Parameters
    ----------
    plot_daily : DataFrame
        The plot's log: a DatetimeIndex and a column ``tmin_c``, degrees Celsius.
    station : Station
        A daily record that covers the same nights.

    Returns
    -------
    NightOffset
        The median difference and its spread.

    Raises
    ------
    InputProblem
        With fewer than 14 shared nights.

    Notes
    -----
    Median and 10 to 90 % quantiles (numpy's default) of the nightly differences.  The least of 14 nights is common
    practice,
    no source.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> nights = pd.date_range("2026-04-01", periods=20)
    >>> station = SimpleNamespace(name="Invented", daily=pd.DataFrame({"tmin_c": 5.0}, index=nights))
    >>> night_offset(pd.DataFrame({"tmin_c": 4.0}, index=nights), station).offset_c
    -1.0
    """
    difference = (plot_daily["tmin_c"] - station.daily["tmin_c"]).dropna()
    nights = len(difference)
    if nights < MIN_NIGHTS:
        raise InputProblem("climate.few_nights", n=nights, least=MIN_NIGHTS, name=station.name)
    low, middle, high = (float(q) for q in difference.quantile([0.1, 0.5, 0.9]))
    spread = Range(low, high, "degC_difference")
    return NightOffset(
        offset_c=middle,
        spread_c=spread,
        nights=nights,
        steps=(
            Step(
                "climate.offset_nights", "plot − station, night by night", {"nights": nights}, spread, "common_practice"
            ),
            Step(
                "climate.offset_middle",
                "median of the differences",
                {"nights": nights},
                Quantity(middle, "degC_difference"),
                "common_practice",
            ),
        ),
        assumptions=(Said("climate.offset.same_night"), Said("climate.offset.short")),
        sources=("common_practice",),
    )
