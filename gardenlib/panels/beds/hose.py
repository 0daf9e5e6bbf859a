"""The learner's can, hose and rain gauge, which the fold on water speaks in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.beds import Watering, watering
from gardenlib.beds.can_and_hose import depth_litres
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import bed_here
from gardenlib.panels.panel import Spec
from gardenlib.units import LITRES_PER_GALLON, MM_PER_INCH, Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "03.hose"


@dataclass(frozen=True)
class Hose:
    """What the learner waters with, and the rain of the last seven days."""

    can_litres: float
    bucket_litres: float
    bucket_seconds: int
    rain_mm: float


@dataclass(frozen=True)
class ByHand:
    """An amount of water in words: cans, and minutes of the hose."""

    answer: Watering
    cans: Said
    minutes: Said


def said_depth(session: Session, depth_mm: float) -> str:
    """Write a depth of water: hundredths of an inch, or whole millimetres."""
    voice = session.voice
    return voice.quantity(Quantity(depth_mm, "mm"), 2 if voice.units == "us" else 0)


def _read(session: Session, values: Mapping[str, Any]) -> Hose:
    """Read the controls; their names carry the unit, so that a class which changes units starts afresh."""
    if session.voice.units == "us":
        can, rain = values.get("can_gal", 2.0) * LITRES_PER_GALLON, values.get("rain_in", 0.0) * MM_PER_INCH
        return Hose(can, 5 * LITRES_PER_GALLON, values.get("seconds_us", 60), rain)
    return Hose(values.get("can_l", 9.0), 10.0, values.get("seconds_metric", 30), values.get("rain_mm", 0.0))


def hose_used(session: Session) -> Hose:
    """Give what the learner set last, or usual values."""
    return _read(session, session.kept(ID))


def hose_now(session: Session) -> Hose:
    """Give the usual values, with which the guess is asked: they stay the same after it."""
    return _read(session, {})


def by_hand(session: Session, litres: float) -> ByHand:
    """Turn litres into words about cans and minutes."""
    used, voice = hose_used(session), session.voice
    answer = watering(
        litres, can_litres=used.can_litres, bucket_litres=used.bucket_litres, bucket_seconds=used.bucket_seconds
    )
    cans, minutes = round(answer.cans, 1), round(answer.hose_minutes, 1)
    return ByHand(
        answer=answer,
        cans=Said("water.cans", {"n": 1 if cans == 1 else 2, "x": voice.number(cans)}),
        minutes=Said("water.minutes", {"n": 1 if minutes == 1 else 2, "x": voice.number(minutes)}),
    )


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    usual = hose_now(session)
    bucket = say("water.bucket", bucket=Quantity(usual.bucket_litres, "litres"))
    if session.voice.units == "us":
        return {
            "can_gal": c.number(say("water.can", unit=say("water.unit_us")), 0.5, 7, 2.0),
            "seconds_us": c.whole_number(bucket, 5, 3600, usual.bucket_seconds),
            "rain_in": c.number(say("water.rain", unit=say("water.rain_us")), 0, 20, 0.0, 0.1),
        }
    return {
        "can_l": c.number(say("water.can", unit=say("water.unit_metric")), 1, 30, 9.0),
        "seconds_metric": c.whole_number(bucket, 5, 3600, usual.bucket_seconds),
        "rain_mm": c.number(say("water.rain", unit=say("water.rain_metric")), 0, 500, 0.0, 1),
    }


def _full_can(session: Session, values: Mapping[str, Any]) -> Watering:
    used = _read(session, values)
    return watering(
        used.can_litres,
        can_litres=used.can_litres,
        bucket_litres=used.bucket_litres,
        bucket_seconds=used.bucket_seconds,
    )


def _view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say, voice, used = session.voice.say, session.voice, _read(session, values)
    can, bed = _full_can(session, values), bed_here(session)
    minutes = round(can.hose_minutes, 1)
    said = Said("water.minutes", {"n": 1 if minutes == 1 else 2, "x": voice.number(minutes)})
    flow = Quantity(can.litres_minute, "litres")
    finding = say("water.hose_finding", flow=flow, can=Quantity(used.can_litres, "litres"), minutes=said)
    rows = [
        (say("water.row_flow"), voice.quantity(flow)),
        (say("water.row_inch"), voice.quantity(Quantity(depth_litres(MM_PER_INCH, bed.area_m2), "litres"))),
        (say("water.row_fell"), voice.quantity(Quantity(depth_litres(used.rain_mm, bed.area_m2), "litres"))),
    ]
    table = pd.DataFrame(rows, columns=[say("water.column"), say("water.number")])
    return charts.View(finding, table, None, say("water.hose_alt"))


HOSE = Spec(ID, Said("water.hose_title"), _controls, _view, working=_full_can)
