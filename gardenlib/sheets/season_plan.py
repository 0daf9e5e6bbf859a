"""What stands on the page with the season's plan."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from gardenlib.season import SeasonTasks, Task
from gardenlib.words import Said, Voice


@dataclass(frozen=True)
class PrintedBed:
    """A bed in lines as it is printed: its drawing, its list, and what to get for it.

    Parameters
    ----------
    drawing : str or None
        SVG text.
    alt : str
        The drawing in words.
    head : str
        Where the distances of the lines are measured from.
    rows : sequence of (str, str)
        One row a line: its distance, and what stands there.
    get : sequence of str
        What to get.
    """

    drawing: str | None
    alt: str
    head: str
    rows: Sequence[tuple[str, str]]
    get: Sequence[str]


def when_words(task: Task, voice: Voice) -> str:
    """Say the days of a task: one day, or the first and the last.

    Parameters
    ----------
    task : Task
        The task.
    voice : Voice
        Language of the reader.

    Returns
    -------
    str
        The days.
    """
    return voice.days(task.first, task.last)


def season_plan_data(
    plan: SeasonTasks,
    voice: Voice,
    *,
    place: str,
    told: Sequence[Said] = (),
    bed: PrintedBed | None = None,
) -> dict[str, Any]:
    """Gather the words of the page `season_plan`.

    Parameters
    ----------
    plan : SeasonTasks
        The plan.
    voice : Voice
        Language and units of the reader.
    place : str
        What the place is called.
    told : sequence of Said
        What must be read with the plan.
    bed : PrintedBed, optional
        The bed in lines.

    Returns
    -------
    dict
        Data for `sheet_pdf`.
    """
    say = voice.say
    weeks = [{"week": voice.date(monday, "MMMd"), "tasks": _printed(tasks, voice)} for monday, tasks in plan.by_week()]
    data: dict[str, Any] = {
        "title": say("plan.sheet_title", place=place, year=str(plan.year)),
        "intro": say("plan.sheet_intro"),
        "weeks": weeks,
        "notes_title": say("plan.sheet_notes"),
        "notes": [say(said) for said in (*plan.not_possible, *told)],
    }
    if bed is not None:
        data |= {
            "bed_title": say("plan.sheet_bed"),
            "bed": bed.drawing,
            "bed_alt": bed.alt,
            "bed_head": bed.head,
            "bed_rows": [list(row) for row in bed.rows],
            "get_title": say("plan.sheet_get"),
            "get": list(bed.get),
        }
    return data


def _printed(tasks: Sequence[Task], voice: Voice) -> list[dict[str, str]]:
    """Write the tasks of a week; crops with the same task on the same days stand in one line."""
    crops: dict[tuple[str, ...], list[str]] = {}
    said: dict[tuple[str, ...], Task] = {}
    for task in tasks:
        when = (
            voice.say("plan.from_on", first=voice.date(task.first, "MMMd")) if task.goes_on else when_words(task, voice)
        )
        beside = ("" if words is None else voice.say(words) for words in (task.caution, task.more))
        same = (task.kind if task.crop else task.id, task.said.key, when, *beside)
        said.setdefault(same, task)
        crops.setdefault(same, []).append("" if task.crop is None else voice.value(task.crop.name))
    return [
        {
            "what": _what(voice.say(task.said, crop=", ".join(crops[same])), same[2], task, voice),
            "caution": same[3],
            "more": same[4],
        }
        for same, task in said.items()
    ]


def _what(said: str, when: str, task: Task, voice: Voice) -> str:
    """Write what to do and when; where a list of days stands beside it, that is enough."""
    if task.goes_on and task.more is not None:
        return voice.say("plan.sheet_ongoing", task=said)
    return voice.say("plan.sheet_task", task=said, when=when)
