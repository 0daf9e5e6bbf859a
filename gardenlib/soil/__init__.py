"""Soil: texture, lime, feeding, gifts and mixes, from a handful and a laboratory's sheet."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach

if TYPE_CHECKING:
    pass

__all__: list[str] = []

_HOME: dict[str, str] = {}
__getattr__, __dir__ = attach(__name__, _HOME)
