"""What the tables say for a bed's water: the soil, the crop's thirst and roots, and the rain that counts."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, cast

from gardenlib.beds.soil_water import MM_M_PER_IN_FT, coefficient
from gardenlib.checks import checked_between, checked_choice
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity
from gardenlib.working import Notes, Value

FAO, FAO_TABLES = "fao56", "fao56_tables"
ASSUMED_TEXTURE = "loam"


def row_of(table: str, column: str, value: str) -> Mapping[str, Any] | None:
    """Find the row of a table, or None."""
    return next((row for row in rows(table) if row[column] == value), None)


def in_mm(value: float) -> Quantity:
    """Write a depth of water in the working."""
    return Quantity(value, "mm")


def soil_of(texture: str | None, notes: Notes, *, by_days: bool = True) -> tuple[str, float]:
    """Give the soil and the least water it holds for roots, millimetres in a metre; `by_days` where it sets a gap."""
    name = texture or ASSUMED_TEXTURE
    held = {row["texture"]: row for row in rows("water_held")}
    row = held[checked_choice(name, "texture", tuple(held))]
    if not texture:
        notes.say("water.loam_assumed")
    notes.cite(row["source"])
    if by_days:
        notes.say("water.low_end", row["source"])
    return name, row["low_in_ft"] * MM_M_PER_IN_FT


def kc_and_root(
    row: Mapping[str, Any], stage: str, days_since: int | None, pot_m: float, notes: Notes
) -> tuple[float, float]:
    """Give the coefficient and the depth of the roots, metres."""
    kc, low = (row["kc_start"], row["kc_full"], row["kc_end"]), row["root_low_m"]
    if stage == "just_planted":
        notes.say("water.pot_roots", depth=Quantity(pot_m * 100, "cm"))
        return kc[0], min(pot_m, low)
    if days_since is None:
        notes.say("water.full_grown")
        return kc[1], low
    days = checked_between(days_since, "days_since", 0, 400)
    lengths = cast("Mapping[str, Any]", row_of("water_stages", "stages", row["stages"]))
    parts = (lengths["start_days"], lengths["growing_days"], lengths["full_days"], lengths["late_days"])
    notes.say("water.stage_lengths", FAO_TABLES, region=lengths["region"].title())
    # Roots grow from the pot's depth to the table's while the leaves grow; no source beyond FAO-56's own sketch.
    grown = float(coefficient(days, (*parts[:2], 400, 0), (0.0, 1.0, 1.0)))
    return float(coefficient(days, parts, kc)), min(pot_m, low) + (low - min(pot_m, low)) * grown


def rain_counted(rain: float, held: float, *, under_plastic: bool, notes: Notes) -> float:
    """Give the rain that reaches and stays at the roots, mm."""
    if under_plastic:
        notes.say("water.rain_plastic", "psu_drip")
        return 0.0
    if rain > held:
        notes.say("water.rain_through", held=in_mm(held))
    return min(rain, held)


def tell_steps(notes: Notes, x: Mapping[str, float]) -> None:
    """Keep the steps from the grass's use to the days between waterings."""
    notes.step(
        "water.use", "coefficient * grass", {"coefficient": x["kc"], "grass": in_mm(x["et"])}, in_mm(x["use"]), FAO
    )
    given: dict[str, Value] = {"held_in_a_metre": in_mm(x["per_m"]), "roots": Quantity(x["root"], "m")}
    notes.step("water.held", "held_in_a_metre * roots", given, in_mm(x["held"]), FAO)
    given = {"held": in_mm(x["held"]), "p": x["p"], "use": in_mm(x["use"])}
    rule = "held * (p + 0.04 * (5 - use_in_mm)), the part from 0.1 to 0.8"
    notes.step("water.ready", rule, given, in_mm(x["ready"]), FAO)
    given = {"ready": in_mm(x["ready"]), "use": in_mm(x["use"])}
    notes.step("water.days", "ready / use, rounded down", given, x["ready"] / x["use"] if x["use"] else None, FAO)
    notes.cite(FAO_TABLES)


def has_water_row(crop: str | Crop) -> bool:
    """Tell whether FAO-56 has a row for the crop, its own or one that stands in.

    Parameters
    ----------
    crop : str or Crop
        The crop.

    Returns
    -------
    bool
        Whether its water can be reckoned.

    Notes
    -----
    Source: Allen et al. 1998 (FAO-56), tables 12 and 22.

    Examples
    --------
    >>> has_water_row("kale"), has_water_row("basil")
    (True, False)
    """
    return row_of("water_crops", "crop", as_crop(crop).id) is not None
