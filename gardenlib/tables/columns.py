"""The columns of every table, declared once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

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
STATUSES = ("published", "memory", "common_practice")


@dataclass(frozen=True)
class Column:
    """What one column holds.

    Parameters
    ----------
    kind : {"text", "number", "choice", "sources"}
        How its cells are checked; ``sources`` are keys of the table of sources, joined by ``|``.
    needed : bool
        Whether an empty cell is refused.
    choices : tuple of str
        The words allowed in a ``choice``.
    """

    kind: Literal["text", "number", "choice", "sources"] = "text"
    needed: bool = True
    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class Schema:
    """One table: its columns, the ones that name a row, and its (low, high) pairs."""

    columns: Mapping[str, Column]
    key: tuple[str, ...]
    spans: tuple[tuple[str, str], ...] = ()


_TEXT = Column()
_NOTE = Column(needed=False)
_NUMBER = Column("number")
_PROVENANCE = {
    "source": Column("sources"),
    "where": _TEXT,
    "status": Column("choice", choices=STATUSES),
}

SCHEMAS: Mapping[str, Schema] = {
    "sources": Schema(
        {
            "key": _TEXT,
            "citation": _TEXT,
            "where_seen": _TEXT,
            "status": Column("choice", choices=STATUSES),
        },
        key=("key",),
    ),
    "crops": Schema(
        {
            "crop": _TEXT,
            "botanical_name": _TEXT,
            "family": _TEXT,
            "name_source": Column("sources"),
            "hardiness": Column("choice", choices=HARDINESS),
            "other_hardiness": _NOTE,
            "method": Column("choice", choices=METHODS),
            "cold_row": _NOTE,
            **_PROVENANCE,
        },
        key=("crop",),
    ),
    "crop_timing_by_source": Schema(
        {
            "crop": _TEXT,
            "field": Column("choice", choices=TIMING_FIELDS),
            "low": _NUMBER,
            "high": _NUMBER,
            "unit": Column("choice", choices=("weeks", "days")),
            "counted": Column("choice", choices=("yes", "no")),
            "note": _NOTE,
            **_PROVENANCE,
        },
        key=("crop", "field", "source", "low", "high"),
        spans=(("low", "high"),),
    ),
    "cold_limits": Schema(
        {
            "row": _TEXT,
            "stage": Column("choice", choices=STAGES),
            "temp_f": _NUMBER,
            **_PROVENANCE,
        },
        key=("row", "stage"),
    ),
    "degree_day_bases": Schema(
        {
            "crop": _TEXT,
            "vegetable": _TEXT,
            "base_f": _NUMBER,
            "upper_f": Column("number", needed=False),
            **_PROVENANCE,
        },
        key=("crop",),
    ),
    "heat_limits": Schema(
        {"crop": _TEXT, "vegetable": _TEXT, "min_mean_f": _NUMBER, "max_mean_f": _NUMBER, **_PROVENANCE},
        key=("crop",),
        spans=(("min_mean_f", "max_mean_f"),),
    ),
    "emergence_by_temp": Schema(
        {
            "crop": _TEXT,
            "vegetable": _TEXT,
            "soil_temp_f": _NUMBER,
            "state": Column("choice", choices=EMERGENCE_STATES),
            "days": Column("number", needed=False),
            **_PROVENANCE,
        },
        key=("crop", "soil_temp_f"),
    ),
    "germination_standard": Schema({"crop": _TEXT, "germination_pct": _NUMBER, **_PROVENANCE}, key=("crop",)),
    "seed_weight": Schema({"crop": _TEXT, "seeds_per_g": _NUMBER, **_PROVENANCE}, key=("crop",)),
    "spacing": Schema(
        {"crop": _TEXT, "bed_low_in": _NUMBER, "bed_high_in": _NUMBER, **_PROVENANCE},
        key=("crop",),
        spans=(("bed_low_in", "bed_high_in"),),
    ),
    "keeping": Schema(
        {
            "crop": _TEXT,
            "low": _NUMBER,
            "high": _NUMBER,
            "unit": Column("choice", choices=("weeks", "months")),
            "temp_f": _NUMBER,
            **_PROVENANCE,
        },
        key=("crop",),
        spans=(("low", "high"),),
    ),
    "cold_response": Schema(
        {
            "crop": _TEXT,
            "response": Column("choice", choices=("bolts", "buttons")),
            "stage": Column("choice", choices=("grown", "seedling")),
            "stem_mm": Column("number", needed=False),
            **_PROVENANCE,
            "below_f": Column("number", needed=False),
            "days": Column("number", needed=False),
            "limit_source": _NOTE,
            "limit_status": _NOTE,
        },
        key=("crop",),
    ),
    "hardening_off": Schema(
        {
            "topic": _TEXT,
            "plants": _TEXT,
            "low": _NUMBER,
            "high": _NUMBER,
            "unit": Column("choice", choices=("days", "hours", "degF")),
            **_PROVENANCE,
        },
        key=("topic", "plants"),
        spans=(("low", "high"),),
    ),
}
