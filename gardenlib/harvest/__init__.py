"""Harvest and storage: how much, in which week, when it is ready, and where it keeps."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach

if TYPE_CHECKING:
    from gardenlib.harvest.air import Wilting, wilting
    from gardenlib.harvest.breath import Breathing, breathing
    from gardenlib.harvest.care import StoreChecks, store_checks
    from gardenlib.harvest.eat_first import EatingOrder, Lot, eating_order
    from gardenlib.harvest.keeping_rows import in_weeks
    from gardenlib.harvest.keeping_time import StorageLife, storage_life
    from gardenlib.harvest.preserve_crops import crops_to_preserve, high_place
    from gardenlib.harvest.preserving import Preserving, freezer_to_fill, jars_to_fill
    from gardenlib.harvest.ripe_weeks import ReadyWeeks, planted_how, weeks_ready
    from gardenlib.harvest.signs import HarvestSigns, Sign, harvest_signs
    from gardenlib.harvest.store_places import days_left, storage_lives
    from gardenlib.harvest.vapor import cabbage_loss_pct, vapor_deficit_pa, vapor_pressure_kpa

__all__ = [
    "Breathing",
    "EatingOrder",
    "HarvestSigns",
    "Lot",
    "Preserving",
    "ReadyWeeks",
    "Sign",
    "StorageLife",
    "StoreChecks",
    "Wilting",
    "breathing",
    "cabbage_loss_pct",
    "crops_to_preserve",
    "days_left",
    "eating_order",
    "freezer_to_fill",
    "harvest_signs",
    "high_place",
    "in_weeks",
    "jars_to_fill",
    "planted_how",
    "storage_life",
    "storage_lives",
    "store_checks",
    "vapor_deficit_pa",
    "vapor_pressure_kpa",
    "weeks_ready",
    "wilting",
]

_HOME = {
    "Breathing": "breath",
    "EatingOrder": "eat_first",
    "HarvestSigns": "signs",
    "Lot": "eat_first",
    "Preserving": "preserving",
    "ReadyWeeks": "ripe_weeks",
    "Sign": "signs",
    "StorageLife": "keeping_time",
    "StoreChecks": "care",
    "Wilting": "air",
    "breathing": "breath",
    "cabbage_loss_pct": "vapor",
    "crops_to_preserve": "preserve_crops",
    "days_left": "store_places",
    "eating_order": "eat_first",
    "freezer_to_fill": "preserving",
    "harvest_signs": "signs",
    "high_place": "preserve_crops",
    "in_weeks": "keeping_rows",
    "jars_to_fill": "preserving",
    "planted_how": "ripe_weeks",
    "storage_life": "keeping_time",
    "storage_lives": "store_places",
    "store_checks": "care",
    "vapor_deficit_pa": "vapor",
    "vapor_pressure_kpa": "vapor",
    "weeks_ready": "ripe_weeks",
    "wilting": "air",
}
__getattr__, __dir__ = attach(__name__, _HOME)
