"""Page 03, the fold on pots and bags."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts, tables
from gardenlib.beds import PotAnswer, cone_litres, pot_for, pot_volume
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec
from gardenlib.tables.loader import rows
from gardenlib.units import LITRES_PER_GALLON, Quantity, Range
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

GUESSED_GAL = 5
SIZES = {
    "pot": ("nursery pot", (1, 2, 3, 5, 6, 7, 10, 15, 20, 25)),
    "bag": ("fabric bag", (1, 3, 5, 7, 10, 15, 20, 30)),
}
M_PER_UNIT = {"us": 0.0254, "metric": 0.01}


def fold(session: Session) -> w.Widget:
    """Offer what pots and bags hold, and what fits in."""
    return more(session, Said("pots.title"), 5, _SPEC, _SIZE, _CHECK)


def _controls(session: Session) -> dict[str, w.Widget]:
    say, potted = session.voice.say, {row["crop"] for row in rows("pots")}
    ids = [i for i in session.crops_own_first if session.crop(i).id in potted]
    sold = [
        (f"{say('pots.pot') if kind == 'pot' else say('pots.bag')}, {size}", f"{kind} {size}")
        for kind, (_, sizes) in SIZES.items()
        for size in sizes
    ]
    return {
        "crop": c.choice(say("pots.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "sold": c.choice(say("pots.sold"), sold, f"pot {GUESSED_GAL}"),
    }


def _held(values: Mapping[str, Any]) -> tuple[int, Range]:
    kind, _, size = values["sold"].partition(" ")
    return int(size), pot_volume(int(size), SIZES[kind][0])


def _answer(session: Session, values: Mapping[str, Any]) -> PotAnswer:
    """Hold the least that the pot may hold against the lists."""
    return pot_for(session.crop(values["crop"]), _held(values)[1].low)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Say what the pot truly holds, and what each source asks for the crop."""
    say, voice, (size, held) = session.voice.say, session.voice, _held(values)
    words = {"enough": say("pots.enough"), "tight": say("pots.tight"), "small": say("pots.small")}
    unsaid = say("pots.not_said")
    table = [
        (
            tables.source(row.source).citation,
            voice.range(row.volume) if row.volume else unsaid,
            voice.range(row.depth) if row.depth else unsaid,
            _span(row.plants) or unsaid,
            words[row.verdict] if row.verdict else unsaid,
        )
        for row in _answer(session, values).rows
    ]
    finding = say("pots.finding", n=size, held=held)
    if held.high < size * LITRES_PER_GALLON:
        finding = f"{finding} {say('pots.finding_less')}"
    columns = [say("pots.column_source"), say("pots.column_volume"), say("pots.column_depth")]
    columns += [say("pots.column_plants"), say("pots.column_verdict")]
    alt = say("pots.alt", crop=session.crop_name(values["crop"]))
    return charts.View(finding, pd.DataFrame(table, columns=columns), None, alt)


def _span(plants: Range | None) -> str:
    """Write plants as 2 or 2-3."""
    return "" if plants is None else "-".join(dict.fromkeys(f"{end:g}" for end in (plants.low, plants.high)))


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    return [*_answer(session, values).assumptions, Said("pots.differ")]


_SPEC = Spec(
    "03.pots",
    Said("pots.title"),
    _controls,
    view,
    guess=Guess(
        "03.pots.guess",
        lambda session: Said("pots.question"),
        lambda session: [
            ("less", Said("pots.option_less")),
            ("same", Said("pots.option_same")),
            ("more", Said("pots.option_more")),
        ],
        lambda session: Said("pots.truth", {"held": pot_volume(GUESSED_GAL)}),
    ),
    working=_answer,
    notes=_notes,
)


# ---- a pot of one's own ----------------------------------------------------------------------------


def _size_controls(session: Session) -> dict[str, w.Widget]:
    """Ask three measures; the names carry the unit, so that a class which changes units starts afresh."""
    say, units = session.voice.say, session.voice.units
    unit = say("pots.inches") if units == "us" else say("pots.centimetres")
    low, high, usual = (1, 70, (10.0, 8.0, 9.5)) if units == "us" else (2, 180, (25.0, 20.0, 24.0))
    return {
        f"top_{units}": c.number(say("pots.top", unit=unit), low, high, usual[0]),
        f"bottom_{units}": c.number(say("pots.bottom", unit=unit), low, high, usual[1]),
        f"height_{units}": c.number(say("pots.height", unit=unit), low, high, usual[2]),
    }


def _size_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say, voice = session.voice.say, session.voice
    top, bottom, height = (value * M_PER_UNIT[voice.units] for value in values.values())
    held = Quantity(cone_litres(top, bottom, height), "litres")
    straight = Quantity(cone_litres(top, top, height), "litres")
    shown = [(say("pots.row_held"), voice.quantity(held)), (say("pots.row_straight"), voice.quantity(straight))]
    table = pd.DataFrame(shown, columns=[say("pots.size_column"), say("pots.size_number")])
    return charts.View(say("pots.size_finding", held=held), table, None, say("pots.size_alt"))


_SIZE = Spec("03.pot_size", Said("pots.size_title"), _size_controls, _size_view)


def _replies(session: Session) -> list[Reply]:
    known = {"three": pot_volume(3), "five": pot_volume(5)}
    return [
        Reply("yes", Said("pots.check_yes"), False, Said("pots.check_yes_reply", known)),
        Reply("measure", Said("pots.check_measure"), True, Said("pots.check_measure_reply")),
        Reply("litres", Said("pots.check_litres"), False, Said("pots.check_litres_reply")),
    ]


_CHECK = Check("03.pots.check1", lambda session: Said("pots.check_question"), _replies)
