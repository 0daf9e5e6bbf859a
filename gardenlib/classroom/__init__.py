"""The class: packs to print, the day itself, and the instructor's pages."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.classroom.day import day_papers
    from gardenlib.classroom.desk import Desk, open_desk
    from gardenlib.classroom.desk_prepare import Prepare, prepare
    from gardenlib.classroom.desk_review import Review, review
    from gardenlib.classroom.pack_print import Pack, pack

__all__ = ["Desk", "Pack", "Prepare", "Review", "day_papers", "open_desk", "pack", "prepare", "review"]

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
