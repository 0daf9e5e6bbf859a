"""The check of how much row is surely enough, each foreseen mistake with its reply."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from gardenlib.harvest.foreseen import PRINTED_FOR_M, RowSlips, row_slips
from gardenlib.panels.check import Reply
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

CROP, CUPS, MONTHS = "broccoli", 6, 3


def _slips(session: Session) -> RowSlips:
    return row_slips(CROP, CUPS, MONTHS, system=session.voice.units)


def _row(metres: float, session: Session) -> str:
    return session.voice.quantity(Quantity(metres, "m"), 0)


def question(session: Session) -> Said:
    """Ask for the row that is surely enough."""
    found, voice = _slips(session), session.voice
    said: dict[str, Any] = {"crop": session.crop_name(CROP), "cups": CUPS, "n": MONTHS, "printed": found.printed}
    said |= {"row": Quantity(PRINTED_FOR_M, "m"), "parts": voice.number(found.eaten_in_ten)}
    return Said("much.check_question", {**said, "each": voice.number(found.cups_each, 0), "unit": _unit(session)})


def _unit(session: Session) -> Said:
    return Said("much.a_pound" if session.voice.units == "us" else "much.a_kilogram")


def replies(session: Session) -> list[Reply]:
    """Give the right row and what comes out of each mistake."""
    found = _slips(session)
    rows = [
        ("plants", Said("unit.plants", {"x": found.as_plants, "n": found.as_plants}), False, {}),
        ("months", Said("much.row", {"row": _row(found.months_m, session)}), False, {"n": found.weeks}),
        ("high_end", Said("much.row", {"row": _row(found.high_end_m, session)}), False, {}),
        ("untrimmed", Said("much.row", {"row": _row(found.untrimmed_m, session)}), False, {}),
        ("right", Said("much.row", {"row": _row(found.right_m, session)}), True, {"n": found.weeks}),
    ]
    return [Reply(kind, words, holds, Said(f"much.check_{kind}", values)) for kind, words, holds, values in rows]
