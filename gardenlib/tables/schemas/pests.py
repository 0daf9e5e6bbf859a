"""Tables of pests and diseases."""

from __future__ import annotations

from collections.abc import Mapping

from gardenlib.tables.columns import MAYBE_NUMBER, NOTE, NUMBER, PROVENANCE, TEXT, Column, Schema

DEGREE_METHODS = ("average", "capped-average", "modified-average")
STARTS = ("season_start", "apr_1", "seen")
STAGES = ("young", "growing", "heading")
KINDS = ("pest", "helper")
FIRST = ("pick", "rub", "wash", "cover", "dig", "lift", "look", "leave")
FEATURES = ("longest_mm", "mid_leg_pairs")
COVER_OFF = ("first_flower", "harvest")
COVER_WHY = ("insects", "shaken", "wind", "alone", "no_flower")
MAPPINGS = ("as_published", "assumed", "not_computable")

SCHEMAS: Mapping[str, Schema] = {
    "pests": Schema({"pest": TEXT, "families": NOTE, "crops": NOTE, **PROVENANCE}, key=("pest",)),
    "pest_models": Schema(
        {
            "pest": TEXT,
            "event": TEXT,
            "unit": Column("choice", choices=("F", "C")),
            "lower": NUMBER,
            "upper": MAYBE_NUMBER,
            "method": Column("choice", needed=False, choices=DEGREE_METHODS),
            "start": Column("choice", choices=STARTS),
            "dd_low": NUMBER,
            "dd_high": NUMBER,
            "mapping": Column("choice", choices=MAPPINGS),
            "assumed": NOTE,
            **PROVENANCE,
        },
        key=("pest", "event", "source"),
        spans=(("dd_low", "dd_high"),),
    ),
    "id_key": Schema(
        {"question": TEXT, "sign": TEXT, "picture": NOTE, "leads_to": NOTE, "result": NOTE, **PROVENANCE},
        key=("question", "sign"),
    ),
    "id_results": Schema(
        {
            "result": TEXT,
            "kind": Column("choice", choices=KINDS),
            "first": Column("choice", choices=FIRST),
            "picture": TEXT,
            **PROVENANCE,
        },
        key=("result",),
    ),
    "id_features": Schema(
        {
            "animal": TEXT,
            "feature": Column("choice", choices=FEATURES),
            "low": NUMBER,
            "high": NUMBER,
            **PROVENANCE,
        },
        key=("animal", "feature"),
        spans=(("low", "high"),),
    ),
    "pest_thresholds": Schema(
        {
            "pest_group": TEXT,
            "crops": TEXT,
            "stage": Column("choice", choices=STAGES),
            "plants_hit_pct": NUMBER,
            **PROVENANCE,
        },
        key=("pest_group", "crops", "stage", "source"),
    ),
    "controls": Schema(
        {
            "control": TEXT,
            "what": TEXT,
            "measure": TEXT,
            "families": NOTE,
            "low": NUMBER,
            "high": NUMBER,
            "unit": TEXT,
            **PROVENANCE,
        },
        key=("control", "what", "measure", "source"),
        spans=(("low", "high"),),
    ),
    "control_trials": Schema(
        {
            "trial": TEXT,
            "control": TEXT,
            "low": MAYBE_NUMBER,
            "high": MAYBE_NUMBER,
            "unit": NOTE,
            **PROVENANCE,
        },
        key=("trial",),
    ),
    "covers_off": Schema(
        {
            "crop": TEXT,
            "off": Column("choice", choices=COVER_OFF),
            "why": Column("choice", choices=COVER_WHY),
            **PROVENANCE,
        },
        key=("crop",),
    ),
    "diseases": Schema(
        {"disease": TEXT, "property": TEXT, "low": NUMBER, "high": NUMBER, "unit": TEXT, **PROVENANCE},
        key=("disease", "property", "source"),
        spans=(("low", "high"),),
    ),
}
