"""A full bed's water by week of the season, against an inch a week."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np
import numpy.typing as npt

from gardenlib.beds.water_rows import FAO, FAO_TABLES, row_of
from gardenlib.problems import InputProblem
from gardenlib.site import WeeklyWater
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.units import MM_PER_INCH
from gardenlib.working import Answer, Notes

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class SeasonWater(Answer):
    """What a settled, full-grown bed uses in each week.

    Parameters
    ----------
    starts : tuple of date
        First day of each week.
    typical_mm, dry_mm : array, shape (52,)
        Use in the week, mm; `dry_mm` is None where dry years are not known.
    weeks_over : int
        Weeks in which the typical use is above an inch.
    most_mm, most_from : float, date
        The most in a week, and its first day.
    """

    starts: tuple[date, ...]
    typical_mm: Array
    dry_mm: Array | None
    weeks_over: int
    most_mm: float
    most_from: date


def season_water(crop: str | Crop, weekly: WeeklyWater) -> SeasonWater:
    """Work out the weeks of a full bed.

    Parameters
    ----------
    crop : str or Crop
        What grows.
    weekly : WeeklyWater
        What short grass uses by week.

    Returns
    -------
    SeasonWater
        The weeks against an inch.

    Raises
    ------
    InputProblem
        When FAO-56 has no row for the crop.

    Notes
    -----
    Source: Allen et al. 1998 (FAO-56), equation 56 and table 12: the coefficient of full growth in every week.

    Examples
    --------
    >>> from gardenlib.site import Warmth, WeeklyWater
    >>> warmth = Warmth.from_monthly([(m, 25.0, 12.0) for m in range(1, 13)], latitude=40.0, source="made up")
    >>> weekly = WeeklyWater.from_warmth(warmth, year=2027)
    >>> cabbage, lettuce = (season_water(crop, weekly).typical_mm[26] for crop in ("cabbage_main", "lettuce_leaf"))
    >>> round(float(cabbage / lettuce), 2)  # 1.05 and 1.00 in table 12
    1.05
    """
    plant, notes = as_crop(crop), Notes()
    row = row_of("water_crops", "crop", plant.id)
    if row is None:
        raise InputProblem("water.no_row", crop=plant.name)
    week = 7 * row["kc_full"]
    typical = week * weekly.typical_mm_day
    most = int(np.argmax(typical))
    notes.steps.extend(weekly.steps)
    notes.assumptions.extend(weekly.assumptions)
    notes.say("water.full_grown")
    notes.cite(*weekly.sources, FAO_TABLES)
    notes.step("water.use", "coefficient * grass", {"coefficient": row["kc_full"]}, None, FAO)
    return SeasonWater(
        starts=weekly.starts,
        typical_mm=typical,
        dry_mm=None if weekly.dry_mm_day is None else week * weekly.dry_mm_day,
        weeks_over=int((typical > MM_PER_INCH).sum()),
        most_mm=float(typical[most]),
        most_from=weekly.starts[most],
        **notes.parts(),
    )
