"""Tables of the beds: containers, rotation and water."""

from __future__ import annotations

from collections.abc import Mapping

from gardenlib.tables.columns import MAYBE_NUMBER, NUMBER, PROVENANCE, TEXT, Column, Schema

SCHEMAS: Mapping[str, Schema] = {
    "spacing_by_source": Schema(
        {
            "crop": TEXT,
            "field": Column("choice", choices=("bed", "in_row", "in_row_groups", "between_rows")),
            "low_in": NUMBER,
            "high_in": NUMBER,
            **PROVENANCE,
        },
        key=("crop", "field", "source"),
        spans=(("low_in", "high_in"),),
    ),
    "spacing_trials": Schema(
        {
            "vegetable": TEXT,
            "trial": TEXT,
            "measure": Column("choice", choices=("head", "head_over", "yield")),
            "spacing_low_cm": MAYBE_NUMBER,
            "spacing_high_cm": MAYBE_NUMBER,
            "plants_low_m2": MAYBE_NUMBER,
            "plants_high_m2": MAYBE_NUMBER,
            "low": NUMBER,
            "high": MAYBE_NUMBER,
            "unit": Column("choice", choices=("kg", "t_ha")),
            **PROVENANCE,
        },
        key=("vegetable", "trial"),
    ),
    "rotation": Schema(
        {
            "family": TEXT,
            "kind": Column("choice", choices=("family", "disease")),
            "what": TEXT,
            "counted": Column("choice", choices=("without", "once_every", "many")),
            "low_years": MAYBE_NUMBER,
            "high_years": MAYBE_NUMBER,
            **PROVENANCE,
        },
        key=("family", "what", "source"),
    ),
    "early_blight": Schema(
        {"years_running": NUMBER, "leaves_lost_pct": NUMBER, **PROVENANCE},
        key=("years_running",),
    ),
    "water_crops": Schema(
        {
            "crop": TEXT,
            "fao_row": TEXT,
            "match": Column("choice", choices=("own", "stands_in")),
            "kc_start": NUMBER,
            "kc_full": NUMBER,
            "kc_end": NUMBER,
            "root_low_m": NUMBER,
            "root_high_m": NUMBER,
            "ready_fraction": NUMBER,
            "stages": TEXT,
            **PROVENANCE,
        },
        key=("crop",),
        spans=(("root_low_m", "root_high_m"),),
    ),
    "water_stages": Schema(
        {
            "stages": TEXT,
            "start_days": NUMBER,
            "growing_days": NUMBER,
            "full_days": NUMBER,
            "late_days": NUMBER,
            "planted": TEXT,
            "region": TEXT,
            **PROVENANCE,
        },
        key=("stages",),
    ),
    "water_held": Schema(
        {"texture": TEXT, "low_in_ft": NUMBER, "high_in_ft": NUMBER, **PROVENANCE},
        key=("texture",),
        spans=(("low_in_ft", "high_in_ft"),),
    ),
    "pots": Schema(
        {
            "crop": TEXT,
            "field": Column("choice", choices=("volume_gal", "depth_in", "plants")),
            "low": NUMBER,
            "high": NUMBER,
            **PROVENANCE,
        },
        key=("crop", "field", "source"),
        spans=(("low", "high"),),
    ),
    "pot_volumes": Schema(
        {
            "sold_as_gal": NUMBER,
            "made": Column("choice", choices=("nursery pot", "fabric bag")),
            "low_gal": NUMBER,
            "high_gal": NUMBER,
            **PROVENANCE,
        },
        key=("sold_as_gal", "made", "source"),
        spans=(("low_gal", "high_gal"),),
    ),
    "stature": Schema(
        {
            "crop": TEXT,
            "tall": Column("choice", choices=("yes", "no")),
            "picked": Column("choice", choices=("often", "once")),
            "support": Column("choice", choices=("stake", "trellis", "none")),
            **PROVENANCE,
        },
        key=("crop",),
    ),
    "line_practice": Schema({"item": TEXT, "value_m": NUMBER, **PROVENANCE}, key=("item",)),
}
