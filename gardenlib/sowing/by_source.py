"""Why do books differ: each source's own window beside ours."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from gardenlib.sowing.dates import sowing_dates
from gardenlib.sowing.limits import as_crop, freeze_limit
from gardenlib.sowing.published import ANCHOR_F, ANCHOR_RISK
from gardenlib.sowing.windows import days_of_weeks, later, paths_of, weeks_by_source
from gardenlib.tables import Crop, source
from gardenlib.working import Answer

if TYPE_CHECKING:
    import pandas as pd

    from gardenlib.site import FreezeDates


@dataclass(frozen=True, kw_only=True)
class BySource(Answer):
    """Each source's window for one crop, and ours.

    Parameters
    ----------
    crop : str
        Crop id.
    table : DataFrame
        One row a source and way of starting: ``start`` ("set_out" or "direct_sow"), ``source`` (a key, or "ours"),
        ``citation``, ``status``, ``weeks_low`` and ``weeks_high`` (from the last freeze, before it negative; missing
        for ours), ``opens`` and ``closes`` (dates; NaT where there is no last freeze to count from).
    """

    crop: str
    table: pd.DataFrame


def window_by_source(crop: str | Crop, freezes: FreezeDates, *, year: int, **asked: Any) -> BySource:
    """Put the window that each source publishes beside ours, for one place.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.
    freezes : FreezeDates
        Freeze dates of the place.
    year : int
        Year of the season's spring.
    **asked : object
        The other choices of `sowing_dates`, for our own window.

    Returns
    -------
    BySource
        The table; our row last.

    Raises
    ------
    InputProblem
        As `sowing_dates`.

    Notes
    -----
    Every row counts from the place's own date of 32 F at a risk of 0.5; source of each row: its key.

    Examples
    --------
    >>> from gardenlib.site import FreezeDates
    >>> here = FreezeDates.typed((4, 15), (10, 15), source="class list", latitude=40.0)
    >>> found = window_by_source("cabbage_main", here, year=2027).table.set_index("source")
    >>> found.loc["purdue_ho203", "opens"]
    Timestamp('2027-03-25 00:00:00')
    """
    import pandas as pd

    plant = as_crop(crop)
    ours = sowing_dates(plant, freezes, year=year, **asked)
    anchor = freeze_limit(freezes, "spring", ANCHOR_F, ANCHOR_RISK, year=year)
    day = anchor.day if anchor.state == "date" else None
    rows: list[dict[str, Any]] = []
    for path in paths_of(plant):
        for weeks in weeks_by_source(plant, path):
            book = source(weeks.sources[0])
            rows.append(
                {
                    "start": path.name,
                    "source": book.key,
                    "citation": book.citation,
                    "status": weeks.status,
                    "weeks_low": weeks.low,
                    "weeks_high": weeks.high,
                    "opens": None if day is None else later(day, days_of_weeks(weeks.low)),
                    "closes": None if day is None else later(day, days_of_weeks(weeks.high)),
                }
            )
        window = ours.set_out if path.name == "set_out" else ours.direct_sow
        own = {"opens": window[0], "closes": window[1]} if window else {"opens": None, "closes": None}
        rows.append({"start": path.name, "source": "ours", "citation": "", "status": "", **own})
    columns = ["start", "source", "citation", "status", "weeks_low", "weeks_high", "opens", "closes"]
    table = pd.DataFrame(rows, columns=columns)
    for name in ("opens", "closes"):
        table[name] = pd.to_datetime(table[name])
    books = tuple(dict.fromkeys(row["source"] for row in rows if row["source"] != "ours"))
    return BySource(
        crop=plant.id,
        table=table,
        steps=ours.steps,
        assumptions=ours.assumptions,
        sources=tuple(dict.fromkeys((*books, *ours.sources))),
    )
