"""How much lime a bed asks for, by the laboratory's own rate or by one published method."""

from __future__ import annotations

from dataclasses import dataclass

from gardenlib.checks import checked_between, checked_choice, checked_share
from gardenlib.problems import InputProblem
from gardenlib.soil.lime_checks import TARGET_SPAN, checked_ph
from gardenlib.soil.lime_limits import TO_KG_M2, limit
from gardenlib.soil.lime_ways import Case, Way, way
from gardenlib.units import M_PER_FOOT, Quantity, Range
from gardenlib.words import Said
from gardenlib.working import Answer, Notes, Value

METHODS = ("lab_rate", "sikora_osu", "smp_isu", "mehlich_ncda", "mehlich_psu", "texture_usda")
MOST_KG_M2 = 5.5
"""Just above the largest rate printed in the tables, 23.2 short tons an acre."""
ORDINARY_TARGET_PH = 7.0
M_PER_INCH = M_PER_FOOT / 12


@dataclass(frozen=True, kw_only=True)
class LimeRate(Answer):
    """How much pure lime a square metre asks for.

    Parameters
    ----------
    method : str
        The method that was used.
    low_kg_m2, high_kg_m2 : float
        Pure calcium carbonate, kilograms per square metre; both 0 where none is needed.
    target_ph : float
        The pH that was aimed at.
    depth_m : float
        How deep it is to be worked in.
    checked : bool
        False where the figures are from memory: shown as "unchecked".
    """

    method: str
    low_kg_m2: float
    high_kg_m2: float
    target_ph: float
    depth_m: float
    checked: bool


def lime_rate(
    method: str,
    *,
    water_ph: float,
    target_ph: float,
    buffer_ph: float | None = None,
    acidity_meq_100g: float | None = None,
    texture: str | None = None,
    lab_rate: float | None = None,
    depth_m: float = 0.15,
    ph_method: str = "water",
    lab_cce_fraction: float = 1.0,
    clubroot_diagnosed: bool = False,
) -> LimeRate:
    """Work out the lime that brings a soil to a pH, as pure calcium carbonate.

    Parameters
    ----------
    method : {"lab_rate", "sikora_osu", "smp_isu", "mehlich_ncda", "mehlich_psu", "texture_usda"}
        The lab's own rate, or the published table of the buffer that the lab used.
    water_ph : float
        pH in water, 3 to 10.
    target_ph : float
        pH to aim at; above 7.0 only where club root was diagnosed, and with a sheet.
    buffer_ph : float, optional
        The sheet's buffer pH; for ``sikora_osu``, ``smp_isu`` and ``mehlich_ncda``.
    acidity_meq_100g : float, optional
        The sheet's exchangeable acidity; for ``mehlich_psu``, and ``mehlich_ncda`` in place of the buffer pH.
    texture : str, optional
        USDA texture or ``muck``; for ``texture_usda``.
    lab_rate : float, optional
        The lab's own rate, kg per square metre of lime of the quality `lab_cce_fraction`; for ``lab_rate``.
    depth_m : float
        How deep the lime is worked in, 0.05 to 0.45 m; counted in half inches. The lab's own rate stays as it is.
    ph_method : str
        How the pH was measured; only ``water`` can be used.
    lab_cce_fraction : float
        Calcium carbonate equivalent of the lime that the lab counts in; 1 is pure lime.
    clubroot_diagnosed : bool
        Whether somebody who knows has found club root in the bed.

    Returns
    -------
    LimeRate
        The rate with its working.

    Raises
    ------
    InputProblem
        When a value cannot be used, the pH was not measured in water, or the method does not reach the target.

    Notes
    -----
    Source: Oregon State EM 9585 Table 1 (100-score lime, 6 inches), Iowa State PM 1688 (pure lime, 6 inches), NCDA
    Circular 1 (lime of 90 %, taken as 6 inches), Penn State Agronomy Guide (pure lime, 7 inches), USDA 1951 (from
    memory, 7 inches). A rate goes up and down with the depth in a straight line (Iowa State PM 1688).

    Examples
    --------
    >>> rate = lime_rate("sikora_osu", water_ph=5.2, target_ph=5.6, buffer_ph=6.0)
    >>> round(rate.low_kg_m2 / 0.22417, 2)
    1.7
    """
    checked_choice(method, "method", METHODS)
    if ph_method != "water":
        raise InputProblem("lime.not_in_water", method=str(ph_method))
    ph, target = checked_ph(water_ph, "water_ph"), checked_ph(target_ph, "target_ph", TARGET_SPAN)
    depth = checked_between(depth_m, "depth_m", 0.05, 0.45)
    if lab_rate is not None and method != "lab_rate":
        raise InputProblem("lime.lab_rate_first")
    if target > ORDINARY_TARGET_PH and (not clubroot_diagnosed or method == "texture_usda"):
        raise InputProblem("lime.clubroot_only", target=f"{target:g}")
    notes = Notes()
    case = Case(ph, target, buffer_ph, acidity_meq_100g, texture)
    low = high = 0.0
    if ph >= target:
        given: dict[str, Value] = {"water_pH": ph, "target_pH": target}
        notes.step("lime.enough", "water_pH >= target_pH, so none", given, 0, "common_practice")
    elif method == "lab_rate":
        low = high = _lab(lab_rate, lab_cce_fraction, notes)
    else:
        found = way(method, case, notes)
        low, high = (_as_pure(end * TO_KG_M2[found.unit], found.cce, found.depth_in, depth) for end in found.ends)
        _convert(found, depth, Range(low, high, "kg_m2"), notes)
    if ph >= limit("no_lime_ph").low:
        notes.say("lime.alkaline", "smith_koike_clubroot", ph=ph)
    if target >= limit("clubroot_ph").low:
        notes.say("lime.clubroot", "oregon_clubroot_2013")
    return LimeRate(
        method=method,
        low_kg_m2=low,
        high_kg_m2=high,
        target_ph=target,
        depth_m=depth,
        checked=method != "texture_usda",
        **notes.parts(),
    )


def _lab(lab_rate: float | None, lab_cce_fraction: float, notes: Notes) -> float:
    if lab_rate is None:
        raise InputProblem("lime.needs", reading=Said("lime.what.lab_rate"), method=Said("lime.method.lab_rate"))
    rate = checked_between(lab_rate, "lab_rate", 0.0, MOST_KG_M2)
    cce = checked_share(lab_cce_fraction, "lab_cce_fraction", 0.5, 1.1)
    given: dict[str, Value] = {"lab_rate": Quantity(rate, "kg_m2"), "lab_CCE": Quantity(cce * 100, "percent")}
    notes.step("lime.lab", "lab_rate * lab_CCE", given, Quantity(rate * cce, "kg_m2"), "common_practice")
    notes.say("lime.lab_stands", cce=Quantity(cce * 100, "percent"))
    return rate * cce


def _inches(depth_m: float) -> float:
    """Count a depth in half inches, as it is dug."""
    return round(depth_m / M_PER_INCH * 2) / 2


def _as_pure(rate: float, cce: float, depth_in: float, depth_m: float) -> float:
    return rate * cce * _inches(depth_m) / depth_in


def _convert(found: Way, depth_m: float, pure: Range, notes: Notes) -> None:
    """Note how the printed unit, lime quality and depth become pure lime on a square metre."""
    source = notes.sources[0]
    given: dict[str, Value] = {"rate": Range(*found.ends, found.unit)}
    in_si = Range(found.ends[0] * TO_KG_M2[found.unit], found.ends[1] * TO_KG_M2[found.unit], "kg_m2")
    notes.step("lime.units", "rate in the other unit", given, in_si, "common_practice")
    if found.cce != 1:
        quality: dict[str, Value] = {"rate": in_si, "CCE": Quantity(found.cce * 100, "percent")}
        notes.step(
            "lime.quality", "rate * CCE", quality, Range(in_si.low * found.cce, in_si.high * found.cce, "kg_m2"), source
        )
    if _inches(depth_m) != found.depth_in:
        depths: dict[str, Value] = {"depth_in": _inches(depth_m), "table_depth_in": found.depth_in}
        notes.step("lime.depth", "rate * depth_in / table_depth_in", depths, pure, "iowa_pm1688")
