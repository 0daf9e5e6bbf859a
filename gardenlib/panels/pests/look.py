"""Page 05, the second panel: look at the plants, then pick or look again."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts.looked import looked
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Panel, Spec
from gardenlib.pests import Decision, chance_to_miss, scouting_decision
from gardenlib.pests.scouting import SMALL_BED
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "05.look"
PEST, CROP = "imported_cabbageworm", "cabbage_main"
PLANTS, HIT, LOOKED_AT = 20, 2, 10


def panel(session: Session) -> Panel:
    """Ask how many plants were looked at and hit, and say what to do today."""
    return Panel(session, SPEC).show()


def check(session: Session) -> CheckBox:
    """Ask what to do about a few eggs."""
    return CheckBox(session, _CHECK).show()


def _controls(session: Session) -> dict[str, w.Widget]:
    say, most = session.voice.say, SMALL_BED - 1
    return {
        "plants": c.whole_number(say("scouting.plants"), 1, most, 12),
        "looked": c.whole_number(say("scouting.looked"), 1, most, 12),
        "hit": c.whole_number(say("scouting.hit"), 0, most, 0),
    }


def decision(session: Session, values: Mapping[str, Any]) -> Decision:
    """Decide for a small bed, where no threshold is asked and the crop does not matter."""
    return scouting_decision(
        PEST, CROP, "growing", values["looked"], values["hit"], values["plants"], looked_on=session.today
    )


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw each plant as it was found, and say what to do."""
    say, voice, found = session.voice.say, session.voice, decision(session, values)
    hit, clean, left = values["hit"], values["looked"] - values["hit"], found.plants_left
    first, last = found.look_again or (session.today, session.today)
    days = {"first": voice.date(first, "MMMd"), "last": voice.date(last, "MMMd")}
    finding = say(f"scouting.finding_{found.advice}", n=left if found.advice == "look_at_all" else hit, **days)
    sorts = tuple(say(f"scouting.sort_{sort}") for sort in ("hit", "clean", "unseen"))
    drawn = looked(hit, clean, left, words=(sorts[0], sorts[1], sorts[2]))
    rows = list(zip(sorts, (hit, clean, left), strict=True))
    table = pd.DataFrame(rows, columns=[say("scouting.column_sort"), say("scouting.column_plants")])
    return charts.View(finding, table, charts.svg(drawn), say("scouting.alt", hit=hit, clean=clean, left=left))


def _truth(session: Session) -> Said:
    missed = chance_to_miss(PLANTS, HIT, LOOKED_AT)
    return Said("scouting.truth", {"n": round(100 * missed)})


SPEC = Spec(
    ID,
    Said("scouting.title"),
    _controls,
    view,
    guess=Guess(
        "05.look.guess",
        lambda session: Said("scouting.question", {"plants": PLANTS, "hit": HIT, "looked": LOOKED_AT}),
        lambda session: [
            ("5", Said("scouting.option_seldom")),
            ("25", Said("scouting.option_some")),
            ("75", Said("scouting.option_most")),
        ],
        _truth,
    ),
    working=decision,
    notes=lambda session, values: [Said("scouting.first_line"), Said("scouting.how_to_look")],
)

# ---- the check -------------------------------------------------------------------------------------

_CHECK = Check(
    "05.look.check1",
    lambda session: Said("scouting.check1_question"),
    lambda session: [
        Reply("spray", Said("scouting.check1_spray"), False, Said("scouting.check1_spray_reply")),
        Reply("wait", Said("scouting.check1_wait"), False, Said("scouting.check1_wait_reply")),
        Reply("pick", Said("scouting.check1_pick"), True, Said("scouting.check1_pick_reply")),
    ],
)
