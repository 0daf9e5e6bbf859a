"""Page 07, the plot log: whose season it is, its plantings as planned, and the form for a new line."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from gardenlib import plot
from gardenlib.panels import controls as c
from gardenlib.panels.form import Fields, Form
from gardenlib.panels.sowing import dates_for, seasons
from gardenlib.problems import InputProblem
from gardenlib.season import PlannedDays, measure_of, new_entry, typed_day, typed_number
from gardenlib.season.log import KINDS
from gardenlib.sowing import days_of_weeks
from gardenlib.sowing.windows import Days, PathName, paths_of
from gardenlib.units import in_system
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

_PLANTING, _CROP = "planting ", "crop "


# ---- the season that is logged ---------------------------------------------------------------------


def year_back(day: date) -> date:
    """Give the same day one year before."""
    leap = (day.month, day.day) == (2, 29)
    return day.replace(year=day.year - 1, day=28 if leap else day.day)


def is_last_year(session: Session) -> bool:
    """Tell whether the next season is planned already, while this one is still logged."""
    return session.today < session.season[0]


def log_season(session: Session) -> Days:
    """Give the first and last day of the growing year in which today lies."""
    first, last = session.season
    return (year_back(first), year_back(last)) if is_last_year(session) else (first, last)


def renew(session: Session) -> None:
    """Read the file again: another page may have saved meanwhile, and what it saved must stay."""
    if session.path.exists():
        session.plot = plot.read(session.path)


def crop_named(session: Session, crop_id: str | None) -> str:
    """Name a crop; one that is gone from the class's list keeps its id."""
    return session.crop_name(crop_id) if crop_id in session.all_crop_ids and crop_id else crop_id or ""


def plantings_here(session: Session) -> tuple[plot.Planting, ...]:
    """List the learner's plantings; where there are none, one for each crop."""
    first = seasons(session)[0]
    each = (plot.Planting(id=f"{_CROP}{crop_id}", crop=crop_id, season=first) for crop_id in session.crop_ids)
    return session.plot.plantings or tuple(each)


def planned_here(session: Session) -> list[PlannedDays]:
    """Give the planned days of each planting in the season that is logged; those without a line stay open."""
    logged = {name for line in session.plot.log for name in (line.planting, line.crop)}
    planned = []
    for planting in plantings_here(session):
        crop = session.crop(planting.crop)
        how: PathName = next((path.name for path in paths_of(crop)), "set_out")
        bare = PlannedDays(planting=planting.id, crop=crop, how=how)
        planned.append(_planned(session, planting, bare) if logged & {planting.id, crop.id} else bare)
    return planned


def _planned(session: Session, planting: plot.Planting, bare: PlannedDays) -> PlannedDays:
    how = {"season": planting.season, "risk": planting.risk, "started": planting.started}
    try:
        dates = dates_for(session, planting.crop, **how)
    except InputProblem:
        return bare
    days = dates.set_out or dates.direct_sow
    if days is None:
        return bare
    moved = timedelta(days=days_of_weeks(planting.moved_weeks))
    days = (days[0] + moved, days[1] + moved)
    days = (year_back(days[0]), year_back(days[1])) if is_last_year(session) else days
    return replace(bare, how="set_out" if dates.set_out is not None else "direct_sow", days=days)


def planting_names(session: Session) -> dict[str, str]:
    """Name the plantings by id, each with its bed, and numbered where two read the same."""
    say, seen = session.voice.say, Counter[str]()
    beds = {bed.id: bed.name or bed.id for bed in session.plot.beds}
    names = {}
    for planting in plantings_here(session):
        name = crop_named(session, planting.crop)
        if planting.bed in beds:
            name = say("log.planting", crop=name, bed=beds[planting.bed])
        seen[name] += 1
        names[planting.id] = say("log.planting_again", name=name, n=seen[name]) if seen[name] > 1 else name
    return names


# ---- the form --------------------------------------------------------------------------------------


def line_form(session: Session) -> Form:
    """Ask for one line of the log."""
    form = Form(session, Said("log.about"), _fields, _write, Said("log.button"))
    session.watch(on_change=form.build)
    return form


def _fields(session: Session) -> Fields:
    say = session.voice.say
    plants = [(say("log.no_plant"), "")]
    if session.plot.plantings:
        plants += [(name, f"{_PLANTING}{planting}") for planting, name in planting_names(session).items()]
    known = {planting.crop for planting in session.plot.plantings}
    crops = [crop_id for crop_id in session.crop_ids if crop_id not in known]
    plants += [(session.crop_name(crop_id), f"{_CROP}{crop_id}") for crop_id in crops]
    return {
        "day": c.line(say("log.day"), "", say("log.day_hint", day=session.voice.date(session.today, "MMMd"))),
        "plant": c.choice(say("log.plant"), plants, ""),
        "did": c.choice(say("log.did"), [(say(f"log.did_{kind}"), kind) for kind in KINDS], "watered"),
        "much": c.line(say(f"log.much_{session.voice.units}")),
        "note": c.line(say("log.note")),
    }


def _write(session: Session, values: Mapping[str, Any]) -> Said:
    typed, did = str(values["day"]).strip(), values["did"]
    day = typed_day(typed, what=Said("log.day"), year=session.today.year) if typed else session.today
    renew(session)
    entry = new_entry(
        session.plot.log,
        day=day,
        did=did,
        today=session.today,
        text=str(values["note"]),
        **_plant(session, values["plant"]),
        **_much(session, did, str(values["much"])),
    )
    session.save("log", [line.model_dump(mode="json") for line in (*session.plot.log, entry)])
    return Said("log.saved", {"day": day, "did": Said(f"log.did_{did}"), "n": len(session.plot.log)})


def _plant(session: Session, chosen: str) -> dict[str, Any]:
    if chosen.startswith(_CROP):
        return {"crop": chosen.removeprefix(_CROP)}
    planting = chosen.removeprefix(_PLANTING)
    crop = next((each.crop for each in session.plot.plantings if each.id == planting), None)
    return {} if crop is None else {"planting": planting, "crop": crop}


def _much(session: Session, did: str, typed: str) -> dict[str, Any]:
    value, measure = typed_number(typed, what=Said("log.much")), measure_of(did)
    if value is None:
        return {}
    if measure is None:
        raise InputProblem("log.measure", did=Said(f"log.did_{did}"), value=value)
    if measure == "amount_kg":
        value /= in_system(1.0, "kg", session.voice.units)[0]
    return {measure: value}
