"""Page 07: the season's plan, replayed over every past season, and what really happened."""

from gardenlib.lazy import attach

__all__ = ["before_after", "by_week", "log", "plan", "replay", "settled", "what_if"]
__getattr__, __dir__ = attach(__name__, dict.fromkeys(__all__, ""))
