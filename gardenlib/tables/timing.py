"""From each published figure to the range over all of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from statistics import median
from typing import Any

Row = dict[str, Any]


def timing(figures: Sequence[Mapping[str, Any]]) -> list[Row]:
    """Work out each crop's range from the published figures that count.

    Parameters
    ----------
    figures : sequence of mapping
        Rows of the table ``crop_timing_by_source``.

    Returns
    -------
    list of dict
        One row a crop and field: lowest and highest figure, and the typical range, from the median of the lowest to
        the median of the highest; ``published`` as soon as one of the figures was read in a source.
    """
    groups: dict[tuple[str, str], list[Mapping[str, Any]]] = {}
    for figure in figures:
        if figure["counted"] == "yes":
            groups.setdefault((figure["crop"], figure["field"]), []).append(figure)
    return [_one_timing(crop, field, group) for (crop, field), group in groups.items()]


def _one_timing(crop: str, field: str, group: Sequence[Mapping[str, Any]]) -> Row:
    unit = "days" if field.startswith("days") else "weeks"
    lows, highs = (
        [figure[end] / 7 if figure["unit"] == "days" and unit == "weeks" else figure[end] for figure in group]
        for end in ("low", "high")
    )
    keys = list(dict.fromkeys(figure["source"] for figure in group))
    return {
        "crop": crop,
        "field": field,
        "low": min(lows),
        "high": max(highs),
        "typical_low": median(lows),
        "typical_high": median(highs),
        "unit": unit,
        "n_sources": len(keys),
        "source": "|".join(keys),
        "status": "published" if any(figure["status"] == "published" for figure in group) else "memory",
    }
