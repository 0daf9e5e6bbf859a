"""Before it happens: which pests a net keeps out, and the sizes of edges and collars."""

from __future__ import annotations

import math
from dataclasses import dataclass

from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.units import Range
from gardenlib.working import Answer, Notes, Value

SMALLEST_MM, LARGEST_MM = 0.01, 25.0
"""Holes outside these are no insect net; a mesh count ("40 mesh") is mostly above the second."""


@dataclass(frozen=True)
class Kept:
    """One pest against a net.

    Parameters
    ----------
    pest : str
        A short name.
    largest_hole_mm : Range
        The largest hole that keeps it out; a range where sources differ.
    keeps_out : bool or None
        Whether the net does; None where sources differ on it.
    checked : bool
        Whether the figure was read in a publication.
    sources : tuple of str
        Keys of the sources.
    """

    pest: str
    largest_hole_mm: Range
    keeps_out: bool | None
    checked: bool
    sources: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class NetAnswer(Answer):
    """What a net keeps out.

    Parameters
    ----------
    hole_mm : float
        Width of a hole, millimetres.
    pests : tuple of Kept
        Each pest of the table, the largest hole last.
    """

    hole_mm: float
    pests: tuple[Kept, ...]

    @property
    def kept_out(self) -> tuple[Kept, ...]:
        """Those that the net keeps out by every source."""
        return tuple(kept for kept in self.pests if kept.keeps_out)


def mesh_keeps_out(hole_mm: float, *, family: str | None = None) -> NetAnswer:
    """Say which pests a net with holes of this size keeps out.

    Parameters
    ----------
    hole_mm : float
        Width of a hole, 0.01 to 25 millimetres, as the trade prints it.
    family : str, optional
        Only pests that go for this plant family; all of them without it.

    Returns
    -------
    NetAnswer
        Each pest with the largest hole that keeps it out.

    Raises
    ------
    InputProblem
        When the hole is no number of millimetres in its range.

    Notes
    -----
    Source: Bethke and Paine (1991) and Rutgers FS640, table 1, for leafminer, whitefly, aphid and thrips; Ontario
    (2000), table 1, for leafminer. The other sizes are from memory and marked as not checked. The hole may be as
    large as the printed one, not larger; its shape matters too.

    Examples
    --------
    >>> {kept.pest: kept.keeps_out for kept in mesh_keeps_out(0.4).pests if kept.checked}
    {'thrips': False, 'aphid': False, 'whitefly': True, 'leafminer': True}
    """
    hole, notes = _hole(hole_mm), Notes()
    found: dict[str, list[tuple[float, float, str]]] = {}
    statuses: dict[str, str] = {}
    for row in rows("controls"):
        kin = (row["families"] or "").split("|")
        if row["measure"] == "largest_hole" and (family is None or not kin[0] or family in kin):
            found.setdefault(row["what"], []).append((row["low"], row["high"], row["source"]))
            statuses[row["what"]] = row["status"]
            # Written out, as a quantity would be turned into inches, and the trade prints millimetres everywhere.
            sizes = " - ".join(dict.fromkeys(f"{row[end]:g} mm" for end in ("low", "high")))
            given: dict[str, Value] = {"hole": f"{hole:g} mm", row["what"]: sizes}
            notes.step("covers.hole", f"hole <= {row['what']}", given, None, row["source"].split("|")[0])
    kept = tuple(_kept(pest, hole, sizes, statuses[pest]) for pest, sizes in found.items())
    notes.say("before.shape", "bethke_1991")
    if not all(one.checked for one in kept):
        notes.say("before.unchecked", "memory_mesh")
    ordered = sorted(kept, key=lambda one: (one.largest_hole_mm.low, one.pest))
    return NetAnswer(hole_mm=hole, pests=tuple(ordered), **notes.parts())


def _hole(value: float) -> float:
    number = isinstance(value, int | float) and not isinstance(value, bool)
    if not number or not math.isfinite(value) or not SMALLEST_MM <= value <= LARGEST_MM:
        raise InputProblem("covers.hole", value=str(value)[:40], low=f"{SMALLEST_MM:g}", high=f"{LARGEST_MM:g}")
    return float(value)


def _kept(pest: str, hole: float, sizes: list[tuple[float, float, str]], status: str) -> Kept:
    low, high = min(size[0] for size in sizes), max(size[1] for size in sizes)
    keeps_out = True if hole <= low else False if hole > high else None
    sources = tuple(key for size in sizes for key in size[2].split("|"))
    return Kept(pest, Range(low, high, "mm"), keeps_out, status == "published", sources)


def figure(what: str, measure: str) -> Range:
    """Give one published figure of the table of controls, such as how deep edges are buried."""
    row = next(row for row in rows("controls") if (row["what"], row["measure"]) == (what, measure))
    return Range(row["low"], row["high"], row["unit"])
