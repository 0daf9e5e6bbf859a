"""What the panels on keeping share: the crops they offer, and the thermometer of the learner's place."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib.harvest.keeping_rows import series_of
from gardenlib.panels import controls as c
from gardenlib.units import f_to_c

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

TYPED = {"us": (-10, 110, 40), "metric": (-25, 45, 4)}
"""Lowest, highest and first value of the thermometer."""


def storable(session: Session) -> list[str]:
    """List the learner's crops that something is published for, then the others."""
    return [i for i in session.crops_own_first if series_of(i)]


def thermometer(session: Session) -> dict[str, w.Widget]:
    """Make the control for a temperature; its name carries the unit, for a class that changes units."""
    units = session.voice.units
    low, high, first = TYPED[units]
    return {f"temp_{units}": c.number(session.voice.say(f"keep.temp_{units}"), low, high, first, 1)}


def temp_c(values: Mapping[str, Any]) -> float:
    """Read the thermometer."""
    return f_to_c(float(values["temp_us"])) if "temp_us" in values else float(values["temp_metric"])
