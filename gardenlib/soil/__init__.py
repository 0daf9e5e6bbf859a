"""Soil: texture, lime, feeding, gifts and mixes, from a handful and a laboratory's sheet."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.soil.acid import AcidAdvice, SulphurRate, acid_advice, sulphur_rate
    from gardenlib.soil.bed_feeding import FeedingForBed, feeding_for_bed
    from gardenlib.soil.compost import CompostForBed, compost_for_bed, compost_nitrogen
    from gardenlib.soil.feeding import FeedingNeed, feeding_need
    from gardenlib.soil.feel import FelTexture, ribbon_length, texture_by_feel
    from gardenlib.soil.gifts import GIFTS, GiftAdvice, gift_check, gift_questions
    from gardenlib.soil.jar import jar_percents, jar_texture
    from gardenlib.soil.lab_sheet import LAB_RATE_UNITS, lab_number, lab_rate_kg_m2
    from gardenlib.soil.lead import LeadReading, lead_number, lead_reading
    from gardenlib.soil.lime_compare import LimeNeed, LimeSpread, lime_need, lime_spread
    from gardenlib.soil.lime_doses import LimeForBed, lime_for_bed
    from gardenlib.soil.lime_fineness import LimeQuality, lime_quality, lime_sieves
    from gardenlib.soil.lime_limits import bed_target_ph, largest_dose_kg_m2, lime_kind
    from gardenlib.soil.lime_rates import LimeRate, lime_rate
    from gardenlib.soil.lime_ways import lime_method
    from gardenlib.soil.liquid import LiquidFeed, liquid_feed
    from gardenlib.soil.manure import ManureWait, manure_wait, soil_touches
    from gardenlib.soil.mixes import BedMix, bags_for, bed_mix
    from gardenlib.soil.phosphorus import PhosphorusFound, phosphorus_found
    from gardenlib.soil.place_history import LeadHistory, lead_history, lead_questions
    from gardenlib.soil.pots import PotCheck, pot_check
    from gardenlib.soil.products import FertilizerForBed, fertilizer_for_bed, label_numbers
    from gardenlib.soil.sampling import SamplingPlan, sampling_plan
    from gardenlib.soil.settling import JarTimes, jar_times, settling_seconds
    from gardenlib.soil.side_dressing import FeedingTime, SideDress, side_dress
    from gardenlib.soil.texture import SoilTexture, soil_texture, texture_class, texture_classes, texture_name

__all__ = [
    "GIFTS",
    "LAB_RATE_UNITS",
    "AcidAdvice",
    "BedMix",
    "CompostForBed",
    "FeedingForBed",
    "FeedingNeed",
    "FeedingTime",
    "FelTexture",
    "FertilizerForBed",
    "GiftAdvice",
    "JarTimes",
    "LeadHistory",
    "LeadReading",
    "LimeForBed",
    "LimeNeed",
    "LimeQuality",
    "LimeRate",
    "LimeSpread",
    "LiquidFeed",
    "ManureWait",
    "PhosphorusFound",
    "PotCheck",
    "SamplingPlan",
    "SideDress",
    "SoilTexture",
    "SulphurRate",
    "acid_advice",
    "bags_for",
    "bed_mix",
    "bed_target_ph",
    "compost_for_bed",
    "compost_nitrogen",
    "feeding_for_bed",
    "feeding_need",
    "fertilizer_for_bed",
    "gift_check",
    "gift_questions",
    "jar_percents",
    "jar_texture",
    "jar_times",
    "lab_number",
    "lab_rate_kg_m2",
    "label_numbers",
    "largest_dose_kg_m2",
    "lead_history",
    "lead_number",
    "lead_questions",
    "lead_reading",
    "lime_for_bed",
    "lime_kind",
    "lime_method",
    "lime_need",
    "lime_quality",
    "lime_rate",
    "lime_sieves",
    "lime_spread",
    "liquid_feed",
    "manure_wait",
    "phosphorus_found",
    "pot_check",
    "ribbon_length",
    "sampling_plan",
    "settling_seconds",
    "side_dress",
    "soil_texture",
    "soil_touches",
    "sulphur_rate",
    "texture_by_feel",
    "texture_class",
    "texture_classes",
    "texture_name",
]

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
