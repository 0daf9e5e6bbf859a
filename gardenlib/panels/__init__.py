"""Widgets for the pages: one module a page, and what all pages share.

A page opens a `Session` and places panels.  A panel holds no arithmetic: a pure
``view`` of the session and the values of its controls makes what is shown.
"""

from __future__ import annotations

from gardenlib.lazy import attach

__all__ = [
    "Session",
    "beds",
    "climate",
    "cold_spell",
    "even",
    "fall",
    "harvest",
    "kinds",
    "my_list",
    "open_page",
    "own_place",
    "pests",
    "place",
    "practice",
    "results",
    "risk",
    "season",
    "seeds",
    "soil",
    "sowing",
    "start",
    "text",
    "warm",
]

_HOME = {"Session": "session", "open_page": "page", "results": "page", "text": "controls"}
__getattr__, __dir__ = attach(__name__, {**dict.fromkeys(__all__, ""), **_HOME})
