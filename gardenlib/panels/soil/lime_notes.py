"""What stands beside the lime: the caution before any number, and the notes after it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from gardenlib.panels.soil.lime_bed import (
    against_clubroot,
    has_clubroot,
    lime_here,
    need_here,
    other_bed,
    state_of,
    target_of,
)
from gardenlib.soil import lime_kind, lime_spread
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

EXAMPLE = {"water_ph": 5.5, "target_ph": 6.5, "buffer_ph": 6.2, "acidity_meq_100g": 4.6}
"""A sheet that all the methods of the comparison can read."""
CAUTION = Said("lime.caution")


def caution(session: Session) -> Said:
    """Give the caution, with more of it where the lime goes against clubroot."""
    return Said("lime.caution_clubroot", {"first": CAUTION}) if against_clubroot(session) else CAUTION


def notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    """List what must be read beside the lime: what it is for, how it is spread, what is not known."""
    soil, state = session.plot.soil, state_of(session)
    if need_here(session, values).alkaline:
        return [Said("lime.salts")]
    if state in {"sheet", "texture"}:
        bed = lime_here(session, values)
        if not bed.applications:
            return _clubroot(session)
        told = _clubroot(session)
        told += [Said("lime.weigh"), Said(f"lime.kind_{lime_kind(soil.magnesium) or 'none'}"), bed.applications[0].how]
        told += other_bed(session) + list(bed.assumptions)
        if bed.retest_on is not None:
            day = session.voice.date(bed.retest_on, "yMMMd")
            told.append(Said("lime.retest", {"day": day, "least": Quantity(bed.retest_least_months, "months")}))
        return told
    factor = Said("lime.spread", {"factor": lime_spread(**EXAMPLE).factor})
    if state == "no_method":
        told = [Said("lime.no_method"), factor]
    elif state == "no_ph":
        told = [Said("lime.no_ph"), factor]
    else:
        told = [factor, Said("lime.send_first")]
    return [*told, *_clubroot(session)]


def _clubroot(session: Session) -> list[Said]:
    """Say what the higher target is for, or what it takes; nothing where no clubroot was named."""
    if not has_clubroot(session):
        return []
    if not against_clubroot(session):
        return [Said("lime.clubroot_sheet")]
    told = [Said("lime.clubroot_here", {"target": target_of(session)})]
    if session.plot.soil.lab_lime_kg_m2 is not None:
        told.append(Said("lime.clubroot_lab", {"target": target_of(session)}))
    return told
