"""Harvest and storage: how much, in which week, when it is ready, and where it keeps."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.harvest.air import Wilting, wilting
    from gardenlib.harvest.breath import Breathing, breathing
    from gardenlib.harvest.care import StoreChecks, store_checks
    from gardenlib.harvest.cups import WeeklyCups, weekly_cups
    from gardenlib.harvest.eat_first import EatingOrder, Lot, eating_order
    from gardenlib.harvest.guides import guides_say
    from gardenlib.harvest.household import HouseholdPlants, plants_for_household
    from gardenlib.harvest.keeping_rows import readable_days
    from gardenlib.harvest.keeping_time import StorageLife, storage_life
    from gardenlib.harvest.preserve_crops import crops_to_preserve, high_place
    from gardenlib.harvest.preserving import Preserving, freezer_to_fill, jars_to_fill
    from gardenlib.harvest.ripe_weeks import ReadyWeeks, planted_how, weeks_ready
    from gardenlib.harvest.signs import HarvestSigns, Sign, harvest_signs
    from gardenlib.harvest.stands import Further, Stand, picking_days
    from gardenlib.harvest.store_places import days_left, storage_lives
    from gardenlib.harvest.supply import Supply, weekly_supply
    from gardenlib.harvest.vapor import cabbage_loss_pct, vapor_deficit_pa, vapor_pressure_kpa
    from gardenlib.harvest.weeks import carry_on, supply_by_week
    from gardenlib.harvest.yields import ExpectedYield, expected_yield

__all__ = [
    "Breathing",
    "EatingOrder",
    "ExpectedYield",
    "Further",
    "HarvestSigns",
    "HouseholdPlants",
    "Lot",
    "Preserving",
    "ReadyWeeks",
    "Sign",
    "Stand",
    "StorageLife",
    "StoreChecks",
    "Supply",
    "WeeklyCups",
    "Wilting",
    "breathing",
    "cabbage_loss_pct",
    "carry_on",
    "crops_to_preserve",
    "days_left",
    "eating_order",
    "expected_yield",
    "freezer_to_fill",
    "guides_say",
    "harvest_signs",
    "high_place",
    "jars_to_fill",
    "picking_days",
    "planted_how",
    "plants_for_household",
    "readable_days",
    "storage_life",
    "storage_lives",
    "store_checks",
    "supply_by_week",
    "vapor_deficit_pa",
    "vapor_pressure_kpa",
    "weekly_cups",
    "weekly_supply",
    "weeks_ready",
    "wilting",
]

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
