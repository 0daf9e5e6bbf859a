"""Page 06, the fold on what to eat first: lots in the store, and what is left of them week by week."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts import theme
from gardenlib.charts.few_bars import few_bars
from gardenlib.harvest import EatingOrder, Lot, eating_order, readable_days
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.form import Fields, Form
from gardenlib.panels.guess import Guess
from gardenlib.panels.harvest.store_controls import storable, temp_c, thermometer
from gardenlib.panels.harvest.two_places import TWO_PLACES
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.units import KG_PER_POUND, Quantity, Range, in_system
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID, LOTS = "06.eatfirst", "06.eatfirst.lots"
EXAMPLE = (
    Lot("carrot", 1.5, 4.0, 21),
    Lot("cabbage_main", 4.0, 4.0, 2),
    Lot("kale", 0.5, 4.0, 2),
)
"""The one that lay longest, the biggest, and the one that goes bad soonest."""
KG = {"us": KG_PER_POUND, "metric": 1.0}
RATE = {"us": (0.5, 200, 3), "metric": (0.2, 100, 1.5)}
WEEKS = 6


def fold(session: Session) -> w.Widget:
    """Offer a list of what to eat first."""
    return more(session, Said("eatfirst.title"), 7, _inside)


def _inside(session: Session) -> w.Widget:
    order, places = Panel(session, _SPEC), Panel(session, TWO_PLACES)
    for panel in (order, places):
        session.watch(on_saved=panel.redraw)
    add = Form(session, Said("eatfirst.add_about"), _fields, _add, Said("eatfirst.add"))
    empty = Form(session, Said("eatfirst.empty_about"), lambda session: {}, _empty, Said("eatfirst.empty"))
    return w.VBox([order, add, empty, CheckBox(session, _CHECK), places])


# ---- the lots --------------------------------------------------------------------------------------


def _own(session: Session) -> list[dict[str, Any]]:
    return list(session.kept(LOTS).get("lots", []))


def _lots(session: Session) -> list[Lot]:
    own = [Lot(session.crop(lot["crop"]), lot["kg"], lot["temp_c"], lot["kept_days"]) for lot in _own(session)]
    return own or list(EXAMPLE)


def _fields(session: Session) -> Fields:
    say, units, ids = session.voice.say, session.voice.units, storable(session)
    return {
        "crop": c.choice(say("eatfirst.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        f"amount_{units}": c.number(say(f"eatfirst.amount_{units}"), 0, 2000, 2),
        **thermometer(session),
        "days": c.whole_number(say("eatfirst.days"), 0, 365, 0),
    }


def _in_kg(values: Mapping[str, Any], name: str) -> float:
    units = "us" if f"{name}_us" in values else "metric"
    return float(values[f"{name}_{units}"]) * KG[units]


def _add(session: Session, values: Mapping[str, Any]) -> Said:
    kg, temp = _in_kg(values, "amount"), temp_c(values)
    lot = {"crop": values["crop"], "kg": kg, "temp_c": temp, "kept_days": values["days"]}
    now = [*_own(session), lot]
    eating_order([Lot(session.crop(one["crop"]), one["kg"], one["temp_c"], one["kept_days"]) for one in now], 1.0)
    session.keep(LOTS, {"lots": now})
    return Said("eatfirst.added", {"n": len(now)})


def _empty(session: Session, values: Mapping[str, Any]) -> Said:
    session.keep(LOTS, {"lots": []})
    return Said("eatfirst.emptied")


# ---- the list --------------------------------------------------------------------------------------


def _controls(session: Session) -> dict[str, w.Widget]:
    units = session.voice.units
    low, high, first = RATE[units]
    return {f"rate_{units}": c.number(session.voice.say(f"eatfirst.rate_{units}"), low, high, first, 0.5)}


def _order(session: Session, values: Mapping[str, Any]) -> EatingOrder:
    return eating_order(_lots(session), _in_kg(values, "rate"), weeks=WEEKS)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Say what to eat first, and draw what is left good after each week."""
    say, voice, found = session.voice.say, session.voice, _order(session, values)
    rate, lost = Quantity(_in_kg(values, "rate"), "kg"), Quantity(found.lost_kg, "kg")
    first = found.turns[0]
    how = "gone" if first.good_days == 0 else "lost" if found.lost_kg else "none"
    finding = say(f"eatfirst.finding_{how}", crop=session.crop_name(first.crop), rate=rate, lost=lost)
    rows = [
        (
            str(turn),
            session.crop_name(lot.crop),
            voice.quantity(Quantity(lot.kg, "kg")),
            voice.range(readable_days(Range(lot.good_days, lot.good_days, "days")), 0)
            if lot.good_days
            else say("eatfirst.no_time"),
            voice.quantity(Quantity(lot.lost_kg, "kg")) if lot.lost_kg else say("eatfirst.nothing"),
        )
        for turn, lot in enumerate(found.turns, start=1)
    ]
    names = [say(f"eatfirst.column_{part}") for part in ("turn", "crop", "amount", "good", "lost")]
    left = [in_system(kg, "kg", voice.units)[0] for kg in found.left_kg.sum(axis=1)]
    drawn = few_bars(
        left,
        [voice.number(amount, 0 if amount >= 100 else 1) for amount in left],
        [str(week) for week in range(len(left))],
        axis=say(f"eatfirst.axis_{voice.units}"),
        hue=theme.GROWING,
    )
    return charts.View(finding, pd.DataFrame(rows, columns=names), charts.svg(drawn), say("eatfirst.alt"))


def _asked(session: Session) -> dict[str, str]:
    names = (session.crop_name(str(lot.crop)) for lot in EXAMPLE)
    return dict(zip(("oldest", "biggest", "soonest"), names, strict=True))


def _truth(session: Session) -> Said:
    first = eating_order(EXAMPLE, KG["metric"]).turns[0]
    return Said("eatfirst.truth", {"crop": session.crop_name(first.crop), "n": round(first.good_days)})


_SPEC = Spec(
    ID,
    Said("eatfirst.title"),
    _controls,
    view,
    guess=Guess(
        "06.eatfirst.guess",
        lambda session: Said("eatfirst.question", _asked(session)),
        lambda session: [
            (which, Said("eatfirst.option_lot", {"crop": crop})) for which, crop in _asked(session).items()
        ],
        _truth,
    ),
    working=_order,
    notes=lambda session, values: [] if _own(session) else [Said("eatfirst.example")],
    caution=Said("eatfirst.caution"),
)


# ---- the check -------------------------------------------------------------------------------------

_CHECK = Check(
    "06.eatfirst.check1",
    lambda session: Said("eatfirst.check1_question"),
    lambda session: [
        Reply("cabbage", Said("eatfirst.check1_cabbage"), False, Said("eatfirst.check1_cabbage_reply")),
        Reply("both", Said("eatfirst.check1_both"), False, Said("eatfirst.check1_both_reply")),
        Reply("kale", Said("eatfirst.check1_kale"), True, Said("eatfirst.check1_kale_reply")),
    ],
)
