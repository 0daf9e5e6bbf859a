"""Paper: one print function and a template for every printed page."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach

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

_HOME = {
    "PrintedBed": "season_plan",
    "season_plan_data": "season_plan",
    "when_words": "season_plan",
    "pocket_log_data": "pocket_log",
    "sampling_sketches": "soil_sample",
    "sheet_pdf": "printing",
    "soil_sample_data": "soil_sample",
}
__getattr__, __dir__ = attach(__name__, _HOME)
