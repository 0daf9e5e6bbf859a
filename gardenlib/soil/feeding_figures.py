"""The published and unchecked figures that feeding, compost and mixes lean on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from gardenlib.tables.loader import rows


def feeding_figure(name: str) -> Mapping[str, Any]:
    """Give one row of the figures that go with feeding."""
    return next(row for row in rows("feeding_figures") if row["figure"] == name)
