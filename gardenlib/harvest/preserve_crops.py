"""Which crops have published amounts to preserve, and whether a place lies high."""

from __future__ import annotations

from typing import Literal, get_args

from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.units import M_PER_FOOT

Way = Literal["jar", "crock"]
HIGH_M = 5000 * M_PER_FOOT


def crops_to_preserve(way: Literal["jar", "crock", "freezer"]) -> tuple[str, ...]:
    """List the crops for which amounts are published.

    Parameters
    ----------
    way : {"jar", "crock", "freezer"}
        What is filled.

    Returns
    -------
    tuple of str
        Crop ids.

    Raises
    ------
    InputProblem
        When there is no such way.

    Notes
    -----
    Source: the keys in ``tables.table("preserve_yields")`` and ``tables.table("freezer_crops")``. That an amount is
    published does not make a way safe: that is for a tested recipe to say.

    Examples
    --------
    >>> "cabbage_main" in crops_to_preserve("crock"), "cabbage_main" in crops_to_preserve("jar")
    (True, False)
    """
    if way == "freezer":
        return tuple(row["crop"] for row in rows("freezer_crops"))
    if way not in get_args(Way):
        raise InputProblem("preserve.way", value=str(way)[:40], known=", ".join((*get_args(Way), "freezer")))
    found = (crop for row in rows("preserve_yields") if row["way"] == way for crop in row["crops"].split("|"))
    return tuple(dict.fromkeys(found))


def high_place(elevation_m: float | None) -> bool | None:
    """Tell whether a place lies so high that the office must be asked.

    Parameters
    ----------
    elevation_m : float or None
        Height above the sea, metres.

    Returns
    -------
    bool or None
        True above 5,000 feet; None where the height is not known.

    Notes
    -----
    Common practice, no source. Tested recipes ask for the height at lower places too.

    Examples
    --------
    >>> high_place(1600.0), high_place(250.0), high_place(None)
    (True, False, None)
    """
    return None if elevation_m is None else elevation_m > HIGH_M
