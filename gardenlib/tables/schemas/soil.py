"""Tables of the soil: texture, lime, feeding, gifts and lead."""

from __future__ import annotations

from collections.abc import Mapping

from gardenlib.tables.columns import Schema

SCHEMAS: Mapping[str, Schema] = {}
