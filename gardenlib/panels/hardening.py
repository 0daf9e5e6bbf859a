"""Page 04, in the fold on cold: hardening off, day by day."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.panel import Spec, note
from gardenlib.panels.sowing import dates_for
from gardenlib.sowing import HardeningPlan, hardening_plan
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

STAND_IN = "cabbage_main"
USUAL_DAYS, CHECK_DAYS = 10, 7


def _controls(session: Session) -> dict[str, w.Widget]:
    ids = [i for i in session.crop_ids if dates_for(session, i).set_out is not None] or [STAND_IN]
    say = session.voice.say
    return {
        "crop": c.choice(say("cold.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "days": c.whole_number(say("harden.days"), 3, 14, USUAL_DAYS),
    }


def _plan(session: Session, values: Mapping[str, Any]) -> HardeningPlan | Said:
    out = dates_for(session, values["crop"]).set_out
    crop = session.crop(values["crop"])
    return (
        Said("harden.no_day", {"crop": crop.name}) if out is None else hardening_plan(crop, out[0], days=values["days"])
    )


def _view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show what to do on each day before setting out."""
    say, voice = session.voice.say, session.voice
    plan = _plan(session, values)
    if isinstance(plan, Said):
        return note(say(plan))
    name, last = session.crop_name(values["crop"]), len(plan.table) - 1
    days: list[Any] = list(plan.table.itertuples())
    rows = [
        {
            say("harden.column_day"): voice.date(row.day, "MMMd"),
            say("harden.column_hours"): row.hours_outside,
            say("harden.column_light"): say("harden.set_out" if n == last else f"harden.light.{row.light}"),
            say("harden.column_night"): say(f"harden.night.{row.night}"),
        }
        for n, row in enumerate(days)
    ]
    given = {
        "crop": name,
        "start": voice.date(plan.table["day"].iloc[0], "MMMd"),
        "out": voice.date(plan.set_out, "MMMd"),
        "temp": Quantity(plan.night_above_c, "degC"),
    }
    finding = say("harden.finding" if plan.night_above_c > 0 else "harden.finding_freeze", **given)
    return charts.View(finding, pd.DataFrame(rows), None, say("harden.alt", crop=name))


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    plan = _plan(session, values)
    return [] if isinstance(plan, Said) else list(plan.assumptions)


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    plan = _plan(session, values)
    return Answer(assumptions=(plan,)) if isinstance(plan, Said) else plan


SPEC = Spec(
    "04.harden",
    Said("harden.title"),
    _controls,
    _view,
    working=_working,
    notes=_notes,
    intro=Said("harden.title"),
    caution=Said("harden.caution"),
)


# ---- the check --------------------------------------------------------------------------------


def _out_day(session: Session) -> date:
    days = (dates_for(session, crop_id).set_out for crop_id in (*session.crop_ids, STAND_IN))
    return next((out[0] for out in days if out is not None), session.season[0])


def _check2_replies(session: Session) -> list[Reply]:
    out = _out_day(session)
    cases = [
        (-CHECK_DAYS, "right", Said("cold.check2_right")),
        (0, "none", Said("cold.check2_none")),
        (CHECK_DAYS, "forward", Said("cold.check2_forward")),
    ]
    return [
        Reply(key, Said("calendar.day", {"day": out + timedelta(days=n)}), key == "right", reply)
        for n, key, reply in cases
    ]


CHECK = Check(
    "04.cold.check2",
    lambda session: Said("cold.check2_question", {"out": _out_day(session), "days": CHECK_DAYS}),
    _check2_replies,
)
