"""Page 05, a fold: what it is, by a key of drawn questions, and cases to try."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts, tables
from gardenlib.charts.tiles import tiles
from gardenlib.panels import controls as c
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.pests.what_cases import cases
from gardenlib.pests import Identified, what_is_it
from gardenlib.pests.identify import NONE, START, Match
from gardenlib.problems import InputProblem
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID, BACK = "05.what", "back"
TO_LOOPER = ("animal", "chewed", "worm", "leaf", "green", "two")
TO_CABBAGEWORM = (*TO_LOOPER[:-1], "four", "velvety")


def fold(session: Session) -> w.Widget:
    """Offer the key and the cases."""
    return more(session, Said("ident.title"), 8, lambda _: w.VBox([KeyPanel(session, _SPEC), cases(session)]))


class KeyPanel(Panel):
    """A panel that asks one question after another, and can go back or start again."""

    @property
    def values(self) -> dict[str, Any]:
        """Give the answers so far."""
        return {"answers": _answers(self.session)}

    def next(self) -> None:
        """Keep the answer that is chosen and ask the next question; nothing moves while the choice is being made."""
        chosen = self.controls["answer"].value
        if chosen is None:
            self.message.value = c.html(self.session.voice.say("page.choose_first"), "again")
        elif chosen == BACK:
            self.back()
        else:
            self._go([*self.values["answers"], chosen])

    def back(self) -> None:
        """Take the last answer back."""
        self._go(self.values["answers"][:-1])

    def start_again(self) -> None:
        """Take all answers back."""
        self._go([])

    def _changed(self, _: Any) -> None:
        self.message.value = ""

    def _go(self, answers: list[str]) -> None:
        self._guarded(lambda: self.session.keep(self.spec.id, {"answers": answers}))
        self.rebuild()

    def _open_parts(self) -> list[w.Widget]:
        say, parts = self.session.voice.say, super()._open_parts()
        buttons = (
            [c.button(say("ident.next"), self.next)] if self.controls else [c.button(say("ident.back"), self.back)]
        )
        if self.values["answers"]:
            buttons.append(c.button(say("ident.again"), self.start_again))
        controls, message, picture, notes = parts
        return [picture, controls, message, notes, *buttons]


def _answers(session: Session) -> list[str]:
    """Give the answers that were kept; an older key's answers, which this one does not hold, are left out."""
    answers: list[str] = session.kept(ID).get("answers", [])
    try:
        what_is_it(answers)
    except InputProblem:
        return []
    return answers


def _asked(session: Session) -> dict[str, w.Widget]:
    """Make the one choice of a question; the end has none, and the first question has no way out or back."""
    found = what_is_it(_answers(session))
    if found.question is None:
        return {}
    say = session.voice.say
    options = [(_sign(session, found.question, sign.name), sign.name) for sign in found.signs]
    if found.question != START:
        options += [(say("ident.none"), NONE), (say("ident.back"), BACK)]
    return {"answer": c.one_of("", options)}


def _sign(session: Session, question: str, sign: str) -> str:
    return session.voice.say(f"ident.sign.{question}_{sign}")


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw the signs of the next question or, at the end, what it is."""
    say, found = session.voice.say, what_is_it(values["answers"])
    if found.match is not None:
        return _matched(session, found, found.match)
    shown = [
        (f"pest_{one.picture}", _sign(session, str(found.question), one.name)) for one in found.signs if one.picture
    ]
    alt = say("ident.alt_question", signs="; ".join(words for _, words in shown))
    return charts.View(say(f"ident.ask.{found.question}"), None, tiles(shown), alt)


def _matched(session: Session, found: Identified, match: Match) -> charts.View:
    say, name = session.voice.say, session.voice.say(f"ident.name.{match.name}")
    finding = say(f"ident.finding_{match.kind}", name=name, first=say(f"ident.first.{match.first}"))
    if match.picture is None:
        return charts.View(finding, None, None, finding)
    rows = [(say("ident.row_kind"), say(f"ident.kind_{match.kind}"))]
    if match.longest is not None:
        rows.append((say("ident.row_longest"), session.voice.range(match.longest)))
    if match.mid_leg_pairs is not None:
        rows.append((say("ident.row_mid_legs"), str(match.mid_leg_pairs)))
    rows += [(say("ident.row_source"), tables.source(key).citation) for key in match.sources]
    table = pd.DataFrame(rows, columns=[say("ident.column_what"), say("ident.column_is")])
    words = name if match.longest is None else say("ident.label", length=match.longest)
    return charts.View(finding, table, tiles([(f"pest_{match.picture}", words)]), say("ident.alt_match", name=name))


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    found = what_is_it(values["answers"])
    if found.match is None:
        return [Said("ident.count_trap")] if found.question == "mid_legs" else []
    told = [Said(f"ident.meaning.{found.match.name}"), *found.assumptions]
    if found.match.name == "lady_beetle_eggs":
        told.append(Said("ident.like_lady_beetle"))
    return [*told, Said("ident.first_line")] if found.match.kind == "pest" else told


def _truth(session: Session) -> Said:
    both = [match for match in (what_is_it(TO_LOOPER).match, what_is_it(TO_CABBAGEWORM).match) if match is not None]
    two, four = (match.mid_leg_pairs for match in both)
    length = Quantity(min(match.longest.low for match in both if match.longest is not None), "mm")
    return Said("ident.truth", {"two": two, "four": four, "length": length})


_SPEC = Spec(
    ID,
    Said("ident.title"),
    _asked,
    view,
    guess=Guess(
        "05.what.guess",
        lambda session: Said("ident.question"),
        lambda session: [
            ("color", Said("ident.option_color")),
            ("legs", Said("ident.option_legs")),
            ("size", Said("ident.option_size")),
        ],
        _truth,
    ),
    notes=_notes,
    intro=Said("ident.intro"),
    caution=Said("ident.caution"),
)
