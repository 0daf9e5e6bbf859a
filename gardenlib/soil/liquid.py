"""What a liquid feed can give against what a bed needs."""

from __future__ import annotations

from dataclasses import dataclass

from gardenlib.checks import checked_between
from gardenlib.problems import InputProblem
from gardenlib.soil.feeding_figures import feeding_figure
from gardenlib.soil.lime_checks import MOST_AREA_M2
from gardenlib.soil.products import MOST_KG_M2
from gardenlib.units import Quantity
from gardenlib.working import Answer, Notes

FL_OZ_PER_GALLON = 128
"""US fluid ounces in a US gallon (NIST Special Publication 811, appendix B)."""


@dataclass(frozen=True, kw_only=True)
class LiquidFeed(Answer):
    """A liquid feed against the need of a bed.

    Parameters
    ----------
    need_kg : float
        Nitrogen that the bed needs.
    product_litres : float
        Liquid from the bottle that holds it.
    mix_litres : float
        The same once it is mixed with water as on the label.
    cans : float
        Full cans of the mix for the whole need.
    can_kg : float
        Nitrogen in one full can.
    """

    need_kg: float
    product_litres: float
    mix_litres: float
    cans: float
    can_kg: float


def liquid_feed(
    n_kg_m2: float,
    area_m2: float,
    *,
    n_pct: float,
    can_litres: float = 9.0,
    product_kg_litre: float | None = None,
    mix_fraction: float | None = None,
) -> LiquidFeed:
    """Set a liquid feed against the nitrogen that a bed needs.

    Parameters
    ----------
    n_kg_m2 : float
        Nitrogen that is needed, 0 to 0.05 kilograms a square metre.
    area_m2 : float
        The bed, 0.05 to 10,000 square metres.
    n_pct : float
        The first number on the bottle, percent, 0.1 to 50.
    can_litres : float
        What the can holds, 0.5 to 30 litres.
    product_kg_litre : float, optional
        Weight of a litre of the product, 0.5 to 2 kilograms; without it an unchecked figure stands in.
    mix_fraction : float, optional
        Product in a litre of water, 0.0005 to 1; without it an unchecked figure stands in.

    Returns
    -------
    LiquidFeed
        Product, mix and cans, with the working.

    Raises
    ------
    InputProblem
        When a number cannot be used.

    Notes
    -----
    Nitrogen is volume times weight of a litre times the percent on the label: plain arithmetic, common practice,
    no source.  The two figures that stand in are from memory and unchecked; the answer says so.  The label comes first.

    Examples
    --------
    A hundred square metres that need a gram each, from a bottle of 10 percent that weighs as much as water:

    >>> feed = liquid_feed(0.001, 100, n_pct=10, can_litres=10, product_kg_litre=1.0, mix_fraction=0.01)
    >>> round(feed.product_litres, 9), round(feed.cans, 9)
    (1.0, 10.0)
    """
    area = checked_between(area_m2, "area_m2", 0.05, MOST_AREA_M2)
    need = checked_between(n_kg_m2, "n_kg_m2", 0, MOST_KG_M2) * area
    if n_pct == 0:
        raise InputProblem("feeding.no_nitrogen")
    share = checked_between(n_pct, "n_pct", 0.1, 50) / 100
    can = checked_between(can_litres, "can_litres", 0.5, 30)
    notes = Notes()
    notes.say("feeding.label_first")
    weight_row, mix_row = feeding_figure("liquid_weight"), feeding_figure("liquid_mix")
    if product_kg_litre is None:
        product_kg_litre = float(weight_row["low"])
        notes.say("feeding.liquid_weight", str(weight_row["source"]))
    if mix_fraction is None:
        mix_fraction = float(mix_row["low"]) / FL_OZ_PER_GALLON
        notes.say("feeding.liquid_mix", str(mix_row["source"]))
    weight = checked_between(product_kg_litre, "product_kg_litre", 0.5, 2)
    mixed = checked_between(mix_fraction, "mix_fraction", 0.0005, 1)
    product = need / (weight * share)
    mix = product / mixed
    litres = Quantity(product, "litres")
    grams = {"need": Quantity(need * 1000, "g"), "grams in a litre": Quantity(weight * share * 1000, "g")}
    source = str(weight_row["source"])
    notes.step("feeding.liquid_product", "need / grams in a litre", grams, litres, source)
    given = {"product": litres, "water": Quantity(1 / mixed, "litres")}
    notes.step("feeding.liquid_water", "product * water", given, Quantity(mix, "litres"), str(mix_row["source"]))
    return LiquidFeed(
        need_kg=need,
        product_litres=product,
        mix_litres=mix,
        cans=mix / can,
        can_kg=can * mixed * weight * share,
        **notes.parts(),
    )
