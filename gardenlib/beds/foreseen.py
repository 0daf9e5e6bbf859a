"""Foreseen mistakes in counting what fits: what comes out when one step is left out."""

from __future__ import annotations

from dataclasses import dataclass

from gardenlib.beds.can_and_hose import depth_litres
from gardenlib.beds.fits import TIE, laid
from gardenlib.units import LITRES_PER_GALLON, MM_PER_INCH, System, in_system

PATH_M = 0.6


@dataclass(frozen=True)
class Slips:
    """What comes out for squares when a step is left out: a check offers these beside the right count."""

    right: int
    not_squared: int
    no_margin: int
    units_mixed: float


def slips(length_m: float, width_m: float, spacing_m: float, *, system: System) -> Slips:
    """Work out the foreseen mistakes in a count of squares.

    Parameters
    ----------
    length_m, width_m, spacing_m : float
        The bed and the distance, metres.
    system : {"us", "metric"}
        Units in which somebody reckons: feet and inches, or metres and centimetres.

    Returns
    -------
    Slips
        The right count; area by the distance, not by its square; plants set on the very edge; and the area in feet
        (metres) by the square of inches (centimetres).

    Raises
    ------
    InputProblem
        When a length cannot be used.

    Notes
    -----
    Plane geometry; common practice, no source.

    Examples
    --------
    >>> found = slips(2.4384, 1.2192, 0.6096, system="us")
    >>> found.right, found.not_squared, found.no_margin, round(found.units_mixed, 3)
    (8, 16, 15, 0.056)
    """
    right = laid((length_m, width_m), spacing_m, "square", None, None).plants
    edge = laid((length_m, width_m), spacing_m, "square", 0.0, None).plants
    sides = [in_system(side, "m", system)[0] for side in (length_m, width_m, spacing_m)]
    small, _ = in_system(spacing_m * 100, "cm", system)
    area = sides[0] * sides[1]
    return Slips(right, int(area / sides[2] + TIE), edge, area / small**2)


@dataclass(frozen=True)
class InchSlips:
    """Litres of an inch of water on a bed, and what comes out with the path counted or the units mixed."""

    right: float
    with_path: float
    units_mixed: float


def inch_slips(length_m: float, width_m: float, *, system: System) -> InchSlips:
    """Work out the foreseen mistakes in an inch of water on a bed.

    Parameters
    ----------
    length_m, width_m : float
        The bed, metres.
    system : {"us", "metric"}
        Units in which somebody reckons: gallons or litres.

    Returns
    -------
    InchSlips
        Litres for the bed; for the bed with a path of 0.6 m around it; and the figure of one unit under the name of
        the other.

    Raises
    ------
    InputProblem
        When the bed is too large.

    Notes
    -----
    By the units themselves; no source.

    Examples
    --------
    >>> found = inch_slips(2.0, 1.0, system="metric")
    >>> round(found.right, 1), round(found.with_path, 2), round(found.units_mixed, 2)
    (50.8, 178.82, 13.42)
    """
    right = depth_litres(MM_PER_INCH, length_m * width_m)
    wide = depth_litres(MM_PER_INCH, (length_m + 2 * PATH_M) * (width_m + 2 * PATH_M))
    return InchSlips(right, wide, right * LITRES_PER_GALLON if system == "us" else right / LITRES_PER_GALLON)
