"""Pests and diseases: when to look, what it is, whether to act, and what to do before."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.pests.clubroot import spores_left, years_until
    from gardenlib.pests.covers import CoverDates, cover_dates
    from gardenlib.pests.disease import DiseaseAnswer, disease_in_bed, disease_names
    from gardenlib.pests.identify import Identified, what_is_it
    from gardenlib.pests.models import attacks, pest_names
    from gardenlib.pests.nets import NetAnswer, mesh_keeps_out
    from gardenlib.pests.sample import plants_to_see_one
    from gardenlib.pests.scouting import Decision, chance_to_miss, scouting_decision
    from gardenlib.pests.sequential import SequentialPlan, chance_to_act, sequential_plan, walks
    from gardenlib.pests.wet_leaves import WetLeaves, leaf_wetness
    from gardenlib.pests.when import EventWeeks, Forecast, forecast

__all__ = [
    "CoverDates",
    "Decision",
    "DiseaseAnswer",
    "EventWeeks",
    "Forecast",
    "Identified",
    "NetAnswer",
    "SequentialPlan",
    "WetLeaves",
    "attacks",
    "chance_to_act",
    "chance_to_miss",
    "cover_dates",
    "disease_in_bed",
    "disease_names",
    "forecast",
    "leaf_wetness",
    "mesh_keeps_out",
    "pest_names",
    "plants_to_see_one",
    "scouting_decision",
    "sequential_plan",
    "spores_left",
    "walks",
    "what_is_it",
    "years_until",
]

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
