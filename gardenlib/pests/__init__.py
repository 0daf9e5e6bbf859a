"""Pests and diseases: when to look, what it is, whether to act, and what to do before."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach

if TYPE_CHECKING:
    from gardenlib.pests.identify import Identified, what_is_it
    from gardenlib.pests.models import attacks, pest_names
    from gardenlib.pests.scouting import Decision, chance_to_miss, scouting_decision
    from gardenlib.pests.sequential import SequentialPlan, chance_to_act, sequential_plan, walks
    from gardenlib.pests.when import EventWeeks, Forecast, forecast

__all__ = [
    "Decision",
    "EventWeeks",
    "Forecast",
    "Identified",
    "SequentialPlan",
    "attacks",
    "chance_to_act",
    "chance_to_miss",
    "forecast",
    "pest_names",
    "scouting_decision",
    "sequential_plan",
    "walks",
    "what_is_it",
]

_HOME = {
    "Identified": "identify",
    "what_is_it": "identify",
    "SequentialPlan": "sequential",
    "chance_to_act": "sequential",
    "sequential_plan": "sequential",
    "walks": "sequential",
    "Decision": "scouting",
    "chance_to_miss": "scouting",
    "scouting_decision": "scouting",
    "EventWeeks": "when",
    "Forecast": "when",
    "attacks": "models",
    "forecast": "when",
    "pest_names": "models",
}
__getattr__, __dir__ = attach(__name__, _HOME)
