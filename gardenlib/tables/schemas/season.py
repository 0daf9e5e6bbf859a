"""Tables of the season."""

from __future__ import annotations

from collections.abc import Mapping

from gardenlib.tables.columns import NUMBER, PROVENANCE, TEXT, Schema

SCHEMAS: Mapping[str, Schema] = {
    "cold_covers": Schema(
        {"cover": TEXT, "low_f": NUMBER, "high_f": NUMBER, **PROVENANCE}, key=("cover",), spans=(("low_f", "high_f"),)
    ),
}
