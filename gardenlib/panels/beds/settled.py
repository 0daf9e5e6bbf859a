"""Page 03, its end: what was settled about the bed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gardenlib.panels.bed_of import bed_here
from gardenlib.panels.beds.line_bed import answer
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def results(session: Session) -> list[tuple[str, str]]:
    """List the bed, its lines, and what finds no room."""
    say, bed = session.voice.say, bed_here(session)
    found = answer(session, {"which": "closest", **session.kept("03.lines")})
    sides = {"length": Quantity(bed.length_m, "m"), "width": Quantity(bed.width_m, "m")}
    on = Said("lines.on", {"n": len(found.lines)})
    over = ", ".join(say("lines.over", crop=session.crop_name(item.crop), n=item.fits) for item in found.left_over)
    return [
        (bed.name, say("settled.sides", **sides)),
        (say("settled.lines"), say("settled.plants", n=found.placed, lines=on)),
        (say("settled.no_room"), over or say("settled.no_room_none")),
    ]
