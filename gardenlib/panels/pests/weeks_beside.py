"""What stands beside a pest's weeks: each event as a row of the table, and the learner's plantings."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pandas as pd

from gardenlib import charts, tables
from gardenlib.panels.own_plantings import own_plantings, planting_dates
from gardenlib.panels.sowing import window
from gardenlib.pests import EventWeeks, Forecast, attacks
from gardenlib.words import Voice

if TYPE_CHECKING:
    from gardenlib.panels.session import Session
    from gardenlib.plot import Planting


def weeks_table(found: Forecast, voice: Voice) -> pd.DataFrame:
    """Write one row an event, with every source and how it is counted."""
    return pd.DataFrame([_row(week, found, voice) for week in found.events])


def _row(week: EventWeeks, found: Forecast, voice: Voice) -> dict[str, str]:
    say, never = voice.say, voice.say("pests.not_in_season")
    this_year = voice.say("pests.no_record" if found.until is None else "pests.no_day")
    return {
        say("pests.column_event"): say(f"pest_event.{week.event.event}"),
        say("pests.column_early"): _day(week.early, never, voice),
        say("pests.column_middle"): _day(week.middle, never, voice),
        say("pests.column_late"): _day(week.late, never, voice),
        say("pests.column_now"): _day(week.reached, this_year, voice),
        say("pests.column_source"): "; ".join(tables.source(key).citation.split(",")[0] for key in week.event.sources),
        say("pests.column_how"): say(f"pests.how_{week.event.mapping}"),
    }


def _day(day: date | None, without: str, voice: Voice) -> str:
    return without if day is None else voice.date(day, "MMMd")


def plantings_beside(session: Session, pest: str) -> list[charts.Planting]:
    """Give the stretch in the bed of each planting of the learner's that the pest goes for."""
    planted = own_plantings(session)
    stands = []
    for crop_id in dict.fromkeys([*session.crop_ids, *(planting.crop for planting in planted)]):
        if not attacks(pest, session.crop(crop_id)):
            continue
        own: list[Planting | None] = [one for one in planted if one.crop == crop_id]
        for planting in own or [None]:
            dates = planting_dates(session, crop_id, planting)
            out = window(dates)
            if out is not None and dates.harvest is not None:
                stands.append(charts.Planting(session.crop_name(crop_id), out[0], dates.harvest[1]))
    return list(dict.fromkeys(stands))
