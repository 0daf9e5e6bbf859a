"""Inside the fold on compost: the last day for raw manure before a crop's harvest."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.panel import Spec
from gardenlib.panels.sowing import dates_for
from gardenlib.problems import InputProblem
from gardenlib.soil import ManureWait, manure_wait, soil_touches
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


# ---- raw manure ------------------------------------------------------------------------------------


def _manure_controls(session: Session) -> dict[str, w.Widget]:
    ids = session.crops_own_first
    names = [(session.crop_name(crop), crop) for crop in ids]
    return {"crop": c.choice(session.voice.say("compost.manure_crop"), names, ids[0])}


def _first_harvest(session: Session, crop: str) -> date:
    """Take the first day of picking from the learner's own dates; without one no day for manure is told."""
    dates = dates_for(session, crop)
    spans = [span for span in (dates.harvest, dates.harvest_from_seed) if span is not None]
    if not spans:
        raise InputProblem("compost.no_harvest", crop=session.crop_name(crop))
    return min(span[0] for span in spans)


def _manure(session: Session, values: Mapping[str, Any]) -> ManureWait:
    crop = values["crop"]
    return manure_wait(_first_harvest(session, crop), touches_soil=soil_touches(crop))


def manure_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show the last day on which raw manure may be dug in for the crop's first harvest."""
    voice, say, wait = session.voice, session.voice.say, _manure(session, values)
    day = voice.date(wait.latest, "yMMMMd")
    past = wait.latest < session.today
    key = "compost.manure_past" if past else "compost.manure_finding"
    rows = [
        (say("compost.manure_row_harvest"), voice.date(_first_harvest(session, values["crop"]), "yMMMMd")),
        (say("compost.manure_row_wait"), voice.value(Quantity(wait.days, "days"))),
        (say("compost.manure_row_latest"), day),
    ]
    table = pd.DataFrame(rows, columns=[say("compost.manure_column_what"), say("compost.manure_column_when")])
    finding = say(key, crop=session.crop_name(values["crop"]), day=day)
    return charts.View(finding, table, None, say("compost.manure_alt"))


def _manure_notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    crop = session.crop_name(values["crop"])
    where = Said("compost.touches" if soil_touches(values["crop"]) else "compost.apart", {"crop": crop})
    return [where, Said("compost.in_fall"), *_manure(session, values).assumptions]


MANURE = Spec(
    "02.compost.manure",
    Said("compost.manure_title"),
    _manure_controls,
    manure_view,
    intro=Said("compost.manure_title"),
    caution=Said("compost.caution"),
    working=_manure,
    notes=_manure_notes,
)


# ---- the check -------------------------------------------------------------------------------------


def _harvest(session: Session) -> date:
    return session.day_in_season((9, 1) if session.latitude >= 0 else (3, 1))


def _replies(session: Session) -> list[Reply]:
    harvest = _harvest(session)
    touched, apart = (manure_wait(harvest, touches_soil=touches) for touches in (True, False))
    wait = {"wait": Quantity(touched.days, "days")}
    days = {"right": touched.latest, "apart": apart.latest, "same": harvest}
    words = {name: Said("compost.check_day", {"day": day}) for name, day in days.items()}
    return [
        Reply("apart", words["apart"], False, Said("compost.check_apart_reply")),
        Reply("right", words["right"], True, Said("compost.check_right_reply", wait)),
        Reply("same", words["same"], False, Said("compost.check_same_reply", wait)),
    ]


WAIT = Check(
    "02.compost.check1",
    lambda session: Said("compost.check_question", {"harvest": _harvest(session)}),
    _replies,
)
