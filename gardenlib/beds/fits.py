"""How many plants fit in a bed: in rows, in squares or offset; counts and places."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal, NamedTuple, TypeVar

import numpy as np
import numpy.typing as npt

from gardenlib.problems import InputProblem

if TYPE_CHECKING:
    import pandas as pd

Pattern = Literal["rows", "square", "offset"]
PATTERNS: tuple[Pattern, ...] = ("rows", "square", "offset")
LONGEST_M = 100.0
NARROWEST_M, WIDEST_M = 0.01, 5.0
MOST_PLACES = 200_000
LINE_APART = math.sqrt(3) / 2
"""Distance between two lines of an offset pattern, in spacings: the height of an equilateral triangle."""
TIE = 1e-6

Counts = npt.NDArray[np.int64]
Number = TypeVar("Number", int, Counts)


class Laid(NamedTuple):
    """How the lines lie: how many, plants in odd and in even ones, their distance, whether they run along the width."""

    lines: int
    odd: int
    even: int
    lines_apart_m: float
    turned: bool

    @property
    def plants(self) -> int:
        """All plants."""
        return int(total(self.lines, self.odd, self.even))


def in_line(free: npt.ArrayLike, apart: npt.ArrayLike) -> Counts:
    """Count the places on a line, one at its start; a line shorter than nothing holds none.

    The one place where a length is turned into a count: a tie that floats miss by a hair still counts.
    """
    return np.maximum(np.floor(np.asarray(free, dtype=float) / apart + TIE).astype(np.int64) + 1, 0)


def offset_lines(along: npt.ArrayLike, across: npt.ArrayLike, apart: npt.ArrayLike) -> tuple[Counts, Counts, Counts]:
    """Count lines, and places in odd and in even ones, where every second line is moved by half a spacing."""
    free, step = np.asarray(along, dtype=float), np.asarray(apart, dtype=float)
    return in_line(across, LINE_APART * step), in_line(free, step), in_line(free - step / 2, step)


def total(lines: Number, odd: Number, even: Number) -> Number:
    """Add up the places of all lines; the first line is an odd one."""
    return (lines + 1) // 2 * odd + lines // 2 * even


def plants_that_fit(
    length_m: float,
    width_m: float,
    spacing_m: float,
    *,
    pattern: Pattern = "offset",
    margin_m: float | None = None,
    row_spacing_m: float | None = None,
) -> int:
    """Count the plants that fit in a bed.

    Parameters
    ----------
    length_m, width_m : float
        The bed, metres, up to 100 m.
    spacing_m : float
        Distance from plant to plant, metres, 0.01 to 5 m.
    pattern : {"rows", "square", "offset"}
        Rows along the length; squares; or every second line moved by half a spacing. For ``offset`` lines along
        the length and lines along the width are both tried and the better is taken.
    margin_m : float, optional
        From the edge to the nearest plant, metres; half a spacing unless given.
    row_spacing_m : float, optional
        From row to row, metres; needed for ``rows`` and only there.

    Returns
    -------
    int
        Plants, 0 where not even one has its room.

    Raises
    ------
    InputProblem
        When a length is not a usable number, or row spacing and pattern do not go together.

    Notes
    -----
    Plane geometry; common practice, no source. Lines of an offset pattern are sqrt(3)/2 of a spacing apart.

    Examples
    --------
    >>> [plants_that_fit(2.4384, 1.2192, 0.4572, pattern=p) for p in ("square", "offset")]
    [10, 12]
    """
    return laid((length_m, width_m), spacing_m, pattern, margin_m, row_spacing_m).plants


def positions(
    length_m: float,
    width_m: float,
    spacing_m: float,
    *,
    pattern: Pattern = "offset",
    margin_m: float | None = None,
    row_spacing_m: float | None = None,
) -> pd.DataFrame:
    """Place the plants that fit in a bed.

    Parameters
    ----------
    length_m, width_m, spacing_m, pattern, margin_m, row_spacing_m
        As for `plants_that_fit`.

    Returns
    -------
    DataFrame
        One row a plant: ``x_m`` along the length and ``y_m`` along the width, from one corner, metres.

    Raises
    ------
    InputProblem
        As for `plants_that_fit`, and for more plants than can be placed one by one.

    Notes
    -----
    Plane geometry; common practice, no source.

    Examples
    --------
    >>> positions(1.0, 0.5, 0.5, pattern="square").x_m.tolist()
    [0.25, 0.75]
    """
    import pandas as pd

    way = laid((length_m, width_m), spacing_m, pattern, margin_m, row_spacing_m)
    if way.plants > MOST_PLACES:
        raise InputProblem("fit.too_many", plants=f"{way.plants:,}", most=f"{MOST_PLACES:,}")
    margin = spacing_m / 2 if margin_m is None else margin_m
    shift = spacing_m / 2 if pattern == "offset" else 0.0
    counts = np.where(np.arange(way.lines) % 2 == 0, way.odd, way.even)
    line = np.repeat(np.arange(way.lines), counts)
    place = np.arange(way.plants) - np.repeat(np.cumsum(counts) - counts, counts)
    along, across = margin + place * spacing_m + line % 2 * shift, margin + line * way.lines_apart_m
    x_m, y_m = (across, along) if way.turned else (along, across)
    return pd.DataFrame({"x_m": x_m, "y_m": y_m}, dtype=float)


def laid(
    bed_m: tuple[float, float],
    spacing_m: float,
    pattern: Pattern,
    margin_m: float | None,
    row_spacing_m: float | None,
) -> Laid:
    """Lay the lines in a bed of a length and a width, after a look at every number."""
    length_m, width_m = bed_m
    for name, value in (("length_m", length_m), ("width_m", width_m)):
        checked_length(value, name, 0, LONGEST_M, zero=False)
    checked_length(spacing_m)
    if pattern not in PATTERNS:
        raise InputProblem("fit.pattern", value=pattern, known=", ".join(PATTERNS))
    if (row_spacing_m is None) == (pattern == "rows"):
        raise InputProblem("fit.no_row_spacing" if pattern == "rows" else "fit.row_spacing_unused", pattern=pattern)
    if margin_m is not None:
        checked_length(margin_m, "margin_m", 0, LONGEST_M)
    margin = spacing_m / 2 if margin_m is None else margin_m
    along, across = length_m - 2 * margin, width_m - 2 * margin
    if pattern != "offset":
        apart = spacing_m
        if row_spacing_m is not None:
            apart = checked_length(row_spacing_m, "row_spacing_m")
        in_row = int(in_line(along, spacing_m))
        return Laid(int(in_line(across, apart)), in_row, in_row, apart, False)
    ways = [offset_lines(along, across, spacing_m), offset_lines(across, along, spacing_m)]
    first, second = (int(total(*way)) for way in ways)
    turned = second > first or (second == first and bool(width_m > length_m))
    lines, odd, even = map(int, ways[turned])
    return Laid(lines, odd, even, LINE_APART * spacing_m, turned)


def checked_length(
    value: float, name: str = "spacing_m", low: float = NARROWEST_M, high: float = WIDEST_M, *, zero: bool = True
) -> float:
    """Return a length within its limits, or refuse it in one sentence; `zero` tells whether it may be nothing."""
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    if not is_number or not low <= value <= high or not (zero or value > 0):
        raise InputProblem("fit.length", name=name, value=str(value), low=f"{low:g}", high=f"{high:g}")
    return float(value)
