"""The season: the plan, the plan replayed over every past season, and what really happened."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.season.calendar_file import calendar_events
    from gardenlib.season.class_table import ClassCounts
    from gardenlib.season.coordinator import class_counts
    from gardenlib.season.counts import ReplayCounts, replay_counts
    from gardenlib.season.log import lines_of, measure_of, new_entry
    from gardenlib.season.past_families import GrownFamilies, families_by_bed, years_with
    from gardenlib.season.past_weather import PastWeather
    from gardenlib.season.picked import PickedAndGiven, picked_and_given
    from gardenlib.season.plan_row import PlannedPlanting
    from gardenlib.season.planned import plan_dates
    from gardenlib.season.real_days import PlannedAndReal, PlannedDays, RealDays, planned_and_real
    from gardenlib.season.replayed import replay, replay_planned
    from gardenlib.season.task import Task
    from gardenlib.season.task_answer import SeasonTasks
    from gardenlib.season.tasks import season_tasks
    from gardenlib.season.typed import typed_day, typed_number
    from gardenlib.season.weekly_kg import WeeklyYield, weekly_yield

__all__ = [
    "ClassCounts",
    "GrownFamilies",
    "PastWeather",
    "PickedAndGiven",
    "PlannedAndReal",
    "PlannedDays",
    "PlannedPlanting",
    "RealDays",
    "ReplayCounts",
    "SeasonTasks",
    "Task",
    "WeeklyYield",
    "calendar_events",
    "class_counts",
    "families_by_bed",
    "lines_of",
    "measure_of",
    "new_entry",
    "picked_and_given",
    "plan_dates",
    "planned_and_real",
    "replay",
    "replay_counts",
    "replay_planned",
    "season_tasks",
    "typed_day",
    "typed_number",
    "weekly_yield",
    "years_with",
]

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
