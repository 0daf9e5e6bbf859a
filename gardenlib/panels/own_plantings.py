"""The learner's plantings and their days, which pests, harvests and stores are set beside."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from gardenlib.panels.sowing import dates_for
from gardenlib.season.planting_tasks import moved

if TYPE_CHECKING:
    from gardenlib.panels.session import Session
    from gardenlib.plot import Planting, Plot
    from gardenlib.sowing import SowingDates


def own_plantings(session: Session) -> tuple[Planting, ...]:
    """Give the learner's plantings; the class's where the class's crops stand in too."""
    return planted_plot(session).plantings


def planted_plot(session: Session) -> Plot:
    """Give the plot whose plantings count: the class's where the learner has chosen neither crops nor plantings."""
    own = session.plot
    return own if own.plantings or not session.crops_are_stand_in else session.klass.class_plot


def planting_dates(session: Session, crop_id: str, planting: Planting | None, **how: Any) -> SowingDates:
    """Work out a planting's days as the learner put it in; without a planting, the crop's usual ones."""
    if planting is None:
        return dates_for(session, crop_id, **how)
    own = {"season": planting.season, "risk": planting.risk, "started": planting.started}
    return moved(dates_for(session, crop_id, **own), planting.moved_weeks)
