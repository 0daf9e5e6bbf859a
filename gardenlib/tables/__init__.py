"""Published figures: each a row with its source and status, checked when it is read.

A class may add crops of its own in its file ``crops.csv``: one row a crop, with
the columns of ``gardenlib.tables.packet.COLUMNS``:

``crop, name, family, hardiness, method`` (all needed),
``weeks_indoor_low, weeks_indoor_high, transplant_wk_low, transplant_wk_high,
direct_sow_wk_low, direct_sow_wk_high, days_from_transplant_low,
days_from_transplant_high, days_from_seed_low, days_from_seed_high,
growth_max_mean_f`` (may be empty; a high end left empty is the same as the low one) and
``source`` (needed: where the figures come from, in the class's words).

``crop_from_packet(row, file=..., line=...)`` makes a `Crop` from such a row (a
mapping of column to text), or raises `InputProblem` that names file, line, value and mend.
"""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.tables.crop_table import Crop, Published, crop, crops
    from gardenlib.tables.loader import Source, source, table
    from gardenlib.tables.packet import crop_from_packet

__all__ = ["Crop", "Published", "Source", "crop", "crop_from_packet", "crops", "source", "table"]

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
