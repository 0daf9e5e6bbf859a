"""The plan of a season as an answer: its tasks by day and by week."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

import pandas as pd

from gardenlib.season.task import Task
from gardenlib.sowing import week_of
from gardenlib.words import Said
from gardenlib.working import Answer

_COLUMNS = ["week", "first", "last", "kind", "crop", "planting", "id", "said", "caution", "more"]


@dataclass(frozen=True, kw_only=True)
class SeasonTasks(Answer):
    """The tasks of a season.

    Parameters
    ----------
    year : int
        Calendar year of the season's spring.
    tasks : tuple of Task
        By their first day.
    not_possible : tuple of Said
        What the season or the garden's days leave no room for.
    plants : mapping of str to int
        Plants to raise by crop id, of those that are sown indoors and whose number was saved.
    """

    year: int
    tasks: tuple[Task, ...]
    not_possible: tuple[Said, ...]
    plants: Mapping[str, int]

    @property
    def table(self) -> pd.DataFrame:
        """One row a task: week (its Monday), first, last, kind, crop, planting, id, said, caution, more."""
        table = [
            (
                week_of(task.first),
                task.first,
                task.last,
                task.kind,
                None if task.crop is None else task.crop.id,
                task.planting,
                task.id,
                task.said,
                task.caution,
                task.more,
            )
            for task in self.tasks
        ]
        return pd.DataFrame(table, columns=_COLUMNS)

    def between(self, first: date, last: date) -> tuple[Task, ...]:
        """Give the tasks that have a day between two days, both counted.

        Parameters
        ----------
        first, last : date
            The two days.

        Returns
        -------
        tuple of Task
            In the order of their first days.
        """
        return tuple(task for task in self.tasks if task.first <= last and task.last >= first)

    def weeks(self, first: date, count: int) -> tuple[Task, ...]:
        """Give the tasks of so many weeks from a day on.

        Parameters
        ----------
        first : date
            The first day.
        count : int
            Weeks.

        Returns
        -------
        tuple of Task
            In the order of their first days.
        """
        return self.between(first, first + timedelta(days=7 * count - 1))

    def next_from(self, day: date) -> Task | None:
        """Give the task that begins first, on a day or after it.

        Parameters
        ----------
        day : date
            The day.

        Returns
        -------
        Task or None
            None after the last.
        """
        return next((task for task in self.tasks if task.first >= day), None)

    def mondays(self, today: date) -> list[date]:
        """List the weeks that can be asked for: from today's, or the first task's where that is earlier.

        Parameters
        ----------
        today : date
            Which day it is.

        Returns
        -------
        list of date
            Mondays.
        """
        if not self.tasks:
            return [week_of(today)]
        first, last = week_of(min(today, self.tasks[0].first)), week_of(self.tasks[-1].first)
        return [first + timedelta(days=day) for day in range(0, (last - first).days + 1, 7)]

    def begun_before(self, day: date) -> int:
        """Count the tasks that begin before a day.

        Parameters
        ----------
        day : date
            The day.

        Returns
        -------
        int
            How many.
        """
        return sum(task.first < day for task in self.tasks)

    def by_week(self) -> list[tuple[date, list[Task]]]:
        """Group the tasks by the Monday of the week in which they begin.

        Returns
        -------
        list of (date, list of Task)
            Weeks with a task, in order.
        """
        found: dict[date, list[Task]] = {}
        for task in self.tasks:
            found.setdefault(week_of(task.first), []).append(task)
        return list(found.items())
