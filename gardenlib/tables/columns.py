"""What a table may hold: its kinds of columns, and the three that say where a figure comes from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

STATUSES = ("published", "memory", "common_practice")


@dataclass(frozen=True)
class Column:
    """What one column holds.

    Parameters
    ----------
    kind : {"text", "number", "choice", "sources"}
        How its cells are checked; ``sources`` are keys of the table of sources, joined by ``|``.
    needed : bool
        Whether an empty cell is refused.
    choices : tuple of str
        The words allowed in a ``choice``.
    """

    kind: Literal["text", "number", "choice", "sources"] = "text"
    needed: bool = True
    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class Schema:
    """One table: its columns, the ones that name a row, and its (low, high) pairs."""

    columns: Mapping[str, Column]
    key: tuple[str, ...]
    spans: tuple[tuple[str, str], ...] = ()


TEXT = Column()
NOTE = Column(needed=False)
NUMBER = Column("number")
MAYBE_NUMBER = Column("number", needed=False)
PROVENANCE = {
    "source": Column("sources"),
    "where": TEXT,
    "status": Column("choice", choices=STATUSES),
}
