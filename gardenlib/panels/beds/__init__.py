"""Page 03: what fits in a bed, in straight lines, and how to water it."""

from gardenlib.lazy import attach

__all__: list[str] = []
__getattr__, __dir__ = attach(__name__, dict.fromkeys(__all__, ""))
