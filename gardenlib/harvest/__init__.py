"""Harvest and storage: how much, in which week, when it is ready, and where it keeps."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach

if TYPE_CHECKING:
    pass

__all__: list[str] = []

_HOME: dict[str, str] = {}
__getattr__, __dir__ = attach(__name__, _HOME)
