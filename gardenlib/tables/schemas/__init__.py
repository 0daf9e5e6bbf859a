"""The columns of every table, declared once, one module a room; a room's files lie in the folder of its name."""

from __future__ import annotations

from collections.abc import Mapping

from gardenlib.tables.columns import STATUSES, TEXT, Column, Schema
from gardenlib.tables.schemas import beds, crops, harvest, pests, season, soil

SOURCES = Schema(
    {
        "key": TEXT,
        "citation": TEXT,
        "where_seen": TEXT,
        "status": Column("choice", choices=STATUSES),
    },
    key=("key",),
)

ROOMS: Mapping[str, Mapping[str, Schema]] = {
    "": {"sources": SOURCES},
    "crops": crops.SCHEMAS,
    "soil": soil.SCHEMAS,
    "beds": beds.SCHEMAS,
    "pests": pests.SCHEMAS,
    "harvest": harvest.SCHEMAS,
    "season": season.SCHEMAS,
}
SCHEMAS = {name: schema for room in ROOMS.values() for name, schema in room.items()}
FOLDERS = {name: room for room, schemas in ROOMS.items() for name in schemas}
