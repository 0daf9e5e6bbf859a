"""Sowing dates: from the published weeks and the risk of cold at a place to one window a crop."""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from gardenlib.sowing.by_source import BySource, window_by_source
    from gardenlib.sowing.costs import RiskCosts, risk_costs
    from gardenlib.sowing.dates import SowingDates, sowing_dates
    from gardenlib.sowing.limits import cold_limit_f, default_risk
    from gardenlib.sowing.windows import days_of_weeks, harvest_window, regions, week_of

__all__ = [
    "BySource",
    "RiskCosts",
    "SowingDates",
    "cold_limit_f",
    "days_of_weeks",
    "default_risk",
    "harvest_window",
    "regions",
    "risk_costs",
    "sowing_dates",
    "week_of",
    "window_by_source",
]

_HOME = {
    "BySource": "by_source",
    "RiskCosts": "costs",
    "SowingDates": "dates",
    "cold_limit_f": "limits",
    "days_of_weeks": "windows",
    "default_risk": "limits",
    "harvest_window": "windows",
    "regions": "windows",
    "risk_costs": "costs",
    "sowing_dates": "dates",
    "week_of": "windows",
    "window_by_source": "by_source",
}


def __getattr__(name: str) -> object:
    if name in _HOME:
        value = getattr(import_module(f"{__name__}.{_HOME[name]}"), name)
        globals()[name] = value
        return value
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def __dir__() -> list[str]:
    return sorted(__all__)
