"""One loader for every table: it checks each cell and names file, row, value and mend."""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from gardenlib.problems import InputProblem
from gardenlib.tables.columns import Column, Schema
from gardenlib.tables.schemas import FOLDERS, SCHEMAS
from gardenlib.tables.timing import Row, timing

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable
    from pathlib import Path

    import pandas as pd


@dataclass(frozen=True)
class Source:
    """Where a figure comes from.

    Parameters
    ----------
    key : str
        Its short name in the tables.
    citation : str
        Author or publisher, title, year.
    where_seen : str
        In what form it was read.
    status : {"published", "memory", "common_practice"}
        ``memory`` is shown to learners as "unchecked".
    """

    key: str
    citation: str
    where_seen: str
    status: str


def table(name: str) -> pd.DataFrame:
    """Give one table of published figures.

    Parameters
    ----------
    name : str
        ``sources``, ``crops``, ``crop_timing_by_source`` (each published figure), ``crop_timing`` (the
        range of those that count, worked out from it), ``cold_limits``, ``heat_limits``,
        ``emergence_by_temp``, ``degree_day_bases``, ``germination_standard`` or ``seed_weight``.

    Returns
    -------
    DataFrame
        One row a figure or a crop; numbers as float, degrees in the unit named in the column.

    Raises
    ------
    InputProblem
        When there is no such table, or a cell of it cannot be used.

    Notes
    -----
    In ``crop_timing`` the typical range runs from the median of the sources' lowest to the median of
    their highest figures. Rows that are not counted (column ``counted``) stay in ``crop_timing_by_source``.

    Examples
    --------
    >>> table("germination_standard").set_index("crop").loc["carrot", "germination_pct"]
    np.float64(55.0)
    """
    import pandas as pd

    return pd.DataFrame([dict(row) for row in rows(name)])


@cache
def rows(name: str) -> tuple[Mapping[str, Any], ...]:
    """Read a table once, as rows of checked values."""
    if name == "crop_timing":
        return tuple(MappingProxyType(row) for row in timing(rows("crop_timing_by_source")))
    if name not in SCHEMAS:
        raise InputProblem("tables.no_table", name=name, known=", ".join(sorted([*SCHEMAS, "crop_timing"])))
    known = None if name == "sources" else {row["key"] for row in rows("sources")}
    checked = read(files(__package__).joinpath(FOLDERS[name], f"{name}.csv"), SCHEMAS[name], known)
    return tuple(MappingProxyType(row) for row in checked)


def read(path: Path | Traversable, schema: Schema, source_keys: set[str] | None) -> list[Row]:
    """Read and check a file of figures.

    Parameters
    ----------
    path : path
        A UTF-8 file of comma-separated values.
    schema : Schema
        What its columns hold.
    source_keys : set of str or None
        The keys a source may have; None for the table of sources itself.

    Returns
    -------
    list of dict
        The rows; numbers as float, empty cells as None.

    Raises
    ------
    InputProblem
        When a column is unknown or missing, or a cell cannot be used.
    """
    reader = csv.DictReader(path.read_text("utf-8").splitlines())
    found = list(reader.fieldnames or ())
    if found != list(schema.columns):
        raise InputProblem("tables.columns", file=path.name, found=", ".join(found), needed=", ".join(schema.columns))
    out = [_checked(row, schema, source_keys, path.name, line) for line, row in enumerate(reader, start=2)]
    seen: set[tuple[Any, ...]] = set()
    for line, row in enumerate(out, start=2):
        name = tuple(row[part] for part in schema.key)
        if name in seen:
            raise InputProblem("tables.twice", file=path.name, row=line, value=", ".join(map(str, name)))
        seen.add(name)
    return out


def _checked(row: Mapping[str, str], schema: Schema, keys: set[str] | None, file: str, line: int) -> Row:
    if None in row or None in row.values():
        raise InputProblem("tables.cells", file=file, row=line, n=len(schema.columns))
    out = {
        name: cell(row[name], column, keys, file=file, line=line, name=name) for name, column in schema.columns.items()
    }
    for low, high in schema.spans:
        if out[low] > out[high]:
            raise InputProblem("tables.order", file=file, row=line, low=row[low], high=row[high], column=high)
    return out


def cell(text: str, column: Column, keys: set[str] | None, *, file: str, line: int, name: str) -> Any:
    """Check one cell and give its value, or None when it may be empty and is."""
    text = text.strip()
    at = {"file": file, "row": line, "column": name, "value": text}
    if not text:
        if column.needed:
            raise InputProblem("tables.empty", **at)
        return None
    if column.kind == "number":
        try:
            value = float(text)
        except ValueError:
            value = math.nan
        if not math.isfinite(value):
            raise InputProblem("tables.not_a_number", **at)
        return value
    if column.kind == "choice" and text not in column.choices:
        raise InputProblem("tables.choice", **at, choices=", ".join(column.choices))
    if column.kind == "sources" and keys is not None and (unknown := set(text.split("|")) - keys):
        raise InputProblem("tables.no_source", **{**at, "value": ", ".join(sorted(unknown))})
    return text


def source(key: str) -> Source:
    """Give the source with this key.

    Parameters
    ----------
    key : str
        A key of the table of sources.

    Returns
    -------
    Source
        Its citation, where it was seen, and its status.

    Raises
    ------
    InputProblem
        When no source has this key.

    Examples
    --------
    >>> source("purdue_ho203").status
    'published'
    """
    for row in rows("sources"):
        if row["key"] == key:
            return Source(**row)
    raise InputProblem("tables.no_such_source", value=key)
