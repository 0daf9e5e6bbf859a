"""What was picked and what was given away, by crop and week."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

import pandas as pd

from gardenlib.plot.model import LogEntry
from gardenlib.season.log import lines_of
from gardenlib.sowing import week_of
from gardenlib.working import Answer, Notes

_COLUMNS = ["week", "crop", "picked_kg", "given_kg"]


@dataclass(frozen=True, kw_only=True)
class PickedAndGiven(Answer):
    """What the season gave.

    Parameters
    ----------
    table : DataFrame
        One row a week (its Monday) and crop: picked_kg, given_kg.
    picked_kg, given_kg : float
        All of it, kg.
    more_given : tuple of str
        Crop ids of which more was given away than picked.
    """

    table: pd.DataFrame
    picked_kg: float
    given_kg: float
    more_given: tuple[str, ...]

    def by(self, column: Literal["week", "crop"]) -> pd.DataFrame:
        """Sum the weights by crop or by week.

        Parameters
        ----------
        column : {"week", "crop"}
            What the sums are by.

        Returns
        -------
        DataFrame
            Index by week or crop; picked_kg, given_kg.
        """
        return self.table.groupby(column, sort=column == "week")[["picked_kg", "given_kg"]].sum()


def picked_and_given(entries: Sequence[LogEntry], *, first: date, last: date, today: date) -> PickedAndGiven:
    """Sum what was picked and given away in a season.

    Parameters
    ----------
    entries : sequence of LogEntry
        The whole log.
    first, last : date
        First and last day of the season.
    today : date
        Which day it is; lines of days to come are left out.

    Returns
    -------
    PickedAndGiven
        The weights by week and crop, with the working.

    Notes
    -----
    Source: ISO 8601:2019, where a week begins on Monday.  What is given away was picked first, so it is part of the
    weight picked (common practice, no source).

    Examples
    --------
    >>> log = [LogEntry(day=date(2027, 7, 30), did="picked", crop="pea", amount_kg=2.0),
    ...        LogEntry(day=date(2027, 7, 31), did="given", crop="pea", amount_kg=0.5)]
    >>> found = picked_and_given(log, first=date(2027, 1, 1), last=date(2027, 12, 31), today=date(2027, 8, 1))
    >>> found.picked_kg, found.given_kg, found.table["week"][0].isoformat()
    (2.0, 0.5, '2027-07-26')
    """
    notes = Notes()
    lines = [line for line in lines_of(entries, first, last, today, notes) if line.did in ("picked", "given")]
    unweighed = sum(line.amount_kg is None for line in lines)
    if unweighed:
        notes.say("log.unweighed", n=unweighed)
    weights = [
        (
            week_of(line.day),
            line.crop or "",
            *((line.amount_kg, 0.0) if line.did == "picked" else (0.0, line.amount_kg)),
        )
        for line in lines
        if line.amount_kg is not None
    ]
    table = pd.DataFrame(weights, columns=_COLUMNS).groupby(["week", "crop"], as_index=False).sum()
    picked, given = float(table["picked_kg"].sum()), float(table["given_kg"].sum())
    sums = table.groupby("crop")[["picked_kg", "given_kg"]].sum()
    more = tuple(str(crop) for crop in sums.index[sums["given_kg"] > sums["picked_kg"] + 1e-6])
    return PickedAndGiven(table=table, picked_kg=picked, given_kg=given, more_given=more, **notes.parts())
