"""The weather that the fold on water reckons with: months of the learner's place, or three kinds of day."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING

from gardenlib.beds import has_water_row
from gardenlib.site import Station, WeeklyWater, reference_et_mm
from gardenlib.units import Quantity

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

DAYS_C = {"cool": (8.0, 18.0), "mild": (14.0, 26.0), "hot": (20.0, 34.0)}


@lru_cache(maxsize=4)
def _of_station(station: Station, latitude: float, year: int) -> WeeklyWater:
    """Keep the weeks of a record: they are asked for at every turn of a control."""
    return WeeklyWater.from_daily(station.daily, latitude, year=year)


def weekly_of(session: Session) -> WeeklyWater | None:
    """Give the weeks of the learner's place: from the record, else from the typical year, else None."""
    place = session.place
    if place.station is not None:
        return _of_station(place.station, session.latitude, session.year)
    return None if place.warmth is None else WeeklyWater.from_warmth(place.warmth, year=session.year)


def weathers(session: Session, weekly: WeeklyWater | None) -> tuple[list[tuple[str, str]], str]:
    """List the weathers to choose from, and the usual one."""
    say, voice = session.voice.say, session.voice
    if weekly is None:
        ends = {name: [Quantity(t, "degC") for t in temps] for name, temps in DAYS_C.items()}
        shown = [
            (say("water.weather_cool", low=ends["cool"][0], high=ends["cool"][1]), "day cool"),
            (say("water.weather_mild", low=ends["mild"][0], high=ends["mild"][1]), "day mild"),
            (say("water.weather_hot", low=ends["hot"][0], high=ends["hot"][1]), "day hot"),
        ]
        return shown, "day mild"
    first, last = session.opens or session.season[0], session.closes or session.season[1]
    months = list(dict.fromkeys(day.month for day in weekly.starts if first <= day <= last))
    # A class whose closing day lies before its opening day is told so elsewhere; here all months stay on offer.
    months = months or sorted({day.month for day in weekly.starts})
    named = [(say("water.weather_month", month=voice.month(date(2001, m, 1))), f"month {m}") for m in months]
    now = session.today.month
    return named, f"month {now if now in months else max(months, key=weekly.month_mm_day)}"


def et_of(session: Session, weather: str, weekly: WeeklyWater | None) -> float:
    """Give what short grass uses in the chosen weather, millimetres a day."""
    kind, _, name = weather.partition(" ")
    if kind == "month" and weekly is not None:
        return weekly.month_mm_day(int(name))
    low, high = DAYS_C.get(name, DAYS_C["mild"])
    midsummer = date(2001, 7 if session.latitude >= 0 else 1, 15)
    return float(reference_et_mm(low, high, session.latitude, midsummer))


def thirsty_crops(session: Session) -> list[str]:
    """List the crops that have a row in the tables of water, the learner's first."""
    ids = session.crops_own_first
    return [i for i in ids if has_water_row(session.crop(i))]
