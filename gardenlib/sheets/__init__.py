"""Paper: one print function and a template for every printed page."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.sheets.pocket_log import pocket_log_data
    from gardenlib.sheets.printing import sheet_pdf
    from gardenlib.sheets.season_plan import PrintedBed, season_plan_data, when_words
    from gardenlib.sheets.soil_sample import sampling_sketches, soil_sample_data

__all__ = [
    "PrintedBed",
    "pocket_log_data",
    "sampling_sketches",
    "season_plan_data",
    "sheet_pdf",
    "soil_sample_data",
    "when_words",
]

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
