"""The learner's plantings of one crop, their harvests, and what they give against the need."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from gardenlib.harvest import Further, HouseholdPlants, Stand, Supply, picking_days, weekly_supply
from gardenlib.harvest.figures import is_picked_once
from gardenlib.panels.own_plantings import own_plantings, planting_dates
from gardenlib.panels.sowing import FREEZE_F, dates_for, seasons, window
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session
    from gardenlib.sowing import SowingDates

BESIDE = {"need.again", "need.again_some", "need.next_year"}


@dataclass(frozen=True)
class OwnSupply:
    """The weeks, or why there are none; which plants were counted; what must be read beside them, and what may wait."""

    found: Supply | None
    without: Said
    planted: Said
    notes: tuple[Said, ...]
    taken: tuple[Said, ...]


def own_supply(session: Session, need: HouseholdPlants, values: Mapping[str, Any], keeps_weeks: int) -> OwnSupply:
    """Set the learner's plantings of a crop against what is eaten.

    Parameters
    ----------
    session : Session
        The page's session.
    need : HouseholdPlants
        The plants that the table needs.
    values : mapping
        ``crop``, ``servings`` a week for each person, and ``weeks``.
    keeps_weeks : int
        Whole weeks that the harvest keeps after the week of picking.

    Returns
    -------
    OwnSupply
        The weeks; without a harvest in the season, a sentence.
    """
    crop_id, name = values["crop"], session.crop_name(values["crop"])
    own = [planting for planting in own_plantings(session) if planting.crop == crop_id and planting.plants]
    plants = sum(planting.plants or 0 for planting in own) or int(need.plants.high)
    ways = [(p.plants or 0, planting_dates(session, crop_id, p)) for p in own] or [
        (plants, dates_for(session, crop_id))
    ]
    stands = [one for n, dates in ways if (one := _stand(session, need, n, keeps_weeks, dates)) is not None]
    planted = Said(_counted(session) if own else "much.planted_stand_in", {"n": plants, "crop": name})
    if not stands:
        return OwnSupply(None, Said("much.no_harvest", {"crop": name}), planted, (), ())
    eaten = need.need_servings / values["weeks"]
    begins = min(stand.first for stand in stands)
    found = weekly_supply(
        stands,
        eaten,
        session.season,
        need_from=begins,
        need_weeks=values["weeks"],
        further=_further(session, need, plants, keeps_weeks),
    )
    notes = [said for said in found.assumptions if said.key in BESIDE]
    after = int(((found.table["low"] > 0) & (found.table["need"] == 0)).sum())
    notes += [Said("much.after", {"n": after})] if after else []
    weeks = session.crop(crop_id).harvest_wk
    once = is_picked_once(crop_id)
    if not once and weeks is not None and weeks.status == "memory":
        notes.append(Said("much.weeks_unchecked", {"crop": name, "weeks": weeks.typical}))
    return OwnSupply(found, planted, planted, tuple(notes), (Said("much.once"),) if once else ())


def _counted(session: Session) -> str:
    """Name the sentence on plants that were counted: the learner's, or the class's."""
    return "much.planted" if session.plot.plantings else "much.planted_class"


def _stand(session: Session, need: HouseholdPlants, plants: int, keeps_weeks: int, dates: SowingDates) -> Stand | None:
    """Give one planting's harvest, if it has one in the season."""
    if dates.harvest is None:
        return None
    crop = session.crop(need.crop)
    weeks = None if crop.harvest_wk is None else crop.harvest_wk.typical
    picked = picking_days(crop, *dates.harvest, picked_weeks=weeks, ends=_ends(session, need.crop))
    return None if picked is None else Stand(need.servings_from(plants), *picked, keeps_weeks)


def _ends(session: Session, crop_id: str) -> date | None:
    """Give the day by which picking ends: the garden closes or, for a tender crop, it freezes."""
    freeze = session.freezes.date("fall", FREEZE_F, 0.5, year=session.year)
    tender = session.crop(crop_id).hardiness in {"tender", "very tender"}
    days = [day for day in (session.closes, freeze if tender else None) if day is not None]
    return min(days, default=None)


def _further(session: Session, need: HouseholdPlants, plants: int, keeps_weeks: int) -> list[Further]:
    """List the windows, from today on, in which the same planting could be put in once more."""
    found = []
    for season in (seasons(session)[0], "fall"):
        dates = dates_for(session, need.crop, season=season)
        out, stand = window(dates), _stand(session, need, plants, keeps_weeks, dates)
        if out is not None and stand is not None and out[1] >= session.today:
            found.append(Further(*out, stand, not_before=session.today))
    return found
