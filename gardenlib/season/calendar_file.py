"""The plan as a calendar file that any calendar program can read (RFC 5545)."""

from __future__ import annotations

import hashlib
import unicodedata
from collections.abc import Iterator
from datetime import date, timedelta

from gardenlib.problems import InputProblem
from gardenlib.season.task import Task
from gardenlib.season.task_answer import SeasonTasks
from gardenlib.words import Voice

DOMAIN = "gardenlib.invalid"
LONGEST_LINE = 75
LONGEST_TEXT = 2000
MOST_TASKS = 5000
WEEKDAYS = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
TWICE_A_WEEK = (0, 3)
"""Three and four days apart."""


def calendar_events(
    plan: SeasonTasks, *, plot_id: str, day: date, revision: int = 0, voice: Voice | None = None
) -> bytes:
    """Write a plan's tasks as all-day events of a calendar file.

    Parameters
    ----------
    plan : SeasonTasks
        The plan.
    plot_id : str
        Tells this plot file from others, such as its name; only a hash of it goes into the file.
    day : date
        The day of the plan, for the stamp of each event.
    revision : int
        Revision of the plot file: a program that holds an event takes the newer one.
    voice : Voice, optional
        Language and units of the reader.

    Returns
    -------
    bytes
        The file, UTF-8 with CRLF; the same plan gives the same bytes.

    Raises
    ------
    InputProblem
        When a text is longer than 2,000 letters or there are more than 5,000 tasks.

    Notes
    -----
    Source: RFC 5545, sections 3.1 (lines and folding), 3.3.11 (text), 3.6.1 (events), 3.8.4.7 (UID), 3.8.5.3 (what
    comes again). A task that is done once spans its days; one that goes on comes again twice a week.

    Examples
    --------
    >>> from gardenlib.plot import Planting, Plot
    >>> from gardenlib.season import season_tasks
    >>> from gardenlib.site import FreezeDates
    >>> here = FreezeDates.typed((4, 15), (10, 15), source="class list", latitude=40.0)
    >>> plan = season_tasks(Plot(plantings=[Planting(id="p1", crop="cauliflower")]), here, year=2027, latitude=40.0)
    >>> made = calendar_events(plan, plot_id="my_plot", day=date(2027, 2, 15))
    >>> made.splitlines()[:2]
    [b'BEGIN:VCALENDAR', b'VERSION:2.0']
    """
    if len(plan.tasks) > MOST_TASKS:
        raise InputProblem("calendar_file.tasks", n=len(plan.tasks), most=MOST_TASKS)
    speaker = voice or Voice()
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//gardenlib//season plan//EN", "CALSCALE:GREGORIAN"]
    for task in plan.tasks:
        lines += [
            "BEGIN:VEVENT",
            f"UID:{_uid(plot_id, plan.year, task)}",
            f"DTSTAMP:{day:%Y%m%d}T000000Z",
            f"SEQUENCE:{revision}",
            *_days(task),
            f"SUMMARY:{_text(speaker.say(task.said))}",
            *_beside(task, speaker),
            "TRANSP:TRANSPARENT",
            "END:VEVENT",
        ]
    lines.append("END:VCALENDAR")
    return b"".join(part + b"\r\n" for line in lines for part in _folded(line))


def _uid(plot_id: str, year: int, task: Task) -> str:
    """Give an event the same name each time, whatever its days, and without anybody's name in it."""
    named = "\n".join((plot_id, str(year), task.id))
    return f"{hashlib.sha256(named.encode('utf-8', 'replace')).hexdigest()[:32]}@{DOMAIN}"


def _beside(task: Task, voice: Voice) -> list[str]:
    """Write the caution first, and then the number that it guards."""
    told = "\n".join(voice.say(said) for said in (task.caution, task.more) if said is not None)
    return [f"DESCRIPTION:{_text(told)}"] if told else []


def _days(task: Task) -> list[str]:
    if not task.goes_on:
        return [f"DTSTART;VALUE=DATE:{task.first:%Y%m%d}", f"DTEND;VALUE=DATE:{task.last + timedelta(days=1):%Y%m%d}"]
    on = ",".join(WEEKDAYS[(task.first.weekday() + later) % 7] for later in TWICE_A_WEEK)
    return [
        f"DTSTART;VALUE=DATE:{task.first:%Y%m%d}",
        f"DTEND;VALUE=DATE:{task.first + timedelta(days=1):%Y%m%d}",
        f"RRULE:FREQ=WEEKLY;UNTIL={task.last:%Y%m%d};BYDAY={on}",
    ]


def _text(words: str) -> str:
    """Escape what stands for something else in a text, and drop what may not stand in one."""
    if len(words) > LONGEST_TEXT:
        raise InputProblem("calendar_file.text", n=len(words), most=LONGEST_TEXT, start=words[:40])
    whole = words.replace("\r\n", "\n").replace("\r", "\n")
    kept = "".join(letter for letter in whole if letter == "\n" or unicodedata.category(letter) not in {"Cc", "Cs"})
    for mark in ("\\", ";", ","):
        kept = kept.replace(mark, f"\\{mark}")
    return kept.replace("\n", "\\n")


def _folded(line: str) -> Iterator[bytes]:
    """Fold a line into parts of at most 75 bytes; a letter of several bytes is never cut."""
    part = b""
    for letter in line:
        more = letter.encode("utf-8")
        if len(part) + len(more) > LONGEST_LINE:
            yield part
            part = b" "
        part += more
    yield part
