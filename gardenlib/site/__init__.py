"""The site: station files, freeze dates, zone, daylength and warmth."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.site.evaporation import extraterrestrial_mj_m2, reference_et_mm
    from gardenlib.site.freeze import freeze_dates, freeze_seasons
    from gardenlib.site.heat_sum import degree_days
    from gardenlib.site.local_dates import FreezeDates
    from gardenlib.site.offset import NightOffset, night_offset
    from gardenlib.site.past_seasons import LaidOut, lay_out
    from gardenlib.site.places import Place, place
    from gardenlib.site.station import Station, read_station
    from gardenlib.site.sun import daylength_hours
    from gardenlib.site.warmth import Warmth
    from gardenlib.site.weekly_water import WeeklyWater
    from gardenlib.site.zone import Zone, hardiness_zone, zone_from_station

__all__ = [
    "FreezeDates",
    "LaidOut",
    "NightOffset",
    "Place",
    "Station",
    "Warmth",
    "WeeklyWater",
    "Zone",
    "daylength_hours",
    "degree_days",
    "extraterrestrial_mj_m2",
    "freeze_dates",
    "freeze_seasons",
    "hardiness_zone",
    "lay_out",
    "night_offset",
    "place",
    "read_station",
    "reference_et_mm",
    "zone_from_station",
]

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
