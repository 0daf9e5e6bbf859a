"""Widgets for the pages: one module a page, and what all pages share.

A page opens a `Session` and places panels.  A panel holds no arithmetic: a pure
``view`` of the session and the values of its controls makes what is shown.
"""

from __future__ import annotations

from importlib import import_module
from typing import Any

_HOME = {
    "Session": "session",
    "open_page": "page",
    "results": "page",
    "text": "controls",
    "climate": "",
    "cold_spell": "",
    "even": "",
    "fall": "",
    "kinds": "",
    "my_list": "",
    "own_place": "",
    "place": "",
    "risk": "",
    "seeds": "",
    "sowing": "",
    "start": "",
    "warm": "",
}
__all__ = [
    "Session",
    "climate",
    "cold_spell",
    "even",
    "fall",
    "kinds",
    "my_list",
    "open_page",
    "own_place",
    "place",
    "results",
    "risk",
    "seeds",
    "sowing",
    "start",
    "text",
    "warm",
]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    module = import_module(f"{__name__}.{_HOME[name] or name}")
    return getattr(module, name) if _HOME[name] else module


def __dir__() -> list[str]:
    return __all__
