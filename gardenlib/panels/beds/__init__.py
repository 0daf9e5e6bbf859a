"""Page 03: what fits in a bed, in straight lines, and how to water it."""

from gardenlib.lazy import attach

__all__ = ["closer", "containers", "count", "lines", "my_bed", "rotation", "set_lines", "settled", "to_get", "water"]
__getattr__, __dir__ = attach(__name__, dict.fromkeys(__all__, ""))
