"""Sowing dates: from the published weeks and the risk of cold at a place to one window a crop."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.sowing.bolting import ColdSpell, cold_spell_risk
    from gardenlib.sowing.by_source import BySource, window_by_source
    from gardenlib.sowing.chance import chance_of_enough, germination_range, seeds_to_sow
    from gardenlib.sowing.coming_short import Shortfall, shortfall, simple_sowing
    from gardenlib.sowing.costs import RiskCosts, risk_costs
    from gardenlib.sowing.dates import SowingDates, sowing_dates
    from gardenlib.sowing.emergence import Emergence, days_to_emerge
    from gardenlib.sowing.even import EvenHarvest, even_harvest
    from gardenlib.sowing.even_days import sowings_between
    from gardenlib.sowing.fall import LatestSowing, latest_sowing, next_fall
    from gardenlib.sowing.germination import has_seed, has_standard
    from gardenlib.sowing.hardening import HardeningPlan, hardening_plan
    from gardenlib.sowing.kinds import Kinds, compare_kinds, kinds_of
    from gardenlib.sowing.limits import cold_limit_f, default_risk
    from gardenlib.sowing.packet_days import with_packet
    from gardenlib.sowing.past_heat import crops_with_base
    from gardenlib.sowing.remaining import RemainingGap, remaining_gap
    from gardenlib.sowing.seeds import SeedPlan, seed_plan
    from gardenlib.sowing.soil_temp import SoilTemp, soil_temp_from_air
    from gardenlib.sowing.still import StillPossible, still_possible
    from gardenlib.sowing.windows import days_of_weeks, harvest_window, regions, week_of

__all__ = [
    "BySource",
    "ColdSpell",
    "Emergence",
    "EvenHarvest",
    "HardeningPlan",
    "Kinds",
    "LatestSowing",
    "RemainingGap",
    "RiskCosts",
    "SeedPlan",
    "Shortfall",
    "SoilTemp",
    "SowingDates",
    "StillPossible",
    "chance_of_enough",
    "cold_limit_f",
    "cold_spell_risk",
    "compare_kinds",
    "crops_with_base",
    "days_of_weeks",
    "days_to_emerge",
    "default_risk",
    "even_harvest",
    "germination_range",
    "hardening_plan",
    "harvest_window",
    "has_seed",
    "has_standard",
    "kinds_of",
    "latest_sowing",
    "next_fall",
    "regions",
    "remaining_gap",
    "risk_costs",
    "seed_plan",
    "seeds_to_sow",
    "shortfall",
    "simple_sowing",
    "soil_temp_from_air",
    "sowing_dates",
    "sowings_between",
    "still_possible",
    "week_of",
    "window_by_source",
    "with_packet",
]

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
