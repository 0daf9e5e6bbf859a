"""Tables of pests and diseases."""

from __future__ import annotations

from collections.abc import Mapping

from gardenlib.tables.columns import Schema

SCHEMAS: Mapping[str, Schema] = {}
