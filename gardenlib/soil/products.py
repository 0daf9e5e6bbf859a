"""Fertilizer for one bed from one bag: what to weigh out, and what else the bag brings."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from gardenlib.checks import checked_between
from gardenlib.problems import InputProblem
from gardenlib.soil.lime_checks import MOST_AREA_M2
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import Answer, Notes

NUTRIENTS = ("n", "p2o5", "k2o")
MOST_KG_M2 = 0.05
"""About twice the largest published rate (200 pounds an acre); more is a slip of the unit."""


@dataclass(frozen=True, kw_only=True)
class FertilizerForBed(Answer):
    """Fertilizer for one bed from one bag.

    Parameters
    ----------
    product_kg : float
        What to weigh out of the bag.
    binding : str or None
        The nutrient that is filled first and sets the weight; None where nothing is needed.
    supplied : mapping of str to float
        Kilograms of ``n``, ``p2o5`` and ``k2o`` that come with it.
    short : mapping of str to float
        Kilograms that are still missing, the nutrients that are short alone.
    unasked_phosphorus : Said or None
        Said where the bag brings phosphate and none was asked for.
    """

    product_kg: float
    binding: str | None
    supplied: Mapping[str, float]
    short: Mapping[str, float]
    unasked_phosphorus: Said | None


def fertilizer_for_bed(
    n_kg_m2: float,
    p2o5_kg_m2: float,
    k2o_kg_m2: float,
    area_m2: float,
    *,
    label_pct: tuple[float, float, float],
) -> FertilizerForBed:
    """Turn what a bed needs into a weight of this bag, and say what else the bag brings.

    Parameters
    ----------
    n_kg_m2, p2o5_kg_m2, k2o_kg_m2 : float
        What is needed of nitrogen, phosphate (P2O5) and potash (K2O), 0 to 0.05 kilograms a square metre.
    area_m2 : float
        The bed, 0.05 to 10,000 square metres.
    label_pct : tuple of float
        The three numbers on the bag, percent: N, P2O5, K2O.

    Returns
    -------
    FertilizerForBed
        Weight, what comes with it and what is still missing, with the working.

    Raises
    ------
    InputProblem
        When a number cannot be used, or the bag holds nothing of what is needed.

    Notes
    -----
    Source: NC State Extension, Caring for your lawn and the environment (product = nutrient / percent on the label).
    That the nutrient which is filled first sets the weight is common practice, without a published source: what was
    asked for is never put on twice.

    Examples
    --------
    Two and a half pounds of nitrogen as 10-10-10 are 25 pounds (University of Massachusetts Extension):

    >>> bed = fertilizer_for_bed(2.5 * 0.45359237 / 100, 0, 0, 100, label_pct=(10, 10, 10))
    >>> round(bed.product_kg / 0.45359237, 6)
    25.0
    """
    area = checked_between(area_m2, "area_m2", 0.05, MOST_AREA_M2)
    asked = zip(("n_kg_m2", "p2o5_kg_m2", "k2o_kg_m2"), (n_kg_m2, p2o5_kg_m2, k2o_kg_m2), strict=True)
    need = {
        nutrient: checked_between(rate, name, 0, MOST_KG_M2) * area
        for nutrient, (name, rate) in zip(NUTRIENTS, asked, strict=True)
    }
    label = _label(label_pct)
    notes = Notes()
    notes.say("feeding.label_first")
    weights = {key: need[key] / (label[key] / 100) for key in NUTRIENTS if need[key] > 0 and label[key] > 0}
    if not weights and any(need.values()):
        raise InputProblem("feeding.bag_lacks", label="-".join(f"{share:g}" for share in label.values()))
    binding = min(weights, key=lambda key: weights[key]) if weights else None
    product = weights[binding] if binding else 0.0
    if binding:
        given = {"need": Quantity(need[binding], "kg"), "percent": Quantity(label[binding], "percent")}
        result = Quantity(product, "kg")
        notes.step("feeding.bag", "need / (percent / 100)", given, result, "nc_state_lawn_environment")
    if len(weights) > 1:
        notes.say("feeding.first_filled", "common_practice")
    supplied = {key: product * label[key] / 100 for key in NUTRIENTS}
    for_nothing = supplied["p2o5"] > 0 and need["p2o5"] == 0
    return FertilizerForBed(
        product_kg=product,
        binding=binding,
        supplied=supplied,
        short={key: need[key] - supplied[key] for key in NUTRIENTS if need[key] - supplied[key] > 1e-9},
        unasked_phosphorus=Said("feeding.unasked_phosphorus") if for_nothing else None,
        **notes.parts(),
    )


def label_numbers(text: str) -> tuple[float, float, float]:
    """Read the three numbers on a bag as they are typed.

    Parameters
    ----------
    text : str
        Three numbers parted by hyphens, such as ``10-10-10`` or ``2.5-0.5-2``.

    Returns
    -------
    tuple of float
        N, P2O5 and K2O, percent.

    Raises
    ------
    InputProblem
        When it is no label.

    Notes
    -----
    The order of the three numbers is that of every bag: common practice, no source.

    Examples
    --------
    >>> label_numbers("24-6-6")
    (24.0, 6.0, 6.0)
    """
    try:
        shares = tuple(float(share) for share in str(text).strip().replace("\N{EN DASH}", "-").split("-"))
    except ValueError:
        shares = ()
    if len(shares) != len(NUTRIENTS) or not all(math.isfinite(share) for share in shares):
        raise InputProblem("feeding.label", value=str(text).strip()[:40] or "-")
    read = _label(shares)
    return read["n"], read["p2o5"], read["k2o"]


def _label(label_pct: tuple[float, ...]) -> dict[str, float]:
    if not isinstance(label_pct, tuple | list) or len(label_pct) != len(NUTRIENTS):
        raise InputProblem("feeding.label", value=str(label_pct))
    label = {
        nutrient: checked_between(share, "label_pct", 0, 100)
        for nutrient, share in zip(NUTRIENTS, label_pct, strict=True)
    }
    written = "-".join(f"{share:g}" for share in label.values())
    if not 0 < sum(label.values()) <= 100:
        raise InputProblem("feeding.label", value=written)
    if max(label.values()) < 1:
        meant = "-".join(f"{share * 100:g}" for share in label.values())
        raise InputProblem("feeding.label_fraction", value=written, meant=meant)
    return label
