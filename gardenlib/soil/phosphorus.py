"""Too much phosphorus: what was found in community gardens."""

from __future__ import annotations

from dataclasses import dataclass

from gardenlib.soil.feeding_figures import feeding_figure
from gardenlib.units import Range


@dataclass(frozen=True)
class PhosphorusFound:
    """What one university found in community gardens.

    Parameters
    ----------
    gardens, over : int
        Gardens that were sampled, and those with more phosphorus than plants need.
    found_ppm : Range
        Lowest and highest, parts per million by the Bray test.
    very_high_ppm : float
        From where on the same test is very high.
    """

    gardens: int
    over: int
    found_ppm: Range
    very_high_ppm: float


def phosphorus_found() -> PhosphorusFound:
    """Give what one university found in community gardens.

    Returns
    -------
    PhosphorusFound
        Gardens and soil tests.

    Notes
    -----
    Source: University of Minnesota Extension, How much compost should you apply to your garden this spring?

    Examples
    --------
    >>> phosphorus_found().gardens
    20
    """
    found = feeding_figure("phosphorus_found")
    return PhosphorusFound(
        gardens=int(feeding_figure("gardens_tested")["low"]),
        over=int(feeding_figure("gardens_over")["low"]),
        found_ppm=Range(found["low"], found["high"], "ppm"),
        very_high_ppm=float(feeding_figure("phosphorus_very_high")["low"]),
    )
