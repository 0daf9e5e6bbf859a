"""Page 02, the fold on gifts: ask, then take it, test it first or say no; and the pots that find weed killer."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.paper import paper_sheet
from gardenlib.soil import GIFTS, GiftAdvice, PotCheck, gift_check, gift_questions, pot_check
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "02.gifts"
ANSWERS = ("yes", "no", "unknown")
LEAVES = ("flat", "curled", "none")


def fold(session: Session) -> w.Widget:
    """Offer what to ask before a gift is accepted, and the pot check."""
    return more(session, Said("gifts.title"), 6, _inside)


def _inside(session: Session) -> w.Widget:
    paper = paper_sheet(session, Said("gifts.paper.label"), session.voice.say("gifts.paper.file"), _pdf)
    parts = [GiftPanel(session, _GIFT), CheckBox(session, _STABLE), Panel(session, _POTS)]
    return w.VBox([*parts, paper, CheckBox(session, _CLEAN)])


# ---- ask about the gift ----------------------------------------------------------------------------


class GiftPanel(Panel):
    """The gift and its two questions; the questions are made anew for another gift."""

    def _changed(self, change: Any) -> None:
        super()._changed(change)
        if change.owner is self.controls.get("gift"):
            self.build()
            self._store()


def _gift(session: Session) -> str:
    kept = session.kept(ID).get("gift")
    return kept if kept in GIFTS else GIFTS[0]


def _controls(session: Session) -> dict[str, w.Widget]:
    say, gift = session.voice.say, _gift(session)
    names = [(say(f"gifts.gift_name.{name}"), name) for name in GIFTS]
    answers = [(say(f"gifts.answer.{answer}"), answer) for answer in ANSWERS]
    # The gift stands in the name, so that no answer is read as one about another gift.
    asked = {f"{gift}_{name}": c.one_of(say(f"gifts.ask.{name}"), answers) for name in gift_questions(gift)}
    return {"gift": c.choice(say("gifts.gift"), names, gift), **asked}


def _advice(session: Session, values: Mapping[str, Any]) -> GiftAdvice:
    gift = values["gift"]
    return gift_check(gift, {name: values.get(f"{gift}_{name}") for name in gift_questions(gift)})


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show what the answers mean and what to do."""
    say, advice = session.voice.say, _advice(session, values)
    if advice.verdict is None:
        finding = say("gifts.finding_ask", n=len(advice.asks))
    else:
        finding = say(f"gifts.finding_{advice.verdict}", then=advice.to_do[0])
    means = iter(advice.because)
    rows = []
    for name in gift_questions(advice.gift):
        answer = None if name in advice.asks else values[f"{advice.gift}_{name}"]
        told = (say("gifts.open"), "") if answer is None else (say(f"gifts.answer.{answer}"), say(next(means)))
        rows.append((say(f"gifts.ask.{name}"), *told))
    table = pd.DataFrame(rows, columns=[say("gifts.column_ask"), say("gifts.column_answer"), say("gifts.column_means")])
    return charts.View(finding, table, None, say("gifts.alt"))


_GIFT = Spec(
    ID,
    Said("gifts.panel_title"),
    _controls,
    view,
    working=_advice,
    notes=lambda session, values: [*(advice := _advice(session, values)).to_do[1:], *advice.assumptions],
    caution=Said("gifts.caution"),
)


# ---- the pots --------------------------------------------------------------------------------------


def _pot_controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    leaves = [(say(f"gifts.pots.{name}"), name) for name in LEAVES]
    return {
        "clean": c.choice(say("gifts.pots.clean"), leaves, "flat"),
        "gift": c.choice(say("gifts.pots.gift"), leaves, "curled"),
    }


def _pots(session: Session, values: Mapping[str, Any]) -> PotCheck:
    return pot_check(values["clean"], values["gift"])


def _pot_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show what pots that look so say, with the pots as they look when weed killer is in the gift."""
    voice, say, pots = session.voice, session.voice.say, _pots(session, values)
    rows = [
        (say("gifts.pots.row_plants"), say("gifts.pots.row_peas")),
        (say("gifts.pots.row_pots"), str(pots.pots_each)),
        (say("gifts.pots.row_leaves"), str(pots.leaf_sets)),
        (say("gifts.pots.row_time"), voice.value(pots.time)),
    ]
    table = pd.DataFrame(rows, columns=[say("gifts.pots.column_do"), say("gifts.pots.column_number")])
    return charts.View(say(pots.meaning), table, _drawn(session), say("gifts.pots.alt"))


def _drawn(session: Session) -> str:
    say = session.voice.say
    return charts.sketch("gift_pots", clean=say("gifts.pots.label_clean"), gift=say("gifts.pots.label_gift"))


def _pdf(session: Session, large: bool) -> bytes:
    """Print the pot check with a table to fill in."""
    from gardenlib.sheets import sheet_pdf

    voice, say, pots = session.voice, session.voice.say, _usual()
    many = {"n": pots.pots_each, "time": pots.time, "sets": pots.leaf_sets}
    names = [f"{kind}{number}" for kind in "AB" for number in range(1, pots.pots_each + 1)]
    data = {
        "title": say("gifts.paper.title"),
        "caution": say("gifts.pots.caution"),
        "steps": [say(f"gifts.paper.step{number}", **many) for number in range(1, 6)],
        "picture": _drawn(session),
        "picture_alt": say("gifts.pots.alt"),
        "table_head": [say("gifts.paper.pot"), say("gifts.paper.up"), say("gifts.paper.leaves")],
        "table_rows": [[name, "", ""] for name in names],
        "after": say("gifts.paper.after"),
    }
    return sheet_pdf("steps_and_table", data, voice=voice, large=large, invented=session.klass.invented)


def _usual() -> PotCheck:
    return pot_check("flat", "flat")


_POTS = Spec(
    "02.gifts.pots",
    Said("gifts.pots.title"),
    _pot_controls,
    _pot_view,
    guess=Guess(
        "02.gifts.guess",
        lambda session: Said("gifts.pots.question"),
        lambda session: [
            ("days", Said("gifts.pots.days")),
            ("weeks", Said("gifts.pots.weeks", {"time": _usual().time})),
            ("season", Said("gifts.pots.season")),
        ],
        lambda session: Said("gifts.pots.truth", {"time": _usual().time, "n": _usual().leaf_sets}),
    ),
    working=_pots,
    notes=lambda session, values: list(_pots(session, values).assumptions),
    caution=Said("gifts.pots.caution"),
)


# ---- the checks ------------------------------------------------------------------------------------

_STABLE = Check(
    "02.gifts.check2",
    lambda session: Said("gifts.check2.question"),
    lambda session: [
        Reply("old", Said("gifts.check2.old"), False, Said("gifts.check2.old_reply")),
        Reply("right", Said("gifts.check2.right"), True, Said("gifts.check2.right_reply")),
        Reply("smell", Said("gifts.check2.smell"), False, Said("gifts.check2.smell_reply")),
    ],
)

_CLEAN = Check(
    "02.gifts.check1",
    lambda session: Said("gifts.check.question"),
    lambda session: [
        Reply("refuse", Said("gifts.check.refuse"), False, Said("gifts.check.refuse_reply")),
        Reply("right", Said("gifts.check.right"), True, Said("gifts.check.right_reply")),
        Reply("take", Said("gifts.check.take"), False, Said("gifts.check.take_reply")),
    ],
)
