"""Page 01, the folds on zone, day length and warmth, and the paper site walk."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import numpy as np
import pandas as pd

from gardenlib import charts, site
from gardenlib.panels import controls as c
from gardenlib.panels.form import Fields, Form
from gardenlib.panels.more import more, reading
from gardenlib.panels.panel import Spec, note
from gardenlib.units import Quantity, f_to_c
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

BASES_F = (40, 50)


def zone(session: Session) -> w.Widget:
    """Offer the hardiness zone and what it does not tell."""
    return more(session, Said("zone.title"), 3, _ZONE)


def day_length(session: Session) -> w.Widget:
    """Offer the length of the days over the year."""
    return more(session, Said("daylength.title"), 2, _DAYS)


def warmth(session: Session) -> w.Widget:
    """Offer the warmth of a typical year."""
    return more(session, Said("warmth.title"), 4, _WARMTH)


def get_a_file(session: Session) -> w.Widget:
    """Offer how to get a station file."""
    return reading(session, Said("place.get_title"), 2, Said("place.get_about"))


def walk(session: Session) -> w.Widget:
    """Ask what was found on the walk around the site."""
    form = Form(session, Said("walk.about"), _walk_fields, _keep_walk)
    charts.show(form, note(session.voice.say("walk.title")), session.voice)
    return form


# ---- zone -------------------------------------------------------------------------------------


def _zone_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say = session.voice.say
    found = _zone(session)
    if found is None or found.zone is None:
        why = say("place.needs_daily") if found is None else say(found.reason)
        return charts.View(say("zone.finding_none"), None, None, why)
    low = Quantity(found.mean_extreme_min_c, "degC")
    rows = [
        (say("zone.row_zone"), found.zone),
        (say("zone.row_low"), session.voice.quantity(low)),
        (say("zone.row_winters"), str(found.years)),
    ]
    table = pd.DataFrame(rows, columns=[say("zone.column_what"), say("zone.column_value")])
    return charts.View(say("zone.finding", years=found.years, low=low, zone=found.zone), table, None, say("zone.alt"))


def _zone(session: Session) -> Any:
    station = session.place.station
    return None if station is None else site.zone_from_station(station, latitude=session.latitude)


_ZONE = Spec("01.zone", Said("zone.title"), lambda session: {}, _zone_view, intro=Said("zone.first"))


# ---- day length -------------------------------------------------------------------------------


def _days_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say, voice = session.voice.say, session.voice
    day = pd.Timestamp(session.today + timedelta(weeks=values["weeks"]))
    year = pd.date_range(f"{day.year}-01-01", f"{day.year}-12-31")
    hours = site.daylength_hours(session.latitude, year)
    here = float(site.daylength_hours(session.latitude, pd.DatetimeIndex([day]))[0])
    finding = say(
        "daylength.finding",
        day=day.date(),
        hours=Quantity(here, "hours"),
        shortest=Quantity(float(np.min(hours)), "hours"),
    )
    frame = pd.DataFrame({"day": year, "hours": hours})
    chart = charts.day_length(frame, voice=voice, marks=[(day.date(), say("daylength.mark"))])
    return charts.View(finding, None, charts.svg(chart), say("daylength.alt"))


_DAYS = Spec(
    "01.days",
    Said("daylength.title"),
    lambda session: {"weeks": c.whole_number(session.voice.say("daylength.day"), 0, 52, 0)},
    _days_view,
)


# ---- warmth -----------------------------------------------------------------------------------


def _warmth_controls(session: Session) -> dict[str, w.Widget]:
    names = [(session.voice.quantity(Quantity(f_to_c(float(f)), "degC")), f) for f in BASES_F]
    return {"base_f": c.choice(session.voice.say("warmth.base"), names, BASES_F[0])}


def _warmth_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say, voice, year = session.voice.say, session.voice, session.place.warmth
    if year is None:
        return charts.View(say("warmth.missing"), None, None, say("warmth.missing"))
    base_c = f_to_c(float(values["base_f"]))
    total = float(np.sum(year.degree_days(base_c)))
    base = Quantity(base_c, "degC")
    finding = say("warmth.finding", total=Quantity(total, "degC_days"), base=base)
    days = pd.DataFrame({"day": pd.date_range("2001-01-01", "2001-12-31"), "mean_c": year.mean_30_c})
    if year.spread is not None:
        days["low_c"], days["high_c"] = year.spread
    chart = charts.warmth(days, voice=voice, limits=[(base_c, voice.quantity(base), "choice")])
    return charts.View(finding, None, charts.svg(chart), say("warmth.alt"))


_WARMTH = Spec(
    "01.warmth",
    Said("warmth.title"),
    _warmth_controls,
    _warmth_view,
)


# ---- the walk ---------------------------------------------------------------------------------


def _walk_fields(session: Session) -> Fields:
    say, own = session.voice.say, session.plot.site
    yes_no = [(say("walk.not_sure"), ""), (say("walk.yes"), "yes"), (say("walk.no"), "no")]
    return {
        "sun_hours": c.number(say("walk.sun"), 0, 16, own.sun_hours or 0.0),
        "low_spot": c.choice(say("walk.low_spot"), yes_no, own.low_spot or ""),
        "wind_from": c.line(say("walk.wind"), own.wind_from or ""),
        "tap_steps": c.whole_number(say("walk.tap"), 0, 500, own.tap_steps or 0),
    }


def _keep_walk(session: Session, values: Mapping[str, Any]) -> Said:
    session.save_fields("site", **values)
    if values["low_spot"] == "yes" and not session.plot.site.night_offset_c:
        return Said("walk.low_spot_advice")
    if 0 < values["sun_hours"] < 6:
        return Said("walk.shade_advice")
    return Said("page.was_saved")
