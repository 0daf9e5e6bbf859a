"""Paper: one print function and a template for every printed page."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach

if TYPE_CHECKING:
    from gardenlib.sheets.printing import sheet_pdf
    from gardenlib.sheets.soil_sample import sampling_sketches, soil_sample_data

__all__ = ["sampling_sketches", "sheet_pdf", "soil_sample_data"]

_HOME = {"sampling_sketches": "soil_sample", "sheet_pdf": "printing", "soil_sample_data": "soil_sample"}
__getattr__, __dir__ = attach(__name__, _HOME)
