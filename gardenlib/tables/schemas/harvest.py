"""Tables of the harvest: yields and where it keeps."""

from __future__ import annotations

from collections.abc import Mapping

from gardenlib.tables.columns import MAYBE_NUMBER, NOTE, NUMBER, PROVENANCE, TEXT, Column, Schema

CARE = ("humidity", "freezes", "lowest_safe", "ethylene_hurts")
YIELD_UNITS = ("lb", "pieces", "heads", "bunches")

SIGN_PARTS = ("sign", "size", "cut", "keep", "second")

SCHEMAS: Mapping[str, Schema] = {
    "yields": Schema(
        {
            "crop": TEXT,
            "basis": Column("choice", choices=("row", "plant", "area")),
            "per_ft": MAYBE_NUMBER,
            "low": NUMBER,
            "high": NUMBER,
            "unit": Column("choice", choices=YIELD_UNITS),
            **PROVENANCE,
        },
        key=("crop", "basis", "unit", "source", "low"),
        spans=(("low", "high"),),
    ),
    "edible": Schema(
        {"crop": TEXT, "low_fraction": NUMBER, "high_fraction": NUMBER, **PROVENANCE},
        key=("crop",),
        spans=(("low_fraction", "high_fraction"),),
    ),
    "weights": Schema(
        {
            "crop": TEXT,
            "kind": Column("choice", choices=("cup", "piece")),
            "amount": NUMBER,
            "measure": TEXT,
            "grams": NUMBER,
            **PROVENANCE,
        },
        key=("crop", "kind", "amount", "measure", "where"),
    ),
    "picking": Schema(
        {
            "crop": TEXT,
            "picked": Column("choice", choices=("once", "again")),
            "raw_leafy": Column("choice", choices=("yes", "no")),
            **PROVENANCE,
        },
        key=("crop",),
    ),
    "planting_per_person": Schema(
        {
            "crop": TEXT,
            "use": Column("choice", choices=("fresh", "preserved")),
            "low": NUMBER,
            "high": NUMBER,
            "unit": Column("choice", choices=("plants", "ft", "hills")),
            **PROVENANCE,
        },
        key=("crop", "use", "source"),
        spans=(("low", "high"),),
    ),
    "myplate": Schema(
        {
            "group": TEXT,
            "from_age": NUMBER,
            "to_age": NUMBER,
            "low_cups_day": NUMBER,
            "high_cups_day": NUMBER,
            **PROVENANCE,
        },
        key=("group", "from_age"),
        spans=(("from_age", "to_age"), ("low_cups_day", "high_cups_day")),
    ),
    "storage_life": Schema(
        {
            "printed_as": TEXT,
            "crops": TEXT,
            "form": NOTE,
            "temp_c": NUMBER,
            "temp_to_c": MAYBE_NUMBER,
            "rh": NOTE,
            "low_days": NUMBER,
            "high_days": NUMBER,
            **PROVENANCE,
        },
        key=("crops", "form", "temp_c", "source"),
        spans=(("low_days", "high_days"),),
    ),
    "storage_care": Schema(
        {
            "printed_as": TEXT,
            "crops": TEXT,
            "form": NOTE,
            "property": Column("choice", choices=CARE),
            "temp_f": MAYBE_NUMBER,
            "level": Column("choice", needed=False, choices=("dry", "damp", "low", "medium", "high")),
            **PROVENANCE,
        },
        key=("crops", "form", "property"),
    ),
    "fridge_life": Schema(
        {"printed_as": TEXT, "crops": TEXT, "low_days": NUMBER, "high_days": NUMBER, **PROVENANCE},
        key=("printed_as",),
        spans=(("low_days", "high_days"),),
    ),
    "breathing": Schema(
        {"crop": TEXT, "temp_c": NUMBER, "low_ml_kg_hour": NUMBER, "high_ml_kg_hour": NUMBER, **PROVENANCE},
        key=("crop", "temp_c"),
        spans=(("low_ml_kg_hour", "high_ml_kg_hour"),),
    ),
    "harvest_signs": Schema(
        {
            "printed_as": TEXT,
            "crops": TEXT,
            "part": Column("choice", choices=SIGN_PARTS),
            "sign": TEXT,
            "low": MAYBE_NUMBER,
            "high": MAYBE_NUMBER,
            "unit": Column("choice", needed=False, choices=("in", "heads")),
            **PROVENANCE,
        },
        key=("crops", "part", "sign"),
    ),
    "freezer_crops": Schema({"crop": TEXT, **PROVENANCE}, key=("crop",)),
    "preserve_yields": Schema(
        {
            "printed_as": TEXT,
            "crops": TEXT,
            "way": Column("choice", choices=("jar", "crock")),
            "lb": NUMBER,
            "quarts_low": NUMBER,
            "quarts_high": NUMBER,
            "measure": Column("choice", choices=("bushel", "load", "batch")),
            **PROVENANCE,
        },
        key=("printed_as", "measure", "source"),
        spans=(("quarts_low", "quarts_high"),),
    ),
}
