"""Page 06, the fold on why stored crops wilt: the air of the store, and the breath of the crop."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts import theme
from gardenlib.charts.few_bars import few_bars
from gardenlib.harvest import Wilting, breathing, readable_days, storage_lives, wilting
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.harvest.store_controls import temp_c
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, f_to_c
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "06.air"
TYPED = {"us": (24, 110, 39), "metric": (-4, 43, 4)}
CELLAR_C, CELLAR_PCT, ROOM_C = 4.0, 90.0, 20.0
SHOWN = (98, 95, 90, 80, 60)
SOURCE = "davis_broccoli"


def fold(session: Session) -> w.Widget:
    """Offer why stored crops wilt."""
    return more(session, Said("air.title"), 6, _SPEC, _CHECK, _BREATH)


# ---- the air ---------------------------------------------------------------------------------------


def _controls(session: Session) -> dict[str, w.Widget]:
    say, units = session.voice.say, session.voice.units
    low, high, first = TYPED[units]
    return {
        f"temp_{units}": c.number(say(f"air.temp_{units}"), low, high, first, 1),
        "humidity": c.whole_number(say("air.humidity"), 0, 100, round(CELLAR_PCT)),
        "days": c.whole_number(say("air.days"), 1, 365, 90),
    }


def _found(session: Session, values: Mapping[str, Any], humidity: float | None = None) -> Wilting:
    now = values["humidity"] if humidity is None else humidity
    return wilting(temp_c(values), now, values["days"], room_c=ROOM_C)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Say how strongly the air dries, and what white cabbage would lose."""
    say, voice, found = session.voice.say, session.voice, _found(session, values)
    deficit = voice.quantity(Quantity(found.deficit_pa, "Pa"), 0)
    if found.cabbage_loss_pct is None:
        finding = say("air.finding_plain", deficit=deficit, n=values["days"])
    else:
        loss = voice.number(found.cabbage_loss_pct)
        finding = say("air.finding_loss", deficit=deficit, n=values["days"], loss=loss)
    lines, taken = [], {}
    for humidity in sorted({*SHOWN, values["humidity"]}, reverse=True):
        one = _found(session, values, humidity)
        taken[str(humidity)] = one.deficit_pa
        loss = say("air.no_loss") if one.cabbage_loss_pct is None else voice.number(one.cabbage_loss_pct)
        lines.append((humidity, voice.quantity(Quantity(one.deficit_pa, "Pa"), 0), loss))
    table = pd.DataFrame(lines, columns=[say(f"air.column_{part}") for part in ("humidity", "deficit", "loss")])
    numbers = [voice.number(pa, 0) for pa in taken.values()]
    drawn = few_bars([*taken.values()], numbers, [*taken], axis=say("air.axis"), hue=theme.INK)
    return charts.View(finding, table, charts.svg(drawn), say("air.alt"))


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    found = _found(session, values)
    reads = session.voice.number(found.warmed_humidity_pct, 0)
    return [Said("air.warm_room", {"room": Quantity(ROOM_C, "degC"), "humidity": reads}), *found.assumptions]


def _truth(session: Session) -> Said:
    found = wilting(CELLAR_C, CELLAR_PCT, room_c=ROOM_C)
    return Said("air.truth", {"n": round(found.warmed_humidity_pct)})


_SPEC = Spec(
    ID,
    Said("air.title"),
    _controls,
    view,
    guess=Guess(
        "06.air.guess",
        lambda session: Said("air.question", {"cellar": Quantity(CELLAR_C, "degC"), "room": Quantity(ROOM_C, "degC")}),
        lambda session: [
            ("third", Said("air.option_third")),
            ("same", Said("air.option_same")),
            ("most", Said("air.option_most")),
        ],
        _truth,
    ),
    working=_found,
    notes=_notes,
)


# ---- the breath ------------------------------------------------------------------------------------


def _breath_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say, voice = session.voice.say, session.voice
    lines = []
    for temp in (row["temp_c"] for row in rows("breathing")):
        breath = breathing(temp)
        life = [one for one in storage_lives("broccoli", temp) if one.source == SOURCE]
        lines.append(
            (
                voice.quantity(Quantity(temp, "degC")),
                voice.range(breath.co2_ml_kg_hour, 0),
                voice.range(breath.heat_kcal_tonne_day, 0),
                voice.range(readable_days(life[0].days), 0) if life else say("air.no_life"),
            )
        )
    table = pd.DataFrame(lines, columns=[say(f"air.column_{part}") for part in ("temp", "breath", "heat", "life")])
    times = breathing(ROOM_C).times(breathing(0.0))
    said = {"warm": Quantity(ROOM_C, "degC"), "cold": Quantity(0.0, "degC")}
    finding = say("air.breath_finding", low=voice.number(times.low, 0), high=voice.number(times.high, 0), **said)
    return charts.View(finding, table, None, say("air.breath_alt"))


_BREATH = Spec(
    "06.breath",
    Said("air.breath_title"),
    lambda session: {},
    _breath_view,
    working=lambda session, values: breathing(ROOM_C),
    notes=lambda session, values: [
        Said("air.breath_note", {"cold": Quantity(0.0, "degC"), "mild": Quantity(10.0, "degC")})
    ],
)


# ---- the check -------------------------------------------------------------------------------------

_CHECK = Check(
    "06.air.check1",
    lambda session: Said("air.check1_question", {"temp": Quantity(f_to_c(40.0), "degC")}),
    lambda session: [
        Reply("damp", Said("air.check1_damp"), False, Said("air.check1_damp_reply")),
        Reply("dry", Said("air.check1_dry"), True, Said("air.check1_dry_reply")),
        Reply("same", Said("air.check1_same"), False, Said("air.check1_same_reply")),
    ],
)
