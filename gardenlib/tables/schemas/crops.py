"""Tables of the crops: timing, cold, heat, germination and keeping."""

from __future__ import annotations

from collections.abc import Mapping

from gardenlib.tables.columns import MAYBE_NUMBER, NOTE, NUMBER, PROVENANCE, TEXT, Column, Schema

HARDINESS = ("hardy", "half-hardy", "tender", "very tender")
METHODS = ("transplant", "direct", "either", "sets", "slips", "pieces", "cloves")
STAGES = ("hardened", "not hardened")
TIMING_FIELDS = (
    "weeks_indoor",
    "transplant_wk",
    "direct_sow_wk",
    "days_from_transplant",
    "days_from_seed",
    "days_basis_not_stated",
    "harvest_wk",
    "fall_wk",
)
EMERGENCE_STATES = ("days", "none", "not tested")

SCHEMAS: Mapping[str, Schema] = {
    "crops": Schema(
        {
            "crop": TEXT,
            "botanical_name": TEXT,
            "family": TEXT,
            "name_source": Column("sources"),
            "hardiness": Column("choice", choices=HARDINESS),
            "other_hardiness": NOTE,
            "method": Column("choice", choices=METHODS),
            "cold_row": NOTE,
            **PROVENANCE,
        },
        key=("crop",),
    ),
    "crop_timing_by_source": Schema(
        {
            "crop": TEXT,
            "field": Column("choice", choices=TIMING_FIELDS),
            "low": NUMBER,
            "high": NUMBER,
            "unit": Column("choice", choices=("weeks", "days")),
            "counted": Column("choice", choices=("yes", "no")),
            "note": NOTE,
            **PROVENANCE,
        },
        key=("crop", "field", "source", "low", "high"),
        spans=(("low", "high"),),
    ),
    "cold_limits": Schema(
        {
            "row": TEXT,
            "stage": Column("choice", choices=STAGES),
            "temp_f": NUMBER,
            **PROVENANCE,
        },
        key=("row", "stage"),
    ),
    "degree_day_bases": Schema(
        {
            "crop": TEXT,
            "vegetable": TEXT,
            "base_f": NUMBER,
            "upper_f": MAYBE_NUMBER,
            **PROVENANCE,
        },
        key=("crop",),
    ),
    "heat_limits": Schema(
        {"crop": TEXT, "vegetable": TEXT, "min_mean_f": NUMBER, "max_mean_f": NUMBER, **PROVENANCE},
        key=("crop",),
        spans=(("min_mean_f", "max_mean_f"),),
    ),
    "emergence_by_temp": Schema(
        {
            "crop": TEXT,
            "vegetable": TEXT,
            "soil_temp_f": NUMBER,
            "state": Column("choice", choices=EMERGENCE_STATES),
            "days": MAYBE_NUMBER,
            **PROVENANCE,
        },
        key=("crop", "soil_temp_f"),
    ),
    "germination_standard": Schema({"crop": TEXT, "germination_pct": NUMBER, **PROVENANCE}, key=("crop",)),
    "seed_weight": Schema({"crop": TEXT, "seeds_per_g": NUMBER, **PROVENANCE}, key=("crop",)),
    "spacing": Schema(
        {"crop": TEXT, "bed_low_in": NUMBER, "bed_high_in": NUMBER, **PROVENANCE},
        key=("crop",),
        spans=(("bed_low_in", "bed_high_in"),),
    ),
    "keeping": Schema(
        {
            "crop": TEXT,
            "low": NUMBER,
            "high": NUMBER,
            "unit": Column("choice", choices=("weeks", "months")),
            "temp_f": NUMBER,
            **PROVENANCE,
        },
        key=("crop",),
        spans=(("low", "high"),),
    ),
    "cold_response": Schema(
        {
            "crop": TEXT,
            "response": Column("choice", choices=("bolts", "buttons")),
            "stage": Column("choice", choices=("grown", "seedling")),
            "stem_mm": MAYBE_NUMBER,
            **PROVENANCE,
            "below_f": MAYBE_NUMBER,
            "days": MAYBE_NUMBER,
            "limit_source": NOTE,
            "limit_status": NOTE,
        },
        key=("crop",),
    ),
    "hardening_off": Schema(
        {
            "topic": TEXT,
            "plants": TEXT,
            "low": NUMBER,
            "high": NUMBER,
            "unit": Column("choice", choices=("days", "hours", "degF")),
            **PROVENANCE,
        },
        key=("topic", "plants"),
        spans=(("low", "high"),),
    ),
}
