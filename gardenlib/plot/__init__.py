"""The plot file: what one learner's plot is and what was planned, guessed and answered there.

`new`, `read`, `update` and `start_over` are all that pages need; pydantic is loaded with the
first of them.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from gardenlib.plot.model import Bed, Eaten, Household, LogEntry, Planting, Plot, Site, Soil
    from gardenlib.plot.store import empty, new, read, start_over, update

_HOME = {
    "Bed": "model",
    "Eaten": "model",
    "Household": "model",
    "LogEntry": "model",
    "Planting": "model",
    "Plot": "model",
    "Site": "model",
    "Soil": "model",
    "empty": "store",
    "new": "store",
    "read": "store",
    "start_over": "store",
    "update": "store",
}
__all__ = [
    "Bed",
    "Eaten",
    "Household",
    "LogEntry",
    "Planting",
    "Plot",
    "Site",
    "Soil",
    "empty",
    "new",
    "read",
    "start_over",
    "update",
]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_HOME[name]}"), name)


def __dir__() -> list[str]:
    return __all__
