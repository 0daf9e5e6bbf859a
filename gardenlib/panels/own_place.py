"""Page 01, the folds of "your place": own dates, own station file, the plot's own nights."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib import site
from gardenlib.learner_place import station_of
from gardenlib.panels import controls as c
from gardenlib.panels.form import Fields, Form
from gardenlib.panels.more import more
from gardenlib.problems import InputProblem
from gardenlib.units import Quantity, in_system
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

MOST_BYTES = 30_000_000
UNITS = {
    "": Said("place.unit_guess"),
    "F": Said("place.unit_f"),
    "C": Said("place.unit_c"),
    "tenths-C": Said("place.unit_tenths"),
}
FILES = ".csv,.dly,.txt"


def own_dates(session: Session) -> w.Widget:
    """Offer to type the freeze dates of a published table."""
    return more(
        session,
        Said("place.own_dates_title"),
        3,
        lambda _: Form(session, Said("place.own_dates_about"), _date_fields, _use_dates),
    )


def own_file(session: Session) -> w.Widget:
    """Offer to read the learner's own station file."""
    return more(
        session,
        Said("place.own_file_title"),
        4,
        lambda _: Form(session, Said("place.own_file_about"), _file_fields, _use_file),
    )


def night_offset(session: Session) -> w.Widget:
    """Offer to say how much colder or warmer the plot is at night than the station."""
    return more(
        session,
        Said("place.offset_title"),
        3,
        lambda _: Form(session, Said("place.offset_about"), _offset_fields, _use_offset),
    )


def thermometer(session: Session) -> w.Widget:
    """Offer to measure the night offset from a thermometer log."""
    return more(
        session, Said("place.log_title"), 4, lambda _: Form(session, Said("place.log_about"), _log_fields, _use_log)
    )


# ---- typed dates ----------------------------------------------------------------------------


def _date_fields(session: Session) -> Fields:
    say, own = session.voice.say, session.plot.site
    hint = say("place.dates_hint")
    return {
        "last": c.line(say("place.last_50"), _typed(session, own.last_freeze_50), hint),
        "first": c.line(say("place.first_50"), _typed(session, own.first_freeze_50), hint),
        "source": c.line(say("place.dates_from"), own.dates_from or ""),
    }


def _typed(session: Session, month_day: tuple[int, int] | None) -> str:
    from datetime import date

    return "" if month_day is None else session.voice.date(date(2001, *month_day), "MMMd")


def _use_dates(session: Session, values: Mapping[str, Any]) -> Said:
    from gardenlib.class_folder import month_day

    if not values["source"].strip():
        raise InputProblem("place.no_source")
    last = month_day(values["last"], what=session.voice.say("place.last_50"))
    first = month_day(values["first"], what=session.voice.say("place.first_50"))
    site.FreezeDates.typed(last, first, source=values["source"], latitude=session.latitude)
    stored = {"last_freeze_50": _stored(last), "first_freeze_50": _stored(first)}
    session.save_fields("site", way="typed", dates_from=values["source"], **stored)
    return Said("place.own_dates_used")


def _stored(month_day: tuple[int, int]) -> str:
    return f"{month_day[0]:02d}-{month_day[1]:02d}"


# ---- a station file -------------------------------------------------------------------------


def _file_fields(session: Session) -> Fields:
    say = session.voice.say
    return {
        "file": w.FileUpload(accept=FILES, multiple=False, description=say("place.own_file")),
        "unit": c.choice(say("place.own_file_unit"), [(say(words), unit) for unit, words in UNITS.items()], ""),
    }


def _use_file(session: Session, values: Mapping[str, Any]) -> Said:
    path = _stored_upload(session, values["file"])
    unit = values["unit"] or None
    station = site.read_station(path, unit=unit, latitude=session.latitude)
    session.save_fields("site", way="file", station_file=str(path.relative_to(session.folder)), station_unit=unit)
    cold_day, cold = station.coldest
    warm_day, warm = station.warmest
    return Said(
        "place.own_file_read",
        {
            "name": path.name,
            "first": station.first_year,
            "last": station.last_year,
            "cold": Quantity(cold, "degC"),
            "cold_day": session.voice.date(cold_day, "yMMMd"),
            "warm": Quantity(warm, "degC"),
            "warm_day": session.voice.date(warm_day, "yMMMd"),
        },
    )


def _stored_upload(session: Session, uploaded: Any) -> Path:
    """Lay an uploaded file in the learner's folder of station files, under a plain name."""
    if not uploaded:
        raise InputProblem("place.no_file")
    upload = uploaded[0]
    if upload["size"] > MOST_BYTES:
        raise InputProblem("place.file_too_large", name=upload["name"], most=MOST_BYTES // 1_000_000)
    name = re.sub(r"[^A-Za-z0-9._-]+", "_", Path(upload["name"]).name).lstrip(".") or "station.csv"
    folder = session.folder / "stations"
    folder.mkdir(exist_ok=True)
    path = folder / name
    path.write_bytes(bytes(upload["content"]))
    return path


# ---- the plot's own nights ------------------------------------------------------------------


def _offset_fields(session: Session) -> Fields:
    say, own = session.voice.say, session.plot.site
    now, _ = in_system(own.night_offset_c or 0.0, "degC_difference", session.voice.units)
    return {
        "offset": c.number(say(f"place.offset_{session.voice.units}"), -20, 20, round(now, 1)),
        "reason": c.line(say("place.offset_reason"), own.night_offset_reason or ""),
    }


def _use_offset(session: Session, values: Mapping[str, Any]) -> Said:
    if values["offset"] and not values["reason"].strip():
        raise InputProblem("place.no_reason")
    _, unit = in_system(0.0, "degC_difference", session.voice.units)
    offset_c = values["offset"] / 1.8 if unit.startswith("degF") else values["offset"]
    session.save_fields("site", night_offset_c=offset_c, night_offset_reason=values["reason"])
    return Said("page.was_saved")


def _log_fields(session: Session) -> Fields:
    say = session.voice.say
    return {"file": w.FileUpload(accept=FILES, multiple=False, description=say("place.log_file"))}


def _use_log(session: Session, values: Mapping[str, Any]) -> Said:
    log = site.read_station(_stored_upload(session, values["file"]), latitude=session.latitude)
    station = station_of(session.klass.sites[session.site_name], session.plot.site, session.folder)
    if station is None:
        raise InputProblem("place.needs_daily")
    found = site.night_offset(log.daily, station)
    session.save_fields(
        "site", night_offset_c=found.offset_c, night_offset_reason=session.voice.say("place.log_reason", n=found.nights)
    )
    return Said(
        "place.log_finding",
        {
            "n": found.nights,
            "offset": Quantity(found.offset_c, "degC_difference"),
            "low": Quantity(found.spread_c.low, "degC_difference"),
            "high": Quantity(found.spread_c.high, "degC_difference"),
        },
    )
