"""Page 05: when to look for pests, what they are, and whether to act."""

from gardenlib.lazy import attach

__all__ = ["before", "big", "disease", "look", "settled", "what", "when"]
__getattr__, __dir__ = attach(__name__, dict.fromkeys(__all__, ""))
