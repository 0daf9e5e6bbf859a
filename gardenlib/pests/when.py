"""When a pest's events come: the weeks of past seasons, and what this year's record has reached."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt
import pandas as pd

from gardenlib.pests.counting import NEVER, daily_sums, day_reached
from gardenlib.pests.models import START_DAYS, PestEvent, events_of
from gardenlib.problems import InputProblem
from gardenlib.site.freeze import date_of, day_numbers, six_months_on
from gardenlib.site.past_seasons import YEAR_DAYS, LaidOut, PastSeasons, SoFar, lay_out
from gardenlib.units import Quantity
from gardenlib.working import Answer, Notes, Value

if TYPE_CHECKING:
    from gardenlib.site import Warmth

Array = npt.NDArray[np.float64]

EARLY, MIDDLE, LATE = 0.1, 0.5, 0.9
_A_DAY = {
    "average": "(low + high) / 2 - above, each day at least 0,",
    "capped-average": "(low + high) / 2 - above, high at most top, each day at least 0,",
    "modified-average": "(low + high) / 2 - above, low and high each at least above and at most top,",
}
"""What a day gives, by the way in which a source counts."""
FEWEST = 10


@dataclass(frozen=True)
class EventWeeks:
    """When one event of one source comes.

    Parameters
    ----------
    event : PestEvent
        The event and how its source counts.
    early, middle, late : date or None
        Days by which it has come in 1, 5 and 9 past seasons of 10; None where it had not come by the season's end.
    seasons, not_reached : int
        Past seasons counted, and those in which it did not come.
    reached : date or None
        The day on which this year's record has reached it.
    sum_c : float or None
        This year's sum so far, degrees Celsius times days; None without a record of this year.
    """

    event: PestEvent
    early: date | None
    middle: date | None
    late: date | None
    seasons: int
    not_reached: int
    reached: date | None
    sum_c: float | None


@dataclass(frozen=True, kw_only=True)
class Forecast(Answer):
    """When a pest's events come at a place.

    Parameters
    ----------
    pest : str
        Pest id.
    events : tuple of EventWeeks
        One for each event and source that can be counted.
    not_counted : tuple of PestEvent
        Published figures that cannot be counted from a station's record.
    needs_seen : bool
        Whether there are events that count from a day on which the first was seen, and none was given.
    until : date or None
        Last day of this year's record.
    """

    pest: str
    events: tuple[EventWeeks, ...]
    not_counted: tuple[PestEvent, ...]
    needs_seen: bool
    until: date | None

    @property
    def first(self) -> EventWeeks | None:
        """The event that comes first in an early season, if any has a day there."""
        dated = [week for week in self.events if week.early is not None]
        return min(dated, key=lambda week: week.early or date.max, default=None)

    @property
    def table(self) -> pd.DataFrame:
        """One row an event: event, early, middle, late, seasons, not_reached, reached, mapping, source."""
        return pd.DataFrame(
            {
                "event": [week.event.event for week in self.events],
                "early": [week.early for week in self.events],
                "middle": [week.middle for week in self.events],
                "late": [week.late for week in self.events],
                "seasons": [week.seasons for week in self.events],
                "not_reached": [week.not_reached for week in self.events],
                "reached": [week.reached for week in self.events],
                "mapping": [week.event.mapping for week in self.events],
                "source": ["|".join(week.event.sources) for week in self.events],
            }
        )


def forecast(
    pest: str,
    daily: pd.DataFrame | LaidOut,
    year: int,
    *,
    latitude: float,
    typical: Warmth,
    seen: date | None = None,
) -> Forecast:
    """Tell in which weeks a pest's events came in past seasons, and which of them this year has reached.

    Parameters
    ----------
    pest : str
        A pest of ``tables.table("pests")``.
    daily : DataFrame or LaidOut
        The station's record with tmin_c and tmax_c, degrees Celsius, of past years and of `year` as far as it goes; or
        the same laid out by `lay_out`, which saves time where several pests are asked for.
    year : int
        Calendar year of the season's spring.
    latitude : float
        Degrees, north positive; south of the equator each start date is moved by six months.
    typical : Warmth
        The typical year, from which gaps are filled.
    seen : date, optional
        The day of `year`'s season on which the first eggs, beetles or the catch were seen; some models count from it.

    Returns
    -------
    Forecast
        The weeks with their working.

    Raises
    ------
    InputProblem
        When the pest is unknown, the record holds fewer than ten whole past seasons, or `seen` is in another season.

    Notes
    -----
    Each source's own thresholds, method and start date are used; the keys stand in ``tables.table("pest_models")``.
    A day is reached when the running sum is at or above the published one. Where a source prints a range of sums,
    early and middle count the lower and late the higher.

    Examples
    --------
    >>> import pandas as pd
    >>> from gardenlib.site import Warmth
    >>> days = pd.date_range("2015-01-01", "2024-12-31")
    >>> steady = pd.DataFrame({"tmin_c": 10.0, "tmax_c": 190 / 9}, index=days)  # 50 and 70 F
    >>> typical = Warmth.from_monthly([(m, 190 / 9, 10.0) for m in range(1, 13)], latitude=42.0, source="made up")
    >>> caught = date(2025, 4, 1)  # 312 degree days at 10 a day: the 32nd day (table 1 of Missouri)
    >>> weeks = forecast("black_cutworm", steady, 2025, latitude=42.0, typical=typical, seen=caught)
    >>> weeks.events[1].middle
    datetime.date(2025, 5, 2)
    """
    events, notes = events_of(pest), Notes()
    laid = daily if isinstance(daily, LaidOut) else lay_out(daily, latitude)
    whole, now = laid.whole(typical), laid.so_far(typical, year)
    before = whole.years < year
    if before.sum() < FEWEST:
        raise InputProblem("pests.few_seasons", n=int(before.sum()))
    seen_place = None if seen is None else _place(seen, year, whole.first_day)
    counted = [event for event in events if event.is_offered and (event.start != "seen" or seen_place is not None)]
    sums: dict[tuple[float, float | None, str | None], tuple[Array, Array]] = {}
    weeks = []
    for event in counted:
        if event.thresholds not in sums:
            past = daily_sums(whole.tmin_c[before], whole.tmax_c[before], event)
            sums[event.thresholds] = (past, daily_sums(now.tmin_c, now.tmax_c, event))
        start = seen_place if event.start == "seen" else START_DAYS[event.start]
        weeks.append(_weeks(event, sums[event.thresholds], int(start or 0), (year, whole.first_day)))
    _tell(notes, weeks, whole, now, seasons=int(before.sum()), latitude=latitude)
    return Forecast(
        pest=pest,
        events=tuple(weeks),
        not_counted=tuple(event for event in events if not event.is_offered),
        needs_seen=seen is None and any(event.is_offered and event.start == "seen" for event in events),
        until=now.until,
        **notes.parts(),
    )


def _weeks(event: PestEvent, sums: tuple[Array, Array], start: int, season: tuple[int, int]) -> EventWeeks:
    (past, now), (year, first_day) = sums, season
    first = day_reached(past, event.sum_low_c, start)
    last = first if event.sum_high_c == event.sum_low_c else day_reached(past, event.sum_high_c, start)

    def day(reached: Array, share: float) -> date | None:
        place = float(np.quantile(reached, share))
        # Between a season that reached it and one that did not there is no day.
        return None if place > reached[reached < NEVER].max(initial=-1) else date_of(first_day + place, year)

    this = day_reached(now, event.sum_low_c, start)[0] if now.shape[1] > start else NEVER
    return EventWeeks(
        event=event,
        early=day(first, EARLY),
        middle=day(first, MIDDLE),
        late=day(last, LATE),
        seasons=len(past),
        not_reached=int((first == NEVER).sum()),
        reached=None if this == NEVER else date_of(first_day + this, year),
        sum_c=float(now[0, start:].sum()) if now.shape[1] > start else None,
    )


def _tell(
    notes: Notes, weeks: list[EventWeeks], whole: PastSeasons, now: SoFar, *, seasons: int, latitude: float
) -> None:
    """Write the working of the first event, and what was taken for granted of all."""
    notes.say("pests.planning_aid")
    notes.say("pests.seasons", n=seasons)
    if whole.left_out:
        notes.say("pests.left_out", n=whole.left_out)
    if whole.filled:
        notes.say("pests.filled", n=whole.filled)
    if now.filled:
        notes.say("pests.filled_now", n=now.filled)
    if six_months_on(latitude):
        notes.say("pests.six_months_on")
    for reason in dict.fromkeys(reason for week in weeks for reason in week.event.assumed):
        notes.say(f"pests.assumed_{reason}")
    for week in weeks:
        event = week.event
        ask: dict[str, Value] = {"event": event.event.replace("_", " "), "above": Quantity(event.lower_c, "degC")}
        if event.upper_c is not None:
            ask["top"] = Quantity(event.upper_c, "degC")
        ask["sum"] = Quantity(event.sum_low_c, "degC_days")
        notes.step(
            "pests.sum",
            f"first day on which the sum of {_A_DAY[event.method or 'average']} is at or above sum",
            ask,
            week.middle,
            event.sources[0],
        )
        notes.cite(*event.sources)


def _place(day: date, year: int, first_day: int) -> int:
    number = day_numbers(np.array([day], dtype="datetime64[D]"), np.array([year]))[0] - first_day
    if not 0 <= number < YEAR_DAYS:
        raise InputProblem("pests.seen_elsewhere", day=day, year=year)
    return int(number)
