"""A soil sample: how many places, how deep, into what, and what to ask the laboratory for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from gardenlib.problems import InputProblem
from gardenlib.soil.lime_limits import limit, limit_source
from gardenlib.tables.loader import rows
from gardenlib.units import MM_PER_INCH, Quantity, Range
from gardenlib.words import Said
from gardenlib.working import Answer, Notes, Value

MOST_AREA_M2 = 10_000.0
TESTS = ("ph", "lime", "phosphorus", "potassium", "calcium", "magnesium", "organic_matter")


@dataclass(frozen=True, kw_only=True)
class SamplingPlan(Answer):
    """How to take a soil sample, and what to ask of it.

    Parameters
    ----------
    places : int
        From at least so many places each sample is mixed.
    share_m2 : float
        Ground for each place, square metres.
    depth : Range
        How deep, centimetres.
    amount : Range
        What goes to the laboratory, cups.
    samples : int
        How many samples: one for each kind of ground.
    before_planting : Range
        How long before planting, months.
    after_lime : Range
        How long after liming at the earliest, months.
    tests : tuple of str
        What to ask for: ``ph``, ``lime``, ..., ``lead``.
    rules : tuple of Said
        Bucket, drying, old and new ground, and tools, one sentence each.
    """

    places: int
    share_m2: float
    depth: Range
    amount: Range
    samples: int
    before_planting: Range
    after_lime: Range
    tests: tuple[str, ...]
    rules: tuple[Said, ...]


def sampling_plan(area_m2: float, *, new_ground: bool = False, lead_asked: bool = False) -> SamplingPlan:
    """Plan a soil sample.

    Parameters
    ----------
    area_m2 : float
        The ground that one sample stands for, square metres, up to 10,000.
    new_ground : bool
        Whether part of it was never a bed: it gets a sample of its own.
    lead_asked : bool
        Whether the history of the place asks for a test for lead.

    Returns
    -------
    SamplingPlan
        Places, depth, bucket, drying, time and tests.

    Raises
    ------
    InputProblem
        When the area cannot be used.

    Notes
    -----
    Source: Clemson University, Agricultural Service Laboratory, Collecting samples (places, depth, bucket, drying,
    amount); Ohio State University Extension and the North Carolina Department of Agriculture (months before planting);
    Royal Horticultural Society (months after liming). Which tests to ask for is common practice.

    Examples
    --------
    >>> plan = sampling_plan(24.0)
    >>> plan.places, plan.share_m2, plan.samples
    (12, 2.0, 1)
    """
    if isinstance(area_m2, bool) or not isinstance(area_m2, int | float) or not 0 < area_m2 <= MOST_AREA_M2:
        most = Quantity(MOST_AREA_M2, "m2")
        raise InputProblem("sample.area", value=str(area_m2), most=most)
    notes, figures = Notes(), {str(row["rule"]): row for row in rows("sampling")}
    places = int(figures["places"]["low"])
    given: dict[str, Value] = {"area": Quantity(area_m2, "m2"), "places": places}
    share = area_m2 / places
    notes.step("sample.share", "area / places", given, Quantity(share, "m2"), figures["places"]["source"])
    deep = _span(figures["depth"])
    depth = Range(deep.low * MM_PER_INCH / 10, deep.high * MM_PER_INCH / 10, "cm")
    notes.step("sample.depth", "depth", {}, depth, figures["depth"]["source"])
    notes.say("sample.at_least")
    notes.say("sample.lab_first")
    rules = [_rule("bucket", figures), _rule("drying", figures), _rule("apart", figures), _rule("metal", figures)]
    notes.cite(*(figures[name]["source"] for name in ("bucket", "drying", "apart", "metal", "amount")))
    notes.cite(limit_source("before_planting"), limit_source("not_tested_before"))
    return SamplingPlan(
        places=places,
        share_m2=share,
        depth=depth,
        amount=_span(figures["amount"]),
        samples=2 if new_ground else 1,
        before_planting=limit("before_planting"),
        after_lime=limit("not_tested_before"),
        tests=(*TESTS, "lead") if lead_asked else TESTS,
        rules=tuple(rules),
        **notes.parts(),
    )


def _span(row: Mapping[str, Any]) -> Range:
    return Range(row["low"], row["high"], row["unit"])


def _rule(name: str, figures: Mapping[str, Mapping[str, Any]]) -> Said:
    """Say a rule in words; one from memory says that it is unchecked."""
    said = Said(f"sample.rule.{name}")
    return Said("sample.unchecked", {"rule": said}) if figures[name]["status"] == "memory" else said
