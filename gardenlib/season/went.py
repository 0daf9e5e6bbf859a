"""How one planting went over the past seasons: its columns of a replay, and their middle and ends."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import numpy as np

from gardenlib.season.plan_row import PlannedPlanting
from gardenlib.units import Quantity, Range
from gardenlib.working import Notes, Value

if TYPE_CHECKING:
    import pandas as pd

EARLY, LATE = 0.1, 0.9
_COUNTED = ("cold_nights", "heat_days", "dry_days", "pests_seen", "kg_low", "kg_high")


def columns_of(table: pd.DataFrame, planting: str) -> dict[str, Any]:
    """Take one planting's columns as arrays, in the order of the seasons; days count from planting."""
    here = np.flatnonzero((table["planting"] == planting).to_numpy())
    found: dict[str, Any] = {name: table[name].to_numpy(dtype=float)[here] for name in _COUNTED}
    planted = table["planted_on"].to_numpy("M8[D]")[here]
    for name in ("ready_early", "ready_late"):
        days = table[name].to_numpy("M8[D]")[here] - planted
        found[name] = np.where(np.isnat(days), np.nan, days.astype(float))
    for name in ("worked", "may_bolt"):
        found[name] = table[name].to_numpy(dtype=float, na_value=np.nan)[here]
    found["known"] = ~np.isnan(found["worked"])
    return {**found, "worked": found["worked"] == 1}


def beside(columns: dict[str, Any], one: PlannedPlanting, notes: Notes) -> dict[str, Any]:
    """Give what stands beside the verdict of one planting."""
    if one.heat_sum is not None and one.base is not None:
        given: dict[str, Value] = {"days": one.days, "base": Quantity(one.base.lower_c, "degC")}
        notes.step("replay.heat_sum", "typical year's degree days over days", given, one.heat_sum, one.base.sources[0])

    def middle(name: str) -> float | None:
        return None if np.isnan(columns[name]).all() else float(np.nanmedian(columns[name]))

    pests, bolts = middle("pests_seen"), columns["may_bolt"]
    return {
        "ready_first": _by(columns["ready_early"], EARLY, one.planted_on),
        "ready_last": _by(columns["ready_late"], LATE, one.planted_on),
        "heat_days": middle("heat_days"),
        "dry_days": middle("dry_days"),
        "bolt_seasons": None if np.isnan(bolts).all() else int(np.nansum(bolts)),
        "pests": None if pests is None else int(pests),
    }


def _by(days: Any, share: float, planted_on: date | None) -> date | None:
    """Give the day by which it was ready in a share of the seasons; None where it was not."""
    place = float(np.quantile(np.where(np.isnan(days), np.inf, days), share, method="higher"))
    return None if planted_on is None or np.isinf(place) else planted_on + timedelta(days=int(place))


def mean_kg(known: Sequence[dict[str, Any]]) -> Range | None:
    """Add the mean yields of the plantings whose yield is known."""
    ends = [(one["kg_low"].mean(), one["kg_high"].mean()) for one in known]
    found = [(low, high) for low, high in ends if not np.isnan(low)]
    return Range(float(sum(low for low, _ in found)), float(sum(high for _, high in found)), "kg") if found else None
