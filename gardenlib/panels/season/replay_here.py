"""The learner's plan, replayed over the past seasons of the learner's place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

from gardenlib.panels.own_plantings import own_plantings
from gardenlib.panels.sowing import asked, seasons
from gardenlib.plot import Planting
from gardenlib.problems import InputProblem
from gardenlib.season import PastWeather, PlannedPlanting, ReplayCounts, plan_dates, replay_counts, replay_planned
from gardenlib.words import Said

if TYPE_CHECKING:
    from collections.abc import Sequence

    import pandas as pd

    from gardenlib.panels.session import Session
    from gardenlib.site import Station
    from gardenlib.words import Voice


ALL = ""
_WORST = ("hurt", "late", "worked")
# What was reckoned of a record stays as long as the record does.
_KEPT: WeakKeyDictionary[Station, PastWeather] = WeakKeyDictionary()


@dataclass(frozen=True)
class Replayed:
    """A plan and how it went: as `season.plan_dates` and `season.replay` give them."""

    planned: tuple[PlannedPlanting, ...]
    table: pd.DataFrame

    def one(self, planting: str) -> PlannedPlanting:
        """Find a planting by its id."""
        return next(one for one in self.planned if one.id == planting)


def plantings_here(session: Session) -> tuple[tuple[Planting, ...], Said | None]:
    """Give the plantings to replay, and what is said where they are not the learner's own.

    Without plantings of their own learners see their crops, one planting each; without crops the class's plan.
    """
    if planted := own_plantings(session):
        return planted, None if session.plot.plantings else Said("replay.class_plan")
    season = seasons(session)[0]
    made = tuple(Planting(id=f"planting-{n}", crop=i, season=season) for n, i in enumerate(session.crop_ids, 1))
    return made, Said("replay.from_crops")


def weather_here(session: Session) -> PastWeather:
    """Give the past seasons of the learner's place, or say what is lacking."""
    place = session.place
    if session.laid_out is None or place.warmth is None or place.station is None:
        raise InputProblem("season.no_record")
    kept = _KEPT.get(place.station)
    if kept is None or (kept.latitude, kept.night_offset_c) != (session.latitude, place.night_offset_c):
        offset = place.night_offset_c
        kept = PastWeather(
            session.laid_out, place.warmth, session.latitude, night_offset_c=offset, name=place.station.name
        )
        _KEPT[place.station] = kept
    return kept


def replay_here(session: Session, plantings: Sequence[Planting], weather: PastWeather | None = None) -> Replayed:
    """Replay some plantings at the learner's place."""
    weather = weather_here(session) if weather is None else weather
    plot = session.plot.model_copy(update={"plantings": tuple(plantings)})
    crops = {one.crop: session.crop(one.crop) for one in plantings}
    planned = plan_dates(plot, session.freezes, year=session.year, crops=crops, **asked(session))
    return Replayed(planned, replay_planned(planned, weather, year=session.year))


def went(table: pd.DataFrame, planting: str) -> dict[int, str]:
    """Tell how each season went for a planting, or for all (an empty id): ``worked``, ``hurt`` or ``late``."""
    rows = table if not planting else table.loc[(table["planting"] == planting).to_numpy()]
    rows = rows.loc[rows["worked"].notna().to_numpy()]
    found: dict[int, str] = {}
    columns = (rows[name].to_numpy() for name in ("year", "worked", "cold_nights"))
    for year, worked, cold in zip(*columns, strict=True):
        sort = "worked" if worked else "hurt" if cold > 0 else "late"
        found[int(year)] = min(sort, found.get(int(year), sort), key=_WORST.index)
    return found


def plantings_offered(session: Session) -> list[tuple[str, str]]:
    """List the plantings by name; a crop planted twice is numbered."""
    names: dict[str, int] = {}
    offered = []
    for one in plantings_here(session)[0]:
        names[one.crop] = names.get(one.crop, 0) + 1
        name = session.crop_name(one.crop)
        again = names[one.crop] > 1
        offered.append((session.voice.say("replay.again", crop=name, n=names[one.crop]) if again else name, one.id))
    return offered


def counts(replayed: Replayed, planting: str = ALL) -> ReplayCounts:
    """Count for one planting, or for all."""
    return replay_counts(replayed.table, replayed.planned, planting=planting or None)


def of(voice: Voice, worked: int, seasons: int) -> str:
    """Write a count of seasons."""
    return voice.say("replay.of", n=seasons, worked=worked)


def beside(found: ReplayCounts, crop: str, *, watered: bool) -> list[Said]:
    """Say what stands beside the verdict of one planting and does not count."""
    told = []
    if found.heat_days is not None:
        told.append(Said("replay.heat", {"n": round(found.heat_days), "crop": crop}))
    if found.bolt_seasons is not None:
        told.append(Said("replay.bolts", {"n": found.seasons, "hit": found.bolt_seasons}))
    if watered:
        told.append(Said("replay.watered"))
    elif found.dry_days is None:
        told.append(Said("replay.dry_unknown"))
    else:
        told.append(Said("replay.dry", {"n": round(found.dry_days)}))
    if found.pests:
        told.append(Said("replay.pests", {"n": found.pests}))
    if found.kg is not None:
        told.append(Said("replay.kg", {"kg": found.kg}))
    return told
