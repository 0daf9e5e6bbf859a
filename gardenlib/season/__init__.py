"""The season: the plan, the plan replayed over every past season, and what really happened."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach

if TYPE_CHECKING:
    from gardenlib.season.calendar_file import calendar_events
    from gardenlib.season.class_table import ClassCounts
    from gardenlib.season.coordinator import class_counts, coordinator_csv
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

__all__: list[str] = [
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
    "coordinator_csv",
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

_HOME: dict[str, str] = {
    "ClassCounts": "class_table",
    "WeeklyYield": "weekly_kg",
    "weekly_yield": "weekly_kg",
    "class_counts": "coordinator",
    "coordinator_csv": "coordinator",
    "lines_of": "log",
    "measure_of": "log",
    "new_entry": "log",
    "GrownFamilies": "past_families",
    "families_by_bed": "past_families",
    "years_with": "past_families",
    "PickedAndGiven": "picked",
    "picked_and_given": "picked",
    "PlannedAndReal": "real_days",
    "PlannedDays": "real_days",
    "RealDays": "real_days",
    "planned_and_real": "real_days",
    "typed_day": "typed",
    "typed_number": "typed",
    "SeasonTasks": "task_answer",
    "Task": "task",
    "calendar_events": "calendar_file",
    "season_tasks": "tasks",
    "PastWeather": "past_weather",
    "PlannedPlanting": "plan_row",
    "plan_dates": "planned",
    "ReplayCounts": "counts",
    "replay": "replayed",
    "replay_counts": "counts",
    "replay_planned": "replayed",
}
__getattr__, __dir__ = attach(__name__, _HOME)
