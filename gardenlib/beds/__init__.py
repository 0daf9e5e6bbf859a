"""Beds: what fits, straight lines in a bed, containers, rotation and water."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.beds.can_and_hose import Watering, drip_minutes, watering
    from gardenlib.beds.closeness import Closeness, closeness_of
    from gardenlib.beds.containers import PotAnswer, cone_litres, pot_for, pot_volume
    from gardenlib.beds.distances import CropSpacing, crop_spacing, has_spacing
    from gardenlib.beds.fits import plants_that_fit, positions
    from gardenlib.beds.foreseen import slips
    from gardenlib.beds.grown import families_grown
    from gardenlib.beds.how_many import BedCount, bed_count, crop_count
    from gardenlib.beds.in_lines import lines
    from gardenlib.beds.kin import diseases, families
    from gardenlib.beds.line_answer import BedLine, LeftOver, LinesAnswer
    from gardenlib.beds.quantities import ToGet, to_get
    from gardenlib.beds.rotation import RotationAnswer, rotation_of
    from gardenlib.beds.soil_water import coefficient, held_mm, ready_mm
    from gardenlib.beds.stature import planting
    from gardenlib.beds.water import WaterNeed, water_need
    from gardenlib.beds.water_rows import has_water_row
    from gardenlib.beds.water_season import SeasonWater, season_water

__all__ = [
    "BedCount",
    "BedLine",
    "Closeness",
    "CropSpacing",
    "LeftOver",
    "LinesAnswer",
    "PotAnswer",
    "RotationAnswer",
    "SeasonWater",
    "ToGet",
    "WaterNeed",
    "Watering",
    "bed_count",
    "closeness_of",
    "coefficient",
    "cone_litres",
    "crop_count",
    "crop_spacing",
    "diseases",
    "drip_minutes",
    "families",
    "families_grown",
    "has_spacing",
    "has_water_row",
    "held_mm",
    "lines",
    "planting",
    "plants_that_fit",
    "positions",
    "pot_for",
    "pot_volume",
    "ready_mm",
    "rotation_of",
    "season_water",
    "slips",
    "to_get",
    "water_need",
    "watering",
]

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
