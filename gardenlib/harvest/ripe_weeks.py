"""In which weeks a planting became ready: over past seasons by warmth, else by the published days."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Literal

import numpy as np

from gardenlib.problems import InputProblem
from gardenlib.sowing import crops_with_base, harvest_window
from gardenlib.sowing.even_days import spread_over_seasons
from gardenlib.sowing.heat_to_ripe import ripening
from gardenlib.sowing.limits import TENDER, as_crop
from gardenlib.sowing.past_heat import NOT_RIPE
from gardenlib.sowing.windows import PathName, paths_of
from gardenlib.units import Quantity
from gardenlib.working import Answer, Notes, Value

if TYPE_CHECKING:
    from gardenlib.site import FreezeDates, Station, Warmth
    from gardenlib.tables import Crop


@dataclass(frozen=True, kw_only=True)
class ReadyWeeks(Answer):
    """When one planting is first ready.

    Parameters
    ----------
    crop : str
        Crop id.
    planted_on : date
        The day of planting.
    by : {"warmth", "days"}
        Whether past seasons or the published days tell it.
    early, late : date or None
        The days by which it was ready in 1 and in 9 past seasons of 10 (the first and last of under 20 seasons); by
        days: after the fewest and the most. None where that did not come before the growing year ended.
    middle : date or None
        The day of the middle season; None by days.
    seasons, not_ripe : int
        Past seasons, and those in which it was not ready before the growing year ended; 0 by days.
    frost_on : date or None
        For a tender crop, the first freeze of the middle fall, where it comes before the late day.
    """

    crop: str
    planted_on: date
    by: Literal["warmth", "days"]
    early: date | None
    middle: date | None
    late: date | None
    seasons: int = 0
    not_ripe: int = 0
    frost_on: date | None = None

    @property
    def spread_days(self) -> int | None:
        """Days from early to late; None where one of them did not come."""
        return None if self.early is None or self.late is None else (self.late - self.early).days


def planted_how(crop: str | Crop) -> PathName:
    """Tell from what a crop's days to harvest count.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.

    Returns
    -------
    {"direct_sow", "set_out"}
        Seed sown in place where it has such days, else plants.

    Raises
    ------
    InputProblem
        When there is no such crop, or nobody has published days for it.

    Notes
    -----
    Source: the keys in ``tables.table("crop_timing_by_source")``.

    Examples
    --------
    >>> planted_how("pea"), planted_how("cabbage_main")
    ('direct_sow', 'set_out')
    """
    plant = as_crop(crop)
    paths = paths_of(plant)[::-1]
    known = [path for path in paths if path.days(plant) is not None]
    if known:
        return known[0].name
    if not paths or plant.days_basis_not_stated is None:
        raise InputProblem("even.no_days", crop=plant.name)
    return paths[0].name


def weeks_ready(
    crop: str | Crop,
    planted_on: date,
    *,
    station: Station | None = None,
    latitude: float | None = None,
    warmth: Warmth | None = None,
    freezes: FreezeDates | None = None,
) -> ReadyWeeks:
    """Tell in which weeks a planting is first ready.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.
    planted_on : date
        Day of sowing in place, or of setting plants out, as `planted_how` says for the crop.
    station : Station, optional
        A daily record. With it, and for a crop with a base temperature, past seasons tell it.
    latitude : float, optional
        Degrees, south negative; the station's own when not given.
    warmth : Warmth, optional
        Typical year of the station; worked out from it when not given.
    freezes : FreezeDates, optional
        Freeze dates of the station; worked out from it when not given.

    Returns
    -------
    ReadyWeeks
        Early, middle and late, with the working.

    Raises
    ------
    InputProblem
        When nobody has published days for the crop, or no season of the record is whole.

    Notes
    -----
    Source: degree days by the single sine, Zalom et al. (1983), UC Leaflet 21373; bases and days by the keys in
    ``tables.table("degree_day_bases")`` and ``tables.table("crop_timing_by_source")``. The total is our own
    calibration, as in `sowing.even_harvest`.

    Examples
    --------
    >>> found = weeks_ready("tomato", date(2027, 5, 20))
    >>> found.by, found.early.isoformat(), found.late.isoformat()
    ('days', '2027-07-29', '2027-08-18')
    """
    plant, notes = as_crop(crop), Notes()
    how = planted_how(plant)
    notes.say("ready.counts_from_set_out" if how == "set_out" else "ready.counts_from_sowing", crop=plant.name)
    if station is None or plant.id not in crops_with_base():
        return _by_days(plant, how, planted_on, notes)
    past = ripening(plant, station, planted_on, latitude=latitude, warmth=warmth, freezes=freezes, notes=notes)
    ripe = past.ripe[:, [past.day(planted_on)]]
    seasons, not_ripe = len(ripe), int((ripe >= NOT_RIPE).sum())
    early, late = (past.date(float(days[0])) for days in spread_over_seasons(ripe))
    if not_ripe * 10 >= seasons:
        late = None  # Between a day and "not ripe" there is no day.
    middle = past.date(float(np.median(ripe)))
    given: dict[str, Value] = {"planted": planted_on, "total": Quantity(past.total_c, "degC_days")}
    rule = "first day with degree_days >= total, middle of all seasons"
    notes.step("ready.ripe", rule, given, middle, "common_practice")
    frost = past.first_freeze if plant.hardiness in TENDER else None
    return ReadyWeeks(
        crop=plant.id,
        planted_on=planted_on,
        by="warmth",
        early=early,
        middle=middle,
        late=late,
        seasons=seasons,
        not_ripe=not_ripe,
        frost_on=frost if frost is not None and (late is None or frost < late) else None,
        **notes.parts(),
    )


def _by_days(plant: Crop, how: PathName, planted_on: date, notes: Notes) -> ReadyWeeks:
    """Count the published days from the day of planting."""
    path = next(path for path in paths_of(plant) if path.name == how)
    days = path.days(plant)
    if days is None:
        days = plant.days_basis_not_stated
        notes.say("sowing.days_basis_not_stated", crop=plant.name)
    assert days is not None  # noqa: S101  (planted_how has refused crops without days)
    if days.status == "memory":
        notes.say("sowing.days_unchecked", crop=plant.name)
    early, late = harvest_window((planted_on, planted_on), days.typical)
    given: dict[str, Value] = {"planted": planted_on, "days": days.typical}
    notes.step("ready.first", "planted + fewest days", given, early, days.sources[0])
    notes.step("ready.last", "planted + most days", given, late, days.sources[0])
    notes.cite(*days.sources)
    notes.say("ready.by_days", crop=plant.name)
    return ReadyWeeks(
        crop=plant.id, planted_on=planted_on, by="days", early=early, middle=None, late=late, **notes.parts()
    )
