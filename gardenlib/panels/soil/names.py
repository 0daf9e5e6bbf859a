"""How texture classes are written on the page: their names, and the triangle with its words."""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING, Any

from gardenlib import charts
from gardenlib.charts.triangle import OUTLINES, texture_triangle
from gardenlib.soil import texture_name

if TYPE_CHECKING:
    from gardenlib.words import Voice


def named(textures: Collection[str], voice: Voice) -> str:
    """Write the names of some classes in a row."""
    return ", ".join(voice.say(texture_name(texture)) for texture in textures)


def known_name(texture: str, voice: Voice) -> str:
    """Write the name of a class from a plot file, as it stands there when it is none of the twelve."""
    return voice.say(texture_name(texture)) if texture in OUTLINES else texture


def triangle(voice: Voice, **marked: Any) -> str:
    """Draw the triangle with its words in the reader's language."""
    names = {texture: voice.say(f"texture.short.{texture.replace(' ', '_')}") for texture in OUTLINES}
    parts = {part: voice.say(f"texture.all_{part}") for part in ("sand", "silt", "clay")}
    return charts.svg(texture_triangle(names, parts, **marked))
