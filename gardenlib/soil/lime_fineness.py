"""How much of a bag's lime counts, by how fine it is: three published ways."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from gardenlib.checks import checked_choice, checked_share
from gardenlib.problems import InputProblem
from gardenlib.soil.lime_checks import checked_garden_lime
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity
from gardenlib.working import Answer, Notes, Value

MOST_MOISTURE = 0.3


@dataclass(frozen=True)
class Sieve:
    """One sieve of a scheme: its mesh, what its lime counts, and whether all that passes counts or what stays below."""

    mesh: int
    factor: float
    counts: str
    sources: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class LimeQuality(Answer):
    """How much of a bag's lime counts.

    Parameters
    ----------
    scheme : str
        Whose rule.
    fineness_fraction : float
        Share of the lime that is fine enough to work.
    effective_fraction : float
        Fineness times calcium carbonate equivalent, less moisture where the scheme takes it off: the scheme's own
        figure (ECCE, ENV or RNV) as a share of pure, fine, dry lime.
    """

    scheme: str
    fineness_fraction: float
    effective_fraction: float


def lime_sieves(scheme: str) -> tuple[int, ...]:
    """List a scheme's sieves, coarse to fine.

    Parameters
    ----------
    scheme : {"iowa_ecce", "new_york_env", "kentucky_rnv"}
        Whose rule.

    Returns
    -------
    tuple of int
        Holes to the inch (mesh).

    Raises
    ------
    InputProblem
        When there is no such scheme.

    Notes
    -----
    Source: the keys in ``tables.table("lime_sieves")``.

    Examples
    --------
    >>> lime_sieves("kentucky_rnv")
    (10, 50)
    """
    return tuple(sieve.mesh for sieve in _sieves(scheme))


@cache
def _schemes() -> dict[str, tuple[Sieve, ...]]:
    found: dict[str, tuple[Sieve, ...]] = {}
    for row in sorted(rows("lime_sieves"), key=lambda row: row["mesh"]):
        sieve = Sieve(int(row["mesh"]), row["factor"], row["counts"], tuple(row["source"].split("|")))
        found[row["scheme"]] = (*found.get(row["scheme"], ()), sieve)
    return found


def _sieves(scheme: str) -> tuple[Sieve, ...]:
    return _schemes()[checked_choice(scheme, "scheme", tuple(_schemes()))]


def lime_quality(
    scheme: str, cce_fraction: float, passing: Mapping[int, float], *, moisture_fraction: float = 0.0
) -> LimeQuality:
    """Work out how much of a bag's lime counts, from its label.

    Parameters
    ----------
    scheme : {"iowa_ecce", "new_york_env", "kentucky_rnv"}
        Whose rule, as the label or the class's state names it.
    cce_fraction : float
        The bag's calcium carbonate equivalent, 0.5 to 1.1; a stronger lime is not for gardens.
    passing : mapping of int to float
        Share of the lime that passes each of ``lime_sieves(scheme)``, 0 to 1: all of it, not what lies between two.
    moisture_fraction : float
        Share of water, up to 0.3; only Iowa's scheme takes it off.

    Returns
    -------
    LimeQuality
        Fineness and effective share with the working.

    Raises
    ------
    InputProblem
        When a sieve is missing, a share cannot be, more passes a finer sieve than a coarser one, or the lime is too
        strong for a garden.

    Notes
    -----
    Source: Iowa State University Extension PM 1688 (2002), ECCE; Cornell University, objective 41, ENV; Mississippi
    State University Extension P3762 and University of Kentucky AGR-106, RNV.

    Examples
    --------
    >>> round(lime_quality("kentucky_rnv", 0.9, {10: 0.95, 50: 0.40}).effective_fraction, 4)
    0.6075
    """
    sieves, notes = _sieves(scheme), Notes()
    cce = checked_garden_lime(cce_fraction)
    wet = checked_share(moisture_fraction, "moisture_fraction", 0.0, MOST_MOISTURE)
    meshes = tuple(sieve.mesh for sieve in sieves)
    if set(passing) != set(meshes):
        raise InputProblem("bag.sieves", n=len(meshes), sieves=", ".join(map(str, meshes)))
    shares = [checked_share(passing[mesh], f"passing {mesh} mesh", 0.0, 1.0) for mesh in meshes]
    for (coarse, above), (fine, below) in pairwise(zip(meshes, shares, strict=True)):
        if below > above:
            raise InputProblem("bag.rises", fine=fine, coarse=coarse)
    fineness = 0.0
    for sieve, share, finer in zip(sieves, shares, [*shares[1:], 0.0], strict=True):
        counted = share - finer if sieve.counts == "between" else share
        part = counted * sieve.factor
        given: dict[str, Value] = {
            "mesh": sieve.mesh,
            "share": Quantity(100 * counted, "percent"),
            "factor": sieve.factor,
        }
        key = "bag.between" if sieve.counts == "between" else "bag.passing"
        notes.step(key, "share * factor", given, Quantity(100 * part, "percent"), sieve.sources[0])
        notes.cite(*sieve.sources)
        fineness += part
    dry = 1 - wet if scheme == "iowa_ecce" else 1.0
    effective = fineness * cce * dry
    whole: dict[str, Value] = {
        "fineness": Quantity(100 * fineness, "percent"),
        "CCE": Quantity(100 * cce, "percent"),
        "dry_part": Quantity(100 * dry, "percent"),
    }
    rule = "fineness * CCE * dry_part"
    notes.step("bag.effective", rule, whole, Quantity(100 * effective, "percent"), sieves[0].sources[0])
    if scheme == "iowa_ecce" and wet == 0:
        notes.say("bag.dry")
    notes.say("bag.which_rate")
    return LimeQuality(scheme=scheme, fineness_fraction=fineness, effective_fraction=effective, **notes.parts())
