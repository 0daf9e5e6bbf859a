"""Page 02: the soil, from a handful and a laboratory's sheet."""

from gardenlib.lazy import attach

__all__ = [
    "acid",
    "bag",
    "compost",
    "feeding",
    "feel",
    "gifts",
    "jar",
    "lead",
    "lime",
    "mixes",
    "sample",
    "settled",
    "sheet",
    "state",
]
__getattr__, __dir__ = attach(__name__, dict.fromkeys(__all__, ""))
