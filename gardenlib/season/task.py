"""One task of the season, and the days on which the garden is open for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from gardenlib.tables import Crop
from gardenlib.words import Said
from gardenlib.working import Notes

KINDS = (
    "lime",
    "sow_indoors",
    "harden_off",
    "water_on",
    "carry_water",
    "direct_sow",
    "set_out",
    "cover_on",
    "water_check",
    "look",
    "feed",
    "cover_off",
    "harvest",
    "workday",
    "water_off",
)
"""In the order in which they stand when they begin on one day."""
AT_HOME = ("sow_indoors", "harden_off")
"""These need no open garden."""
ALL_THROUGH = ("look", "water_check", "carry_water")
"""These go on from the first day to the last; the others are done once, on any day between."""


@dataclass(frozen=True)
class Task:
    """Something to do, on one day or between two.

    Parameters
    ----------
    id : str
        Stays the same when the days move: the planting and the kind.
    first, last : date
        First and last day on which it can be done, or from which to which it goes on.
    kind : str
        One of `KINDS`.
    crop : Crop or None
        For which crop.
    planting : str or None
        Id of the planting.
    said : Said
        What to do.
    caution : Said or None
        What must be read before `more`; it stands in the same box, in front of it.
    more : Said or None
        A number or a list that goes with it.
    """

    id: str
    first: date
    last: date
    kind: str
    crop: Crop | None
    planting: str | None
    said: Said
    caution: Said | None = None
    more: Said | None = None

    @property
    def goes_on(self) -> bool:
        """Tell whether it is done again and again from the first day to the last."""
        return self.kind in ALL_THROUGH

    @property
    def order(self) -> tuple[date, int, date, str]:
        """By this the tasks of a season are sorted."""
        return self.first, KINDS.index(self.kind), self.last, self.id


@dataclass(frozen=True)
class OpenDays:
    """From when to when the garden is open; None where nothing closes it."""

    opens: date | None
    closes: date | None

    def fit(self, task: Task, notes: Notes) -> Task | None:
        """Move a task into the open days and say so; None where none of its days is open."""
        if task.kind in AT_HOME:
            return task
        first = task.first if self.opens is None else max(task.first, self.opens)
        last = task.last if self.closes is None else min(task.last, self.closes)
        if first > last:
            return None
        if (first, last) != (task.first, task.last):
            notes.say("plan.moved_in", "common_practice", what=task.said, first=first, last=last)
        return replace(task, first=first, last=last)

    def is_open(self, day: date) -> bool:
        """Tell whether a day of any year lies between the two, by month and day."""
        if self.opens is None or self.closes is None:
            return True
        opens, closes, asked = ((when.month, when.day) for when in (self.opens, self.closes, day))
        return opens <= asked <= closes if opens <= closes else asked >= opens or asked <= closes


@dataclass
class Gathered:
    """What comes together while a plan is made."""

    notes: Notes = field(default_factory=Notes)
    tasks: list[Task] = field(default_factory=list)
    not_possible: list[Said] = field(default_factory=list)

    def keep(self, found: Iterator[Task], days: OpenDays) -> None:
        """Keep each task that has an open day, and name the others."""
        for task in found:
            fitted = days.fit(task, self.notes)
            if fitted is None:
                named: Mapping[str, object] = {"what": task.said, "first": task.first, "last": task.last}
                self.not_possible.append(Said("plan.closed_then", named))
            else:
                self.tasks.append(fitted)
