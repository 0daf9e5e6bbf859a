"""The site: station files, freeze dates, zone, daylength and warmth."""

from importlib import import_module
from typing import Any

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
__all__ = list(_WHERE)


def __getattr__(name: str) -> Any:
    if name not in _WHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_WHERE[name]}"), name)


def __dir__() -> list[str]:
    return [*globals(), *__all__]
