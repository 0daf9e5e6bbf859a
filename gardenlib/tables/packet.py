"""A class's own crop, from a row that was typed from the seed packet."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from gardenlib.problems import InputProblem
from gardenlib.tables.columns import Column
from gardenlib.tables.crop_table import Crop, Published
from gardenlib.tables.loader import cell, rows
from gardenlib.tables.schemas.crops import HARDINESS, METHODS
from gardenlib.units import Range, f_to_c

_SPANS = {
    "weeks_indoor": "weeks",
    "transplant_wk": "weeks",
    "direct_sow_wk": "weeks",
    "days_from_transplant": "days",
    "days_from_seed": "days",
}
# Beyond these a figure is a slip of the pen (common practice, no source).
_LIKELY = {"days": (10, 365), "weeks": (-60, 60)}
_NUMBER = Column("number", needed=False)
COLUMNS: Mapping[str, Column] = {
    "crop": Column(),
    "name": Column(),
    "family": Column(),
    "hardiness": Column("choice", choices=HARDINESS),
    "method": Column("choice", choices=METHODS),
    **{f"{name}_{end}": _NUMBER for name in _SPANS for end in ("low", "high")},
    "growth_max_mean_f": _NUMBER,
    "source": Column(),
}


def crop_from_packet(row: Mapping[str, str], *, file: str = "crops.csv", line: int = 2) -> Crop:
    """Make a crop from a class's own row.

    Parameters
    ----------
    row : mapping of str to str
        The cells by column, as text; the columns are those of `COLUMNS`. Columns that may be empty may be missing.
    file, line : str, int
        Where the row stands, for a sentence that says what to mend.

    Returns
    -------
    Crop
        The crop; its figures have the status ``published`` and the class's own citation.

    Raises
    ------
    InputProblem
        When a column is unknown or a needed one is missing, a cell cannot be used, or the id is taken.

    Notes
    -----
    Weeks are counted from the last freeze, before it negative, as in the table of crops.
    Source: the packet that the class names.

    Examples
    --------
    >>> own = crop_from_packet(dict(crop="okra", name="okra", family="Malvaceae", hardiness="very tender",
    ...     method="direct", direct_sow_wk_low="2", direct_sow_wk_high="4", days_from_seed_low="55", source="packet"))
    >>> own.days_from_seed.full
    Range(low=55.0, high=55.0, unit='days')
    """
    if unknown := [name for name in row if name not in COLUMNS]:
        raise InputProblem("tables.packet_column", file=file, value=", ".join(unknown), known=", ".join(COLUMNS))
    values = {
        name: cell(row.get(name) or "", column, None, file=file, line=line, name=name)
        for name, column in COLUMNS.items()
    }
    crop_id = values["crop"]
    if not re.fullmatch(r"[a-z][a-z0-9_]*", crop_id):
        raise InputProblem("tables.packet_id", file=file, row=line, value=crop_id)
    if crop_id in {known["crop"] for known in rows("crops")}:
        raise InputProblem("tables.packet_taken", file=file, row=line, value=crop_id)
    growth_max = values["growth_max_mean_f"]
    spans: dict[str, Any] = {name: _span(values, name, unit, file, line) for name, unit in _SPANS.items()}
    return Crop(
        id=crop_id,
        name=values["name"],
        family=values["family"],
        hardiness=values["hardiness"],
        method=values["method"],
        status="published",
        sources=("seed_packet",),
        cold_row=values["hardiness"],
        growth_max_mean_c=None if growth_max is None else f_to_c(growth_max),
        growth_sources=() if growth_max is None else ("seed_packet",),
        citation=values["source"],
        **spans,
    )


def _span(values: Mapping[str, float | None], name: str, unit: str, file: str, line: int) -> Published | None:
    low, high = values[f"{name}_low"], values[f"{name}_high"]
    if low is None and high is None:
        return None
    first = high if low is None else low
    last = low if high is None else high
    assert first is not None and last is not None  # noqa: S101, PT018 - one of the two is a number here
    if first > last:
        raise InputProblem("tables.order", file=file, row=line, low=first, high=last, column=f"{name}_high")
    lowest, highest = _LIKELY[unit]
    for end, value in (("low", first), ("high", last)):
        if not lowest <= value <= highest:
            where = {"file": file, "row": line, "column": f"{name}_{end}"}
            raise InputProblem("tables.packet_unlikely", value=value, low=lowest, high=highest, **where)
    span = Range(first, last, unit)
    return Published(full=span, typical=span, status="published", sources=("seed_packet",))
