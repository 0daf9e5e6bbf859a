"""Page 06: how much, when it is ready, and where it keeps."""

from gardenlib.lazy import attach

__all__ = ["air", "bridge", "eat_first", "keep", "much", "preserve", "ready", "settled"]
__getattr__, __dir__ = attach(__name__, dict.fromkeys(__all__, ""))
