"""Texture: the twelve classes of the Soil Survey Manual from sand, silt and clay, and the classes nearby."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from gardenlib.problems import InputProblem
from gardenlib.soil.doubt import Doubt, Mix
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import Answer, Notes, Value

CLASSES = (
    *("sand", "loamy sand", "silty clay", "sandy clay", "clay", "silty clay loam", "clay loam", "sandy clay loam"),
    *("silt", "silt loam", "loam", "sandy loam"),
)
SLACK = 0.01
"""Allowance at each limit, as in the particle size estimator of the National Soil Information System."""
OFF_BY = 1.0
"""Points by which three measured percents may miss 100."""
Share = float | npt.ArrayLike


@dataclass(frozen=True, kw_only=True)
class SoilTexture(Answer):
    """The texture class of a mix and the classes that it may be as well.

    Parameters
    ----------
    texture : str
        USDA name in lower case, such as ``silt loam``.
    neighbours : tuple of str
        Other classes that lie within the doubt, the nearest first.
    sand_pct, silt_pct, clay_pct : float
        The mix, brought to 100.
    corners : tuple of (float, float, float)
        The doubt as a shape: sand, silt and clay at its corners; empty without a doubt.
    """

    texture: str
    neighbours: tuple[str, ...]
    sand_pct: float
    silt_pct: float
    clay_pct: float
    corners: tuple[Mix, ...] = ()


def texture_classes(sand_pct: Share, silt_pct: Share, clay_pct: Share) -> npt.NDArray[np.str_]:
    """Name the texture class of many mixes at once.

    Parameters
    ----------
    sand_pct, silt_pct, clay_pct : float or array
        Percent by mass of the soil finer than 2 mm; the three must make 99 to 101 and are brought to 100.

    Returns
    -------
    array of str
        USDA names in lower case, of the shape of the input.

    Raises
    ------
    InputProblem
        When a share is no number from 0 to 100, or three shares do not make 100.

    Notes
    -----
    Source: Soil Survey Manual 2017, chapter 3, pages 122 to 124. Each limit has a slack of 0.01, as in the estimator
    of the National Soil Information System.

    Examples
    --------
    >>> texture_classes([30, 90], [40, 5], [30, 5]).tolist()
    ['clay loam', 'sand']
    """
    sand, silt, clay = brought_to_100(sand_pct, silt_pct, clay_pct)
    fine, finer = silt + 1.5 * clay, silt + 2 * clay

    def reaches(share: npt.NDArray[np.float64], limit: float) -> npt.NDArray[np.bool_]:
        return np.asarray(share >= limit - SLACK)

    def above(share: npt.NDArray[np.float64], limit: float) -> npt.NDArray[np.bool_]:
        return np.asarray(share > limit + SLACK)

    # The order lets each line lean on those before it; every mix that is left at the end is a sandy loam.
    found = np.select(
        [
            ~reaches(fine, 15),
            ~reaches(finer, 30),
            reaches(clay, 40) & reaches(silt, 40),
            reaches(clay, 35) & above(sand, 45),
            reaches(clay, 40),
            reaches(clay, 27) & ~above(sand, 20),
            reaches(clay, 27) & ~above(sand, 45),
            reaches(clay, 20) & ~reaches(silt, 28) & above(sand, 45),
            reaches(silt, 80) & ~reaches(clay, 12),
            reaches(silt, 50),
            reaches(clay, 7) & reaches(silt, 28) & ~above(sand, 52),
        ],
        list(range(len(CLASSES) - 1)),
        len(CLASSES) - 1,
    )
    return np.asarray(np.array(CLASSES)[found])


def texture_class(sand_pct: float, silt_pct: float, clay_pct: float) -> str:
    """Name the texture class of one mix.

    Parameters
    ----------
    sand_pct, silt_pct, clay_pct : float
        Percent by mass of the soil finer than 2 mm; the three must make 99 to 101 and are brought to 100.

    Returns
    -------
    str
        USDA name in lower case.

    Raises
    ------
    InputProblem
        When a share is no number from 0 to 100, or the three do not make 100.

    Notes
    -----
    Source: Soil Survey Manual 2017, chapter 3, pages 122 to 124; see `texture_classes`.

    Examples
    --------
    >>> texture_class(30, 40, 30)
    'clay loam'
    """
    return str(texture_classes(sand_pct, silt_pct, clay_pct))


def soil_texture(
    sand_pct: float, silt_pct: float, clay_pct: float, *, doubt_pct: float = 0.0, clay_over_pct: float = 0.0
) -> SoilTexture:
    """Name the texture class, and the classes nearby that the measuring leaves open.

    Parameters
    ----------
    sand_pct, silt_pct, clay_pct : float
        Percent by mass of the soil finer than 2 mm.
    doubt_pct : float
        Points by which each share may be off, up or down, 0 to 20.
    clay_over_pct : float
        Points by which the clay may be too high on top of that, as in a jar, 0 to 20.

    Returns
    -------
    SoilTexture
        The class and its neighbours with the working.

    Raises
    ------
    InputProblem
        When a number cannot be used, or the three shares do not make 100.

    Notes
    -----
    Source: Soil Survey Manual 2017, chapter 3 (classes). The doubt is what the caller says; see `Doubt`.

    Examples
    --------
    >>> soil_texture(40, 40, 20, doubt_pct=3).texture
    'loam'
    >>> soil_texture(46, 27, 27, doubt_pct=2).neighbours
    ('clay loam', 'loam')
    """
    return described((sand_pct, silt_pct, clay_pct), Doubt.checked(doubt_pct, clay_over_pct), Notes())


def described(given: Mix, doubt: Doubt, notes: Notes) -> SoilTexture:
    """Name class and neighbours of a mix, after the steps that led to it."""
    sand, silt, clay = (float(share) for share in brought_to_100(*given))
    total = sum(given)
    if abs(total - 100) > SLACK:
        inputs: dict[str, Value] = {"share": Quantity(given[2], "percent"), "total": Quantity(total, "percent")}
        notes.step("texture.to_100", "share / total * 100", inputs, Quantity(clay, "percent"), "common_practice")
    texture = texture_class(sand, silt, clay)
    row = next(row for row in rows("texture_classes") if row["texture"] == texture)
    mix: dict[str, Value] = {"sand": _pct(sand), "silt": _pct(silt), "clay": _pct(clay)}
    notes.step("texture.rule", row["rule"], mix, texture, row["source"])
    neighbours: tuple[str, ...] = ()
    corners: tuple[Mix, ...] = ()
    if doubt.any:
        near = texture_classes(*doubt.mixes((sand, silt, clay)).T)
        names, counts = np.unique(near, return_counts=True)
        often = sorted(zip(-counts, names, strict=True))
        neighbours = tuple(str(name) for _, name in often if name != texture)
        corners = doubt.corners((sand, silt, clay))
        notes.say("texture.doubt", n=doubt.doubt_pct)
    if doubt.clay_over_pct:
        notes.say("texture.clay_over", n=doubt.clay_over_pct)
    return SoilTexture(
        texture=texture,
        neighbours=neighbours,
        sand_pct=sand,
        silt_pct=silt,
        clay_pct=clay,
        corners=corners,
        **notes.parts(),
    )


def _pct(share: float) -> Quantity:
    return Quantity(share, "percent")


def texture_name(texture: str) -> Said:
    """Name a texture class in the reader's language.

    Parameters
    ----------
    texture : str
        USDA name in lower case.

    Returns
    -------
    Said
        The name, to be spoken.

    Raises
    ------
    InputProblem
        When there is no such class.

    Notes
    -----
    Source: Soil Survey Manual 2017, chapter 3 (the twelve names).

    Examples
    --------
    >>> str(texture_name("silt loam"))
    'silt loam'
    """
    if texture not in CLASSES:
        raise InputProblem("texture.no_class", value=texture, known=", ".join(sorted(CLASSES)))
    return Said(f"texture.name.{texture.replace(' ', '_')}")


def brought_to_100(sand_pct: Any, silt_pct: Any, clay_pct: Any) -> tuple[npt.NDArray[np.float64], ...]:
    """Check three shares and bring them to 100."""
    shares = [as_numbers(share, name) for share, name in ((sand_pct, "sand"), (silt_pct, "silt"), (clay_pct, "clay"))]
    for share, name in zip(shares, ("sand", "silt", "clay"), strict=True):
        outside = ~((share >= 0) & (share <= 100))
        if outside.any():
            raise InputProblem("texture.share", part=Said(f"texture.{name}"), value=f"{share[outside].flat[0]:g}")
    total = np.asarray(shares[0] + shares[1] + shares[2])
    off = np.abs(total - 100) > OFF_BY + 1e-9
    if off.any():
        raise InputProblem("texture.sum", total=f"{total[off].flat[0]:g}")
    return tuple(share * (100 / total) for share in shares)


def as_numbers(value: Any, name: str) -> npt.NDArray[np.float64]:
    """Read numbers; a text that looks like one is refused all the same, since 6,2 may be 6.2 or two numbers."""
    given = np.asarray(value)
    if given.dtype.kind not in "iuf":
        raise InputProblem("texture.number", part=Said(f"texture.{name}"), value=value)
    return given.astype(float)
