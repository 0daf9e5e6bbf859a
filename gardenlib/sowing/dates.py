"""From a crop and a place's freeze dates to the days on which to sow, harden off, set out and pick."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Literal

from gardenlib.problems import InputProblem
from gardenlib.sowing.ask import Ask, Window
from gardenlib.sowing.cool import cool_window
from gardenlib.sowing.fall_window import fall_window
from gardenlib.sowing.limits import as_crop, checked_risk
from gardenlib.sowing.plants import harden_off, harvest, sow_indoors
from gardenlib.sowing.spring import spring_window
from gardenlib.sowing.windows import (
    Days,
    checked_region,
    paths_of,
)
from gardenlib.tables import Crop
from gardenlib.words import Said
from gardenlib.working import Answer, Notes

if TYPE_CHECKING:
    from gardenlib.site import FreezeDates, Warmth

_SEASONS = {"spring": spring_window, "cool": cool_window, "fall": fall_window}


@dataclass(frozen=True, kw_only=True)
class SowingDates(Answer):
    """When to do what with one crop.

    Parameters
    ----------
    crop : str
        Crop id.
    season : {"spring", "cool", "fall"}
        Part of the year.
    risk : float
        Share of springs in which a harmful night still comes after setting out.
    sow_indoors, harden_off, set_out, direct_sow : tuple of (date, date) or None
        First and last day to sow indoors, to start hardening off, to set out, and to sow outdoors.
    harvest : tuple of (date, date) or None
        First picking of the first planting and of the last; of plants where they are set out, else of seed.
    harvest_from_seed : tuple of (date, date) or None
        The same for seed sown outdoors, where the crop can be started both ways.
    published : tuple of (date, date) or None
        The published weeks as dates, before cold and heat.
    cold_limit : date or None
        The day after which a harmful night comes at most as often as the risk.
    heat_date : date or None
        The day from which it is too warm.
    short_by_days : int or None
        By how many days the season is too short, where nothing is left.
    reason : Said or None
        Why there is no window.
    """

    crop: str
    season: str
    risk: float
    sow_indoors: Days | None = None
    harden_off: Days | None = None
    set_out: Days | None = None
    direct_sow: Days | None = None
    harvest: Days | None = None
    harvest_from_seed: Days | None = None
    published: Days | None = None
    cold_limit: date | None = None
    heat_date: date | None = None
    short_by_days: int | None = None
    reason: Said | None = None


def sowing_dates(
    crop: str | Crop,
    freezes: FreezeDates,
    *,
    year: int,
    risk: float | None = None,
    season: Literal["spring", "cool", "fall"] = "spring",
    warmth: Warmth | None = None,
    garden_opens: date | None = None,
    garden_closes: date | None = None,
    region: str | None = None,
    started: Literal["own", "bought"] = "own",
    hardened: bool = True,
) -> SowingDates:
    """Work out when to sow, harden off, set out and pick a crop at a place.

    Parameters
    ----------
    crop : str or Crop
        A crop id, or a crop that the class added.
    freezes : FreezeDates
        Freeze dates of the place.
    year : int
        Year of the season's spring; the cool season begins at the end of this growing year's heat.
    risk : float, optional
        Share of springs (0 to 1) in which a harmful night may still come; by default 0.5 for hardy and half-hardy
        crops, 0.1 for tender and very tender ones.
    season : {"spring", "cool", "fall"}
        ``cool`` is for places where heat sets the season; it needs `warmth`. ``fall`` counts back from the average
        first freeze; its last day is the safe one.
    warmth : Warmth, optional
        Typical year of the place. Without it heat sets no limit.
    garden_opens, garden_closes : date, optional
        Nothing is planted before the one or ready after the other.
    region : str, optional
        Key of the source whose weeks count, one of `regions()`; by default the typical range of all sources.
    started : {"own", "bought"}
        Whether plants are raised from seed by the class or bought.
    hardened : bool
        Whether plants are hardened off before they are set out.

    Returns
    -------
    SowingDates
        The dates, with the working, what was assumed, and the sources.

    Raises
    ------
    InputProblem
        When the crop, risk, season, region or way of starting is not known, the garden closes before it opens, or
        the cool season is asked for without warmth.

    Notes
    -----
    Two rules, never multiplied: the published weeks count from the date of 32 F at a risk of 0.5; the cold limit is
    the date after which a night at the crop's damage temperature comes with at most the chosen risk.  Hardening off:
    University of Maryland Extension (2023), 1 to 2 weeks.  Growth limits by heat: Maynard and Hochmuth (1997).

    Examples
    --------
    >>> from gardenlib.site import FreezeDates
    >>> here = FreezeDates.typed((4, 15), (10, 15), source="class list", latitude=40.0)
    >>> sowing_dates("cauliflower", here, year=2027).published
    (datetime.date(2027, 3, 25), datetime.date(2027, 4, 1))
    """
    plant = as_crop(crop)
    if season not in _SEASONS:
        raise InputProblem("sowing.season", value=season, known=", ".join(_SEASONS))
    if started not in ("own", "bought"):
        raise InputProblem("sowing.started", value=started)
    if garden_opens is not None and garden_closes is not None and garden_closes <= garden_opens:
        raise InputProblem("sowing.garden_dates", opens=garden_opens, closes=garden_closes)
    ask = Ask(
        plant=plant,
        freezes=freezes,
        year=year,
        risk=checked_risk(risk, plant),
        warmth=warmth,
        garden_opens=garden_opens,
        garden_closes=garden_closes,
        region=checked_region(region),
        hardened=hardened,
    )
    notes = Notes()
    notes.cite(*plant.sources)
    paths = paths_of(plant)
    windows = {path.name: _SEASONS[season](ask, path, notes) for path in paths}
    if not windows:
        windows["direct_sow"] = Window(reason=Said("sowing.not_in_this_season", {"crop": plant.name}))
    main = next((w for w in windows.values() if w.days is not None), next(iter(windows.values())))
    harvests = [harvest(ask, path, windows[path.name], notes) for path in paths]
    set_out = windows["set_out"].days if "set_out" in windows else None
    return SowingDates(
        crop=plant.id,
        season=season,
        risk=ask.risk,
        sow_indoors=sow_indoors(ask, set_out, started, notes, safe=season == "fall"),
        harden_off=harden_off(ask, set_out, notes),
        set_out=set_out,
        direct_sow=windows["direct_sow"].days if "direct_sow" in windows else None,
        harvest=next((found for found in harvests if found is not None), None),
        harvest_from_seed=harvests[1] if len(harvests) == 2 and set_out is not None else None,
        published=main.published,
        cold_limit=main.cold_limit,
        heat_date=main.heat_date,
        short_by_days=main.short_by_days,
        reason=main.reason,
        **notes.parts(),
    )
