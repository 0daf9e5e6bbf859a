"""The site: station files, freeze dates, zone, daylength and warmth."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach

if TYPE_CHECKING:
    from gardenlib.site.freeze import freeze_dates, freeze_seasons
    from gardenlib.site.heat_sum import degree_days
    from gardenlib.site.local_dates import FreezeDates
    from gardenlib.site.offset import NightOffset, night_offset
    from gardenlib.site.places import Place, place
    from gardenlib.site.station import Station, read_station
    from gardenlib.site.sun import daylength_hours
    from gardenlib.site.warmth import Warmth
    from gardenlib.site.zone import Zone, hardiness_zone, zone_from_station

# Each public name and the module of this room that holds it; loaded when it is first used.
_WHERE = {
    "daylength_hours": "sun",
    "degree_days": "heat_sum",
    "freeze_dates": "freeze",
    "freeze_seasons": "freeze",
    "FreezeDates": "local_dates",
    "hardiness_zone": "zone",
    "night_offset": "offset",
    "NightOffset": "offset",
    "Place": "places",
    "place": "places",
    "read_station": "station",
    "Station": "station",
    "Warmth": "warmth",
    "Zone": "zone",
    "zone_from_station": "zone",
}
__all__ = [
    "FreezeDates",
    "NightOffset",
    "Place",
    "Station",
    "Warmth",
    "Zone",
    "daylength_hours",
    "degree_days",
    "freeze_dates",
    "freeze_seasons",
    "hardiness_zone",
    "night_offset",
    "place",
    "read_station",
    "zone_from_station",
]
__getattr__, __dir__ = attach(__name__, _WHERE)
