"""Page 03, the fold on water: how much, how often, with this can and this hose."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.beds import WaterNeed, water_need, watering
from gardenlib.beds.can_and_hose import DRIP_LITRES_HOUR_M, DRIP_SAID, drip_minutes
from gardenlib.beds.stature import practice_m
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import bed_here, stands_in
from gardenlib.panels.beds.hose import HOSE, by_hand, hose_now, hose_used, said_depth
from gardenlib.panels.beds.water_checks import CHECKS
from gardenlib.panels.beds.water_year import SEASON
from gardenlib.panels.beds.weather import et_of, thirsty_crops, weathers, weekly_of
from gardenlib.panels.check import CheckBox
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "03.water"


def fold(session: Session) -> w.Widget:
    """Offer how much water a bed needs, and how often."""
    return more(session, Said("water.title"), 8, _inside)


def _inside(session: Session) -> w.Widget:
    need = Panel(session, _SPEC)
    session.watch(on_saved=need.redraw)
    checks = [CheckBox(session, check) for check in CHECKS]
    return w.VBox([need, Panel(session, HOSE), checks[1], checks[2], Panel(session, SEASON), checks[0]])


# ---- how much, how often ---------------------------------------------------------------------------


def _controls(session: Session) -> dict[str, w.Widget]:
    say, ids = session.voice.say, thirsty_crops(session)
    shown, usual = weathers(session, weekly_of(session))
    stages = [
        (say("water.stage_unsprouted"), "unsprouted"),
        (say("water.stage_just_planted"), "just_planted"),
        (say("water.stage_settled"), "settled"),
    ]
    return {
        "stage": c.choice(say("water.stage"), stages, "settled"),
        "crop": c.choice(say("water.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "weather": c.choice(say("water.weather"), shown, usual),
    }


def _need(session: Session, values: Mapping[str, Any]) -> WaterNeed:
    bed = bed_here(session)
    return water_need(
        session.crop(values["crop"]),
        bed.area_m2,
        et_of(session, values["weather"], weekly_of(session)),
        rain_mm=hose_used(session).rain_mm,
        stage=values["stage"],
        texture=session.plot.soil.texture or None,
        bed_depth_m=bed.depth_m,
    )


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Say the water in cans and minutes first, then in litres and drip."""
    say, need = session.voice.say, _need(session, values)
    hand = by_hand(session, need.litres)
    name, bed = session.crop_name(values["crop"]), bed_here(session)
    days = Said("water.days", {"n": need.every_days or 0})
    ways = {"cans": hand.cans, "minutes": hand.minutes}
    if need.every_days is None:
        finding = say("water.finding_seeds", **ways)
    elif need.litres == 0:
        finding = say("water.finding_rain", days=days)
    elif need.times_a_day > 1:
        finding = say("water.finding_often", times=need.times_a_day, **ways)
    else:
        finding = say("water.finding", each=Said("water.each", {"n": need.every_days}), **ways)
    used = hose_used(session)
    # Lines as far apart as the fold on what to get counts them: each waters its own strip.
    apart_m = practice_m("drip_apart")
    drip = drip_minutes(need.depth_mm, apart_m, DRIP_LITRES_HOUR_M)
    flow, line = DRIP_SAID[session.voice.units]
    given = {"flow": Quantity(flow, "litres"), "length": Quantity(line, "m"), "apart": Quantity(apart_m * 100, "cm")}
    rows: list[tuple[str, str]] = [
        (say("water.row_can", can=Quantity(used.can_litres, "litres")), session.voice.number(hand.answer.cans)),
        (say("water.row_hose"), session.voice.number(hand.answer.hose_minutes)),
        (say("water.row_water", area=Quantity(bed.area_m2, "m2")), _say_litres(session, need.litres)),
        (say("water.row_drip", **given), session.voice.number(drip, 0)),
        (say("water.row_depth"), said_depth(session, need.depth_mm)),
    ]
    if need.use_mm_week is not None:
        use, rain = said_depth(session, need.use_mm_week), said_depth(session, need.rain_counted_mm)
        rows += [(say("water.row_week"), use), (say("water.row_rain"), rain)]
    table = pd.DataFrame(rows, columns=[say("water.column"), say("water.number")])
    return charts.View(f"{finding} {say('water.finger')}", table, None, say("water.alt", crop=name))


def _say_litres(session: Session, litres: float) -> str:
    return session.voice.quantity(Quantity(litres, "litres"))


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    """Tell when and where to water, then what was assumed."""
    told = [Said("water.morning"), Said("water.whole_plot"), *stands_in(session)]
    on, off = session.klass.water_on, session.klass.water_off
    if on and off:
        told.append(Said("water.water_on", {"on": session.day_in_season(on), "off": session.day_in_season(off)}))
    if values["weather"].startswith("day"):
        told.append(Said("water.no_record"))
    return [*told, *_need(session, values).assumptions]


def _guessed(session: Session) -> tuple[str, int]:
    """Take the learner's first crop in the thirstiest of the weathers to choose from, without rain: name, minutes."""
    weekly = weekly_of(session)
    warm = max(et_of(session, value, weekly) for _, value in weathers(session, weekly)[0])
    crop_id, bed = thirsty_crops(session)[0], bed_here(session)
    need = water_need(session.crop(crop_id), bed.area_m2, warm)
    used = hose_now(session)
    hand = watering(need.litres_week or 0, bucket_litres=used.bucket_litres, bucket_seconds=used.bucket_seconds)
    return session.crop_name(crop_id), max(round(hand.hose_minutes), 3)


def _question(session: Session) -> Said:
    bed, used = bed_here(session), hose_now(session)
    said = {"name": bed.name, "length": Quantity(bed.length_m, "m"), "width": Quantity(bed.width_m, "m")}
    bucket = Quantity(used.bucket_litres, "litres")
    return Said("water.question", {**said, "crop": _guessed(session)[0], "bucket": bucket, "n": used.bucket_seconds})


def _options(session: Session) -> list[tuple[str, Said]]:
    minutes = _guessed(session)[1]
    sizes = {"third": round(minutes / 3), "week": minutes, "triple": minutes * 3}
    return [(value, Said("water.option_short", {"n": n})) for value, n in sizes.items()]


_SPEC = Spec(
    ID,
    Said("water.title"),
    _controls,
    view,
    guess=Guess(
        "03.water.guess",
        _question,
        _options,
        lambda session: Said("water.truth", {"n": _guessed(session)[1]}),
    ),
    working=_need,
    notes=_notes,
    intro=Said("water.intro"),
)
