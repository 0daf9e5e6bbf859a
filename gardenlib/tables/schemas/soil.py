"""Tables of the soil: texture, lime, feeding, gifts and lead."""

from __future__ import annotations

from collections.abc import Mapping

from gardenlib.tables.columns import MAYBE_NUMBER, NUMBER, PROVENANCE, TEXT, Column, Schema

SCHEMAS: Mapping[str, Schema] = {
    "texture_classes": Schema({"texture": TEXT, "rule": TEXT, **PROVENANCE}, key=("texture",)),
    "feel_key": Schema(
        {
            "texture": TEXT,
            "group": Column("choice", choices=("coarse", "middle", "fine")),
            "ball": Column("choice", choices=("yes", "no")),
            "ribbon": Column("choice", needed=False, choices=("none", "short", "middle", "long")),
            "feel": Column("choice", needed=False, choices=("gritty", "smooth", "neither")),
            **PROVENANCE,
        },
        key=("ball", "ribbon", "feel"),
    ),
    "ribbon_lengths": Schema(
        {
            "ribbon": Column("choice", choices=("short", "middle", "long")),
            "low_in": NUMBER,
            "high_in": MAYBE_NUMBER,
            **PROVENANCE,
        },
        key=("ribbon",),
    ),
    "jar_protocols": Schema(
        {
            "protocol": TEXT,
            "sand_after_min": NUMBER,
            "silt_after_hours": NUMBER,
            "clay_after_hours": NUMBER,
            "dispersant": TEXT,
            **PROVENANCE,
        },
        key=("protocol",),
    ),
    "lime_osu_sikora": Schema(
        {"buffer_ph": NUMBER, "target_ph": NUMBER, "short_t_ac": NUMBER, **PROVENANCE}, key=("buffer_ph", "target_ph")
    ),
    "lime_smp_isu": Schema(
        {"target_ph": NUMBER, "intercept": NUMBER, "slope": NUMBER, **PROVENANCE}, key=("target_ph",)
    ),
    "lime_psu_turf": Schema(
        {"acidity_meq_100g": NUMBER, "target_ph": NUMBER, "lb_1000_sq_ft": NUMBER, **PROVENANCE},
        key=("acidity_meq_100g", "target_ph"),
    ),
    "lime_texture_usda": Schema(
        {
            "region": Column("choice", choices=("cool", "warm")),
            "soil": TEXT,
            "from_ph": NUMBER,
            "to_ph": NUMBER,
            "short_t_ac": NUMBER,
            **PROVENANCE,
        },
        key=("region", "soil", "from_ph"),
        spans=(("from_ph", "to_ph"),),
    ),
    "lime_soils": Schema(
        {"texture": TEXT, "soil": TEXT, "match": Column("choice", choices=("exact", "nearest")), **PROVENANCE},
        key=("texture",),
    ),
    "lime_limits": Schema(
        {"rule": TEXT, "low": NUMBER, "high": NUMBER, "unit": TEXT, **PROVENANCE},
        key=("rule",),
        spans=(("low", "high"),),
    ),
    "sampling": Schema(
        {"rule": TEXT, "low": MAYBE_NUMBER, "high": MAYBE_NUMBER, "unit": TEXT, **PROVENANCE}, key=("rule",)
    ),
    "gifts": Schema(
        {
            "gift": TEXT,
            "question": TEXT,
            "answer": Column("choice", choices=("yes", "no", "unknown")),
            "verdict": Column("choice", choices=("take", "test", "refuse")),
            **PROVENANCE,
        },
        key=("gift", "question", "answer"),
    ),
    "gift_figures": Schema(
        {"figure": TEXT, "low": NUMBER, "high": NUMBER, "unit": TEXT, **PROVENANCE},
        key=("figure",),
        spans=(("low", "high"),),
    ),
    "feeding_rates": Schema(
        {
            "crop_class": Column("choice", choices=("mixed", "broccoli", "cabbage")),
            "level": Column("choice", choices=("low", "medium", "high", "very_high", "untested")),
            "n_low": NUMBER,
            "n_high": NUMBER,
            "phosphate_potash": MAYBE_NUMBER,
            "unit": Column("choice", choices=("lb_ac", "lb_1000_sq_ft")),
            **PROVENANCE,
        },
        key=("crop_class", "level"),
        spans=(("n_low", "n_high"),),
    ),
    "feeding_figures": Schema(
        {"figure": TEXT, "low": NUMBER, "high": NUMBER, "unit": TEXT, **PROVENANCE},
        key=("figure",),
        spans=(("low", "high"),),
    ),
    "feeders": Schema(
        {"crop": TEXT, "feeds": Column("choice", choices=("heavy", "light")), **PROVENANCE}, key=("crop",)
    ),
    "side_dress": Schema(
        {
            "crop": TEXT,
            "weeks_low": NUMBER,
            "weeks_high": NUMBER,
            "counted_from": Column("choice", choices=("planting", "transplanting")),
            **PROVENANCE,
        },
        key=("crop", "source", "weeks_low"),
        spans=(("weeks_low", "weeks_high"),),
    ),
    "soil_contact": Schema(
        {"crop": TEXT, "touches": Column("choice", choices=("yes", "no")), **PROVENANCE}, key=("crop",)
    ),
    "lead_history": Schema(
        {"question": TEXT, "about": Column("choice", choices=("house", "ground")), **PROVENANCE}, key=("question",)
    ),
    "lead_screening": Schema({"figure": TEXT, "ppm": NUMBER, "dated": TEXT, **PROVENANCE}, key=("figure",)),
    "target_ph": Schema({"crop": TEXT, "least_ph": NUMBER, **PROVENANCE}, key=("crop",)),
    "sulphur": Schema(
        {
            "from_low": NUMBER,
            "from_high": NUMBER,
            "to_low": NUMBER,
            "to_high": NUMBER,
            "soil": Column("choice", choices=("sand", "loam", "clay")),
            "amount": NUMBER,
            "unit": Column("choice", choices=("lb_ac", "g_m2")),
            **PROVENANCE,
        },
        key=("from_low", "to_low", "soil", "source"),
        spans=(("from_low", "from_high"), ("to_low", "to_high")),
    ),
    "lime_sieves": Schema(
        {
            "scheme": Column("choice", choices=("iowa_ecce", "new_york_env", "kentucky_rnv")),
            "mesh": NUMBER,
            "factor": NUMBER,
            "counts": Column("choice", choices=("passing", "between")),
            **PROVENANCE,
        },
        key=("scheme", "mesh"),
    ),
}
