"""The season: the plan, the plan replayed over every past season, and what really happened."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach

if TYPE_CHECKING:
    pass

__all__: list[str] = []

_HOME: dict[str, str] = {}
__getattr__, __dir__ = attach(__name__, _HOME)
