"""Page 06, a fold: what to get for jars, a crock or the freezer, and who has the tested recipe."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.harvest import Preserving, crops_to_preserve, freezer_to_fill, high_place, jars_to_fill
from gardenlib.harvest.preserve_crops import HIGH_M, Way
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.harvest.ready_signs import plain
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.units import KG_PER_POUND, Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

WAYS = ("crock", "jar", "freezer")
MOST, USUAL = 200, 7
GUESSED, GUESSED_CROP = 20.0, "cabbage_main"
# Broccoli: eaten parts of 100, trimmed weight, and what to pick: times the part, waste added, and right.
CASE = (61, 30, 18, 42, 49)
HEAVY = {"us": ("lb", KG_PER_POUND), "metric": ("kg", 1.0)}


def fold(session: Session) -> w.Widget:
    """Offer to plan what to put up."""
    return more(session, Said("preserve.title"), 6, _SPEC, _PART, _SALT)


def _kg(session: Session, amount: float) -> float:
    """Take a weight as the class reads it."""
    return amount * HEAVY[session.voice.units][1]


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    known = [crop_id for way in ("crock", "jar", "freezer") for crop_id in crops_to_preserve(way)]
    ids = list(dict.fromkeys([*(i for i in session.crop_ids if i in known), *known]))
    ways = [(say(f"preserve.way_{way}"), way) for way in WAYS]
    usual = next(way for way in ("crock", "jar", "freezer") if ids[0] in crops_to_preserve(way))
    return {
        "crop": c.choice(say("preserve.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "way": c.choice(say("preserve.way"), ways, usual),
        "amount": c.whole_number(say(f"preserve.amount_{session.voice.units}"), 1, MOST, USUAL),
    }


def _plan(session: Session, values: Mapping[str, Any]) -> Preserving:
    way: Way | str = values["way"]
    if way == "freezer":
        return freezer_to_fill(session.crop(values["crop"]), _kg(session, values["amount"]))
    return jars_to_fill(session.crop(values["crop"]), values["amount"], way="crock" if way == "crock" else "jar")


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Say what to get and how much work it is; nothing of how to process it."""
    say, voice, plan = session.voice.say, session.voice, _plan(session, values)
    trimmed = Quantity(_kg(session, values["amount"]), "kg")
    crop, amount = session.crop_name(values["crop"]), voice.range(plan.to_get)
    finding = say(f"preserve.finding_{plan.way}", n=values["amount"], crop=crop, amount=amount, trimmed=trimmed)
    rows = [(say("preserve.row_get"), amount)]
    if plan.bushels is not None:
        rows.append((say("preserve.row_bushels"), plain(session, plan.bushels)))
    rows += [
        (say("preserve.row_ahead"), voice.range(plan.weeks_ahead)),
        (say("preserve.row_days"), voice.range(plan.work_days)),
    ]
    table = pd.DataFrame(rows, columns=[say("preserve.column_what"), say("preserve.column_amount")])
    return charts.View(finding, table, None, finding)


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    told = list(_plan(session, values).assumptions)
    if values["way"] == "crock":
        told.append(Said("preserve.weigh_salt"))
    return [_height(session), *told]


def _height(session: Session) -> Said:
    metres = session.klass.sites[session.site_name].elevation_m
    limit, high = Quantity(HIGH_M, "m"), high_place(metres)
    if metres is None:
        return Said("preserve.height_unknown", {"limit": limit})
    said = {"height": session.voice.quantity(Quantity(metres, "m"), 0), "limit": session.voice.quantity(limit, 0)}
    return Said("preserve.height_high" if high else "preserve.height", said)


# ---- the guess and the checks ------------------------------------------------------------------------


def _weight(session: Session, amount: float) -> str:
    return session.voice.say(f"unit.{HEAVY[session.voice.units][0]}", x=session.voice.number(amount, 0))


def _truth(session: Session) -> Said:
    whole = freezer_to_fill(GUESSED_CROP, _kg(session, GUESSED)).to_get
    return Said("preserve.truth", {"amount": whole})


_SPEC = Spec(
    "06.preserve",
    Said("preserve.title"),
    _controls,
    view,
    guess=Guess(
        "06.preserve.guess",
        lambda session: Said("preserve.question", {"trimmed": _weight(session, GUESSED)}),
        lambda session: [
            (str(n), Said("preserve.option", {"amount": _weight(session, n)})) for n in (20.0, 25.0, 40.0)
        ],
        _truth,
    ),
    caution=Said("preserve.caution"),
    working=_plan,
    notes=_notes,
)


def _part_replies(session: Session) -> list[Reply]:
    _, _, times, added, right = CASE
    cases = [("times", times), ("add", added), ("right", right)]
    return [
        Reply(key, Said("preserve.option", {"amount": _weight(session, n)}), key == "right", _REPLIES[key])
        for key, n in cases
    ]


_REPLIES = {
    "times": Said("preserve.check1_times_reply"),
    "add": Said("preserve.check1_add_reply"),
    "right": Said("preserve.check1_right_reply"),
}
_PART = Check(
    "06.preserve.check1",
    lambda session: Said("preserve.check1_question", {"edible": CASE[0], "trimmed": _weight(session, CASE[1])}),
    _part_replies,
)
_SALT = Check(
    "06.preserve.check2",
    lambda session: Said("preserve.check2_question"),
    lambda session: [
        Reply("less", Said("preserve.check2_less"), False, Said("preserve.check2_less_reply")),
        Reply("cup", Said("preserve.check2_cup"), False, Said("preserve.check2_cup_reply")),
        Reply("weigh", Said("preserve.check2_weigh"), True, Said("preserve.check2_weigh_reply")),
    ],
)
