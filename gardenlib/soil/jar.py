"""The jar: from layers or marks on the glass to percents, and the texture class with what the jar leaves open."""

from __future__ import annotations

import math
from typing import Literal

from gardenlib.problems import InputProblem
from gardenlib.soil.doubt import Doubt, Mix
from gardenlib.soil.texture import SoilTexture, described
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import COMMON_PRACTICE, Notes, Value

Given = Literal["layers", "marks"]
LEAST_MM, MOST_MM = 10.0, 300.0
"""Soil in a jar: below 1 cm a layer cannot be read, above 30 cm no jar is so tall."""
DOUBT_PCT = 5.0
CLAY_OVER_PCT = 10.0
"""Our own bounds, no source: what a ruler leaves open, and how much fresh clay stands too high."""
PARTS = ("sand", "silt", "clay")
SHARES = ("jar.share_sand", "jar.share_silt", "jar.share_clay")


def jar_percents(lengths_mm: tuple[float, float, float], *, given: Given) -> Mix:
    """Turn what was measured on a jar into percents of the soil's height.

    Parameters
    ----------
    lengths_mm : tuple of (float, float, float)
        Sand, silt and clay from the bottom up, millimetres.
    given : {"layers", "marks"}
        Whether these are the thicknesses of the three layers, or three heights above the bottom of the jar.

    Returns
    -------
    tuple of (float, float, float)
        Sand, silt and clay in percent of the soil, not of the water.

    Raises
    ------
    InputProblem
        When a length is negative or no number, the marks fall, or the soil is no height that a jar holds.

    Notes
    -----
    Source: Montana State University, Soil Texture Jar Test (2021): a layer's thickness over that of all three.

    Examples
    --------
    >>> jar_percents((40, 40, 20), given="layers")
    (40.0, 40.0, 20.0)
    >>> jar_percents((45, 66, 75), given="marks")
    (60.0, 28.0, 12.0)
    """
    sand, silt, clay = _layers(lengths_mm, given)
    total = sand + silt + clay
    return 100 * sand / total, 100 * silt / total, 100 * clay / total


def jar_texture(
    lengths_mm: tuple[float, float, float],
    *,
    given: Given,
    doubt_pct: float = DOUBT_PCT,
    clay_over_pct: float = CLAY_OVER_PCT,
) -> SoilTexture:
    """Name the texture class that a jar shows, and the classes that it may be as well.

    Parameters
    ----------
    lengths_mm : tuple of (float, float, float)
        Sand, silt and clay from the bottom up, millimetres.
    given : {"layers", "marks"}
        Whether these are the thicknesses of the three layers, or three heights above the bottom of the jar.
    doubt_pct : float
        Points by which each share may be off; 5 is our own bound, no source.
    clay_over_pct : float
        Points by which the clay may be too high on top of that; 10 is our own bound, no source.

    Returns
    -------
    SoilTexture
        The class and its neighbours with the working.

    Raises
    ------
    InputProblem
        When a length is negative or no number, the marks fall, or the soil is no height that a jar holds.

    Notes
    -----
    Source: Montana State University, Soil Texture Jar Test (2021) for the percents; Soil Survey Manual 2017 for the
    class. A layer shows volume, not mass, and fresh clay is loose, so that a jar reads clay too high.

    Examples
    --------
    >>> jar = jar_texture((45, 66, 75), given="marks")
    >>> jar.texture, round(jar.clay_pct)
    ('sandy loam', 12)
    """
    notes = Notes()
    layers = _layers(lengths_mm, given)
    if given == "marks":
        marks: dict[str, Value] = {"mark": _mm(lengths_mm[1]), "mark_below": _mm(lengths_mm[0])}
        notes.step("jar.layer_silt", "mark - mark_below", marks, _mm(layers[1]), COMMON_PRACTICE)
        marks = {"mark": _mm(lengths_mm[2]), "mark_below": _mm(lengths_mm[1])}
        notes.step("jar.layer_clay", "mark - mark_below", marks, _mm(layers[2]), COMMON_PRACTICE)
    mix = jar_percents(layers, given="layers")
    for key, layer, share in zip(SHARES, layers, mix, strict=True):
        inputs: dict[str, Value] = {"layer": _mm(layer), "all_layers": _mm(sum(layers))}
        result = Quantity(share, "percent")
        notes.step(key, "layer / all_layers * 100", inputs, result, "montana_jar_2021")
    notes.say("jar.volume")
    return described(mix, Doubt.checked(doubt_pct, clay_over_pct), notes)


def _mm(length: float) -> Quantity:
    return Quantity(length, "mm")


def _layers(lengths_mm: tuple[float, float, float], given: Given) -> Mix:
    """Check what was measured and give the three layers."""
    if given not in {"layers", "marks"}:
        raise InputProblem("jar.given", value=given)
    if len(lengths_mm) != len(PARTS):
        raise InputProblem("jar.three", n=len(lengths_mm))
    for part, length in zip(PARTS, lengths_mm, strict=True):
        what = Said(f"jar.{given}_{part}")
        if isinstance(length, bool) or not isinstance(length, int | float) or not math.isfinite(length):
            raise InputProblem("jar.number", part=what, value=length)
        if length < 0:
            raise InputProblem("jar.negative", part=what, value=_mm(length))
    first, second, third = (float(length) for length in lengths_mm)
    if given == "marks":
        for below, above, part in ((first, second, "silt"), (second, third, "clay")):
            if above < below:
                what = Said(f"jar.marks_{part}")
                raise InputProblem("jar.falling", part=what, value=_mm(above), below=_mm(below))
        second, third = second - first, third - second
    total = first + second + third
    if not LEAST_MM <= total <= MOST_MM:
        raise InputProblem("jar.total", value=_mm(total), least=_mm(LEAST_MM), most=_mm(MOST_MM))
    return first, second, third
