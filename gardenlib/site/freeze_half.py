"""What one source knows about one half of the year at one threshold."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

from gardenlib.site.freeze import MIN_SEASONS, NCEI_LEAST_SHARE, Half, Whole, half_bounds, risk_day

State = Literal["dates", "never", "every_month", "unknown", "too_few_years"]
Curve = tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]

_EPS = 1e-9
_NO_CURVE: Curve = (np.empty(0), np.empty(0))


@dataclass(frozen=True)
class FromSeasons:
    """One half at one threshold out of a daily record.

    Parameters
    ----------
    half : {"spring", "fall"}
        Which half.
    days : array of int
        Sorted day numbers of the last (first) freezes of the usable seasons that froze.
    n_usable : int
        Usable seasons, frozen or not.
    every_month : bool
        Whether each month of the year froze in at least half of the years.
    latitude : float
        Degrees, south negative.
    """

    half: Half
    days: Whole
    n_usable: int
    every_month: bool
    latitude: float

    @property
    def state(self) -> State:
        """What can be said about this half."""
        if self.n_usable < MIN_SEASONS:
            return "too_few_years"
        if self.every_month:
            return "every_month"
        return "dates" if len(self.days) else "never"

    def knows(self, risk: float) -> bool:
        """Tell whether this risk has an answer, a date or none."""
        return self.state in ("dates", "never")

    def day(self, risk: float) -> float | None:
        """Give the day number at a risk, None when freezes are rarer."""
        return risk_day(self.days, self.n_usable, risk, self.half)

    def curve(self) -> Curve:
        """Give every day of the half and the share of seasons with a freeze on or after (before) it."""
        if self.state not in ("dates", "never"):
            return _NO_CURVE
        low, high = half_bounds(self.latitude, self.half)
        grid = np.arange(low, high + 1)
        if self.half == "spring":
            counted = len(self.days) - np.searchsorted(self.days, grid, side="left")
        else:
            counted = np.searchsorted(self.days, grid, side="right")
        return grid.astype(float), counted / self.n_usable


@dataclass(frozen=True)
class Published:
    """One half at one threshold as published or typed: day numbers at a few risks.

    Parameters
    ----------
    half : {"spring", "fall"}
        Which half.
    points : mapping of float to float
        Day number by risk; the risks are those among seasons with a freeze.
    state : {"dates", "never", "every_month", "unknown"}
        What the source says.
    share : float
        Share of seasons with a freeze.
    """

    half: Half
    points: Mapping[float, float]
    state: State
    share: float = 1.0

    def _among_freezing(self, risk: float) -> float:
        return risk / self.share

    def knows(self, risk: float) -> bool:
        """Tell whether this risk has an answer, a date or none; nothing is reckoned beyond the published risks."""
        if self.state == "never":
            return risk >= NCEI_LEAST_SHARE - _EPS
        if self.state != "dates":
            return False
        return risk > self.share + _EPS or (
            min(self.points) - _EPS <= self._among_freezing(risk) <= max(self.points) + _EPS
        )

    def day(self, risk: float) -> float | None:
        """Give the day number at a risk, on the straight line between the published ones."""
        if self.state == "never" or risk > self.share + _EPS:
            return None
        risks = sorted(self.points)
        return float(np.interp(self._among_freezing(risk), risks, [self.points[r] for r in risks]))

    def curve(self) -> Curve:
        """Give the days between the outermost published ones and the risk at each; none with a single date."""
        if self.state != "dates" or len(self.points) < 2:
            return _NO_CURVE
        risks = sorted(self.points, reverse=self.half == "spring")
        days = [self.points[risk] for risk in risks]
        grid = np.arange(np.ceil(days[0]), np.floor(days[-1]) + 1)
        return grid, np.interp(grid, days, [risk * self.share for risk in risks])


def between(colder: Published, warmer: Published, weight: float) -> Published:
    """Reckon what lies between two thresholds, `weight` of the way from the colder to the warmer one.

    Parameters
    ----------
    colder, warmer : Published
        The same half at two neighbouring thresholds.
    weight : float
        From 0 (the colder one) to 1 (the warmer one).

    Returns
    -------
    Published
        Straight lines between the two; unknown where they do not say the same kind of thing.

    Examples
    --------
    >>> cold, warm = Published("fall", {0.5: 300.0}, "dates"), Published("fall", {0.5: 290.0}, "dates")
    >>> between(cold, warm, 0.5).points
    {0.5: 295.0}
    """
    if colder.state != warmer.state:
        return Published(colder.half, {}, "unknown")
    shared = sorted(colder.points.keys() & warmer.points.keys())
    points = {r: colder.points[r] + weight * (warmer.points[r] - colder.points[r]) for r in shared}
    state: State = "unknown" if colder.state == "dates" and not points else colder.state
    return Published(colder.half, points, state, colder.share + weight * (warmer.share - colder.share))
