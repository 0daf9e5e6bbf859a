"""The plot file: what one learner's plot is and what was planned, guessed and answered there.

`new`, `read`, `update` and `start_over` are all that pages need; pydantic is loaded with the
first of them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.plot.model import Bed, Eaten, Household, LogEntry, Planting, Plot, Site, Soil
    from gardenlib.plot.store import empty, new, read, start_over, update

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

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
