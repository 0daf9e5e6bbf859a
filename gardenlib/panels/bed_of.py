"""The bed that a page reckons with: the learner's first measured bed, else the class's."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gardenlib.problems import InputProblem
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.class_folder import PlotRow
    from gardenlib.panels.session import Session

CLUBROOT = "clubroot"
"""What `known_disease` holds where the extension office or a lab has named it."""
Families = tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class BedInUse:
    """One bed with its size.

    Parameters
    ----------
    name : str
        What the bed is called.
    length_m, width_m : float
        Its sides, metres.
    is_class_bed : bool
        Whether the class's bed stands in, which the page has to say.
    depth_m : float or None
        How deep a raised bed's soil is, metres.
    known_disease : str
        What was written down of a disease in this bed.
    """

    name: str
    length_m: float
    width_m: float
    is_class_bed: bool
    depth_m: float | None = None
    known_disease: str = ""

    @property
    def has_clubroot(self) -> bool:
        """Whether clubroot, and nothing vaguer, was written down."""
        return self.known_disease.strip().casefold() == CLUBROOT

    @property
    def area_m2(self) -> float:
        """Area, square metres."""
        return self.length_m * self.width_m


def bed_in_use(session: Session) -> BedInUse | None:
    """Find the learner's first measured bed, else the class bed; None where neither was measured."""
    say = session.voice.say
    for bed in session.plot.beds:
        if bed.length_m is not None and bed.width_m is not None:
            depth_m = bed.depth_m if bed.kind == "raised" else None
            name = bed.name or say("fit.your_bed")
            return BedInUse(name, bed.length_m, bed.width_m, False, depth_m, bed.known_disease)
    row = _class_row(session)
    if row is None or row.length_m is None or row.width_m is None:
        return None
    return BedInUse(say("fit.class_bed"), row.length_m, row.width_m, True, known_disease=row.known_disease)


def bed_here(session: Session) -> BedInUse:
    """Give the bed in use, or say that none was measured."""
    bed = bed_in_use(session)
    if bed is None:
        raise InputProblem("fit.no_bed")
    return bed


def stands_in(session: Session) -> list[Said]:
    """Say so where the class's bed stands in for the learner's."""
    bed = bed_in_use(session)
    return [Said("feeding.class_bed")] if bed is not None and bed.is_class_bed else []


def grown_here(session: Session) -> tuple[str, Families]:
    """Name the bed and list the families that grew there, the latest year first; the class's bed stands in."""
    for bed in session.plot.beds:
        return bed.name or session.voice.say("fit.your_bed"), bed.families
    row = _class_row(session)
    return session.voice.say("fit.class_bed"), () if row is None else row.families


def _class_row(session: Session) -> PlotRow | None:
    return session.klass.plots.get(session.klass.class_bed)


def family_name(session: Session, family: str) -> str:
    """Name a family in plain words where we have them."""
    key = f"rotation.name_{family}"
    return session.voice.say(key) if session.voice.has(key) else family
