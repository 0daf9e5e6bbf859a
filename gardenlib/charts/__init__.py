"""Pictures with their finding and numbers: one theme, one view, one way to show them."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.charts.hand_drawn import sketch
    from gardenlib.charts.plantings import sowings
    from gardenlib.charts.render import day, svg
    from gardenlib.charts.season import Mark, freeze_season
    from gardenlib.charts.site import day_length, warmth
    from gardenlib.charts.theme import page_css
    from gardenlib.charts.view import Shown, View, html, show, words
    from gardenlib.charts.weeks import Flight, Planting, flights

__all__ = [
    "Flight",
    "Mark",
    "Planting",
    "Shown",
    "View",
    "day",
    "day_length",
    "flights",
    "freeze_season",
    "html",
    "page_css",
    "show",
    "sketch",
    "sowings",
    "svg",
    "warmth",
    "words",
]

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
