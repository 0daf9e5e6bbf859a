"""The class: packs to print, and the day itself."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach

if TYPE_CHECKING:
    from gardenlib.classroom.day import day_papers
    from gardenlib.classroom.pack_print import Pack, pack

__all__ = ["Pack", "day_papers", "pack"]

_HOME = {"Pack": "pack_print", "day_papers": "day", "pack": "pack_print"}
__getattr__, __dir__ = attach(__name__, _HOME)
